/** The sheet as it is worked with: pointer and keyboard on it become reveals, drags, zooms. */
import { useMemo, useRef } from 'preact/hooks';
import type { PictureData } from '../../language/pictures/data.ts';
import { steppedValue } from '../../language/pictures/handles.ts';
import type { Layout, SheetView } from '../../language/pictures/layout.ts';
import type { Layer } from '../../language/pictures/parts.tsx';
import { readingAt } from '../../language/pictures/reading.ts';
import {
  isIn,
  Moment,
  type Scene,
  type SheetPart,
  Still,
  sameFor,
  sheetParts,
} from '../../language/pictures/sheet.tsx';
import type { Spot } from '../../language/pictures/spots.ts';
import { thingsAt } from '../../language/pictures/things.ts';
import type { Picture } from './delivery.ts';
import { type Drag, draggedValue, placeAt } from './drag.ts';
import type { Hover } from './hover.ts';
import { Crosshair, Handles, Highlight } from './overlay.tsx';
import { useTurn } from './turns.ts';
import { useWords } from './words.ts';

/** A picture laid out, for a view of any time. */
export type Numbered = Scene & Picture;

export interface FiguresProps {
  /** What all parts are to be drawn from: for some frames after a change some have what was before it. */
  readonly scene: Numbered;
  readonly time: number;
  readonly hover: Hover;
  /** Where the cursor in the text is. */
  readonly cursor: { readonly file: string; readonly offset: number; readonly line: number } | undefined;
  readonly drag: Drag | undefined;
  /** Nothing can be changed: the text is broken. */
  readonly off: boolean;
  readonly change: (view: Partial<SheetView>) => void;
  readonly setDrag: (drag: Drag | undefined, drop: boolean) => void;
  /** Goes to a thing of a picture. */
  readonly follow: (thing: string, data: PictureData) => void;
  readonly act: (action: string) => void;
  readonly refuse: (id: string) => void;
  readonly zoomAt: (factor: number, x: number) => void;
}

export function Figures(props: FiguresProps) {
  const t = useWords();
  const { scene, time, hover, cursor, drag, off } = props;
  const sheet = useRef<HTMLDivElement>(null);
  const place = (): Element | null => sheet.current;
  // What can be taken hold of, and what moves, have turns of their own. Both hang on what the plan hangs on.
  const over = useTurn('over', scene, sameAsPlan, place);
  const moment = useTurn('moment', scene, sameAsPlan, place);
  const { data, layout, number } = over ?? scene;
  const view = useMemo(() => ({ ...(over ?? scene).view, time }), [over ?? scene, time]);
  const pan = useRef<
    | {
        readonly x: number;
        readonly y: number;
        readonly moved: boolean;
        readonly view: SheetView;
        readonly time: boolean;
      }
    | undefined
  >(undefined);
  const grips = useMemo(
    () => over && <Handles data={over.data} view={over.view} layout={over.layout} drag={drag} off={off} />,
    [over, drag, off],
  );
  const [moving, said] = useMemo(() => {
    if (!moment) return [];
    const shown = { data: moment.data, view: { ...moment.view, time }, layout: moment.layout, id: 'bl', t };
    return [<Moment {...shown} layer="marks" />, <Moment {...shown} layer="words" />];
  }, [moment, time, t]);
  const frames = useMemo(
    () =>
      over &&
      cursor && (
        <Highlight
          data={over.data}
          view={over.view}
          layout={over.layout}
          things={thingsAt(over.data, cursor.file, cursor.offset)}
          line={cursor.line}
        />
      ),
    [over, cursor],
  );
  // Of which picture a part is that is clicked: some may still be of the one before.
  const pictures = useRef(new Map<string, PictureData>());
  const spot = (event: PointerEvent | WheelEvent | MouseEvent): Spot => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  /** The picture that something drawn is of. */
  const dataOf = (target: Element): PictureData => {
    const part = target.closest('[data-unit]')?.getAttribute('data-unit');
    const layer: Layer = target.closest('.words') ? 'words' : 'marks';
    return pictures.current.get(`${part} ${layer}`) ?? (target.closest('.moving') ? moment?.data : undefined) ?? data;
  };

  const down = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const target = event.target as Element;
    const id = target.closest('[data-handle]')?.getAttribute('data-handle');
    const at = spot(event);
    if (id && !off) {
      const handle = data.handles.find(each => each.id === id);
      if (!handle) return;
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      (target.closest('[data-handle]') as SVGElement).focus();
      const from = placeAt(handle, layout, at);
      props.setDrag({ handle, picture: number, value: handle.value, byKey: false, from }, false);
      event.preventDefault();
      return;
    }
    const inTime = at.y >= layout.time.y && at.y <= layout.time.y + layout.time.h;
    if (inTime && at.x < layout.chart.x) {
      pan.current = { ...at, moved: true, view, time: true };
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      props.change({ time: within(layout.timeAt(at.y), view, data) });
      return;
    }
    pan.current = { ...at, moved: false, view, time: false };
  };

  const move = (event: PointerEvent): void => {
    const at = spot(event);
    if (drag && !drag.byKey) {
      const value = draggedValue(drag, placeAt(drag.handle, layout, at), event.altKey);
      if (value !== drag.value) props.setDrag({ ...drag, value }, false);
      return;
    }
    const held = pan.current;
    if (held && event.buttons === 1) {
      if (held.time) {
        props.change({ time: within(layout.timeAt(at.y), view, data) });
        return;
      }
      if (held.moved || Math.hypot(at.x - held.x, at.y - held.y) > 4) {
        if (!held.moved) (event.currentTarget as Element).setPointerCapture(event.pointerId);
        pan.current = { ...held, moved: true };
        props.change(panned(held.view, data, layout, at.x - held.x, at.y - held.y));
      }
      return;
    }
    hover.set({ ...at, text: readingAt(data, view, layout, at.x, at.y, t) });
  };

  const up = (event: PointerEvent): void => {
    if (drag && !drag.byKey) {
      props.setDrag(drag, true);
      return;
    }
    const held = pan.current;
    pan.current = undefined;
    if (held?.moved) return;
    const target = event.target as Element;
    const refused = target.closest('[data-refused]')?.getAttribute('data-refused');
    if (refused) {
      props.refuse(refused);
      return;
    }
    if (target.closest('[data-handle]')) return;
    const action = target.closest('[data-act]')?.getAttribute('data-act');
    if (action) {
      props.act(action);
      return;
    }
    const thing = target.closest('[data-thing]')?.getAttribute('data-thing');
    if (thing) props.follow(thing, dataOf(target));
  };

  const wheel = (event: WheelEvent): void => {
    const at = spot(event);
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      props.zoomAt(event.deltaY > 0 ? 1.25 : 0.8, at.x);
    } else if (view.span && at.y >= layout.time.y && at.y <= layout.time.y + layout.time.h) {
      event.preventDefault();
      props.change(panned(view, data, layout, 0, -event.deltaY));
    } else if (event.shiftKey && view.along) {
      event.preventDefault();
      props.change(panned(view, data, layout, -(event.deltaX || event.deltaY), 0));
    }
  };

  const key = (event: KeyboardEvent): void => {
    const target = event.target as Element;
    if (event.key === 'Escape' && drag) {
      props.setDrag(undefined, false);
      event.preventDefault();
      return;
    }
    const id = target.getAttribute('data-handle');
    const handle = id === null || off ? undefined : data.handles.find(each => each.id === id);
    if (handle) {
      keyOnHandle(
        event,
        drag?.handle.id === handle.id ? drag : { handle, picture: number, value: handle.value, byKey: true, from: 0 },
        props,
      );
      return;
    }
    if (event.key !== 'Enter' && event.key !== ' ') return;
    const refused = target.getAttribute('data-refused');
    const action = target.getAttribute('data-act');
    const thing = target.getAttribute('data-thing');
    if (refused) props.refuse(refused);
    else if (action) props.act(action);
    else if (thing) props.follow(thing, dataOf(target));
    else return;
    event.preventDefault();
  };

  const { width, height } = scene.layout;
  const size = { width, height, viewBox: `0 0 ${width} ${height}` };
  const still = (layer: Layer) =>
    sheetParts
      .filter(part => isIn(part, layer))
      .map(part => <Part part={part} layer={layer} scene={scene} place={place} pictures={pictures.current} />);
  return (
    <div
      ref={sheet}
      class="sheet"
      role="group"
      aria-label={t('Runway, soak, passes and machines')}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={() => {
        pan.current = undefined;
        if (drag) props.setDrag(undefined, false);
      }}
      onPointerLeave={() => hover.set(undefined)}
      onWheel={wheel}
      onKeyDown={key}
      onFocusIn={event => {
        // Whole, not only its edge: where the figures are scrolled sideways.
        const target = event.target as Element;
        if (target.matches('[data-handle]:focus-visible'))
          target.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      }}
      onFocusOut={event => {
        if (drag?.byKey && (event.target as Element).getAttribute('data-handle') === drag.handle.id) {
          props.setDrag(undefined, false);
        }
      }}
    >
      {/* Four layers, each a picture of its own: moving what moves paints neither the marks below it nor the words above it. */}
      <svg class="bl-sheet" role="presentation" {...size}>
        {still('marks')}
      </svg>
      <svg class="bl-sheet layer moving" role="presentation" {...size}>
        {moving}
        <Crosshair layout={layout} hover={hover} />
      </svg>
      <svg class="bl-sheet layer words" role="presentation" {...size}>
        {still('words')}
      </svg>
      <svg class="bl-sheet layer over" role="presentation" {...size}>
        {said}
        {frames}
        {grips}
      </svg>
    </div>
  );
}

/** A part of what the time does not move, in one layer: drawn in its turn, and only when it would be another picture. */
function Part({
  part,
  layer,
  scene,
  place,
  pictures,
}: {
  readonly part: SheetPart;
  readonly layer: Layer;
  readonly scene: Numbered;
  readonly place: () => Element | null;
  /** Where it notes of which picture it is. */
  readonly pictures: Map<string, PictureData>;
}) {
  const t = useWords();
  const name = `${part} ${layer}`;
  const drawn = useTurn(name, scene, (a, b) => sameFor(part, a, b), place);
  if (drawn) pictures.set(name, drawn.data);
  return useMemo(
    () =>
      drawn && (
        <Still part={part} layer={layer} data={drawn.data} view={drawn.view} layout={drawn.layout} id="bl" t={t} live />
      ),
    [part, layer, drawn, t],
  );
}

function sameAsPlan(a: Numbered, b: Numbered): boolean {
  return a.number === b.number && sameFor('plan', a, b);
}

function keyOnHandle(event: KeyboardEvent, drag: Drag, { setDrag }: Pick<FiguresProps, 'setDrag'>): void {
  const { handle } = drag;
  const step = event.altKey ? handle.fine : handle.step;
  // Arrows move what is seen: to the right and down along the axis, whichever way the number grows.
  const along = handle.at.axis === 'x' ? ['ArrowLeft', 'ArrowRight'] : ['ArrowUp', 'ArrowDown'];
  const sense = Math.sign(handle.factor) || 1;
  const moves: Readonly<Record<string, number>> = {
    [along[0]!]: -sense * step,
    [along[1]!]: sense * step,
    PageUp: 5 * step,
    PageDown: -5 * step,
  };
  const by = moves[event.key];
  if (by !== undefined) {
    event.preventDefault();
    setDrag({ ...drag, byKey: true, value: steppedValue(handle, drag.value + by, event.altKey) }, false);
  } else if (event.key === 'Enter' && drag.value !== handle.value) {
    event.preventDefault();
    setDrag(drag, true);
  }
}

function within(time: number, view: SheetView, data: PictureData): number {
  const night = data.nights[view.night]!;
  return Math.round(Math.min(night.end, Math.max(night.start, time)) / 60) * 60;
}

/** The view moved by so many pixels, no further than there is something. */
function panned(view: SheetView, data: PictureData, layout: Layout, dx: number, dy: number): Partial<SheetView> {
  const moved: { along?: SheetView['along'] & {}; span?: SheetView['span'] & {} } = {};
  if (view.along?.length === 1 && dx !== 0) {
    const runway = data.runways[view.runway]!;
    const [a, b] = view.along[0]!;
    const low = Math.min(...runway.stretches.map(each => each[0]));
    const high = Math.max(...runway.stretches.map(each => each[1]));
    const by = Math.min(Math.max(-dx / layout.along.scale, low - a), Math.max(0, high - b));
    moved.along = [[a + by, b + by]];
  }
  if (view.span && dy !== 0) {
    const night = data.nights[view.night]!;
    const [a, b] = view.span;
    const by = Math.min(Math.max((-dy * (b - a)) / layout.time.h, night.start - a), Math.max(0, night.end - b));
    moved.span = [a + by, b + by];
  }
  return moved;
}
