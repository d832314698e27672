/** What lies over the sheet: the crosshair, what the cursor in the text means, the handles. */
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { PictureData } from '../../language/pictures/data.ts';
import type { Handle, Refusal } from '../../language/pictures/handles.ts';
import { writtenValue } from '../../language/pictures/handles.ts';
import type { Layout, SheetView } from '../../language/pictures/layout.ts';
import { columnsOf } from '../../language/pictures/nightSheet.tsx';
import { r, T } from '../../language/pictures/parts.tsx';
import { timePart } from '../../language/pictures/passChart.tsx';
import { polygon, ringBoxes, WorstRings } from '../../language/pictures/plan.tsx';
import { handleBoxes, spotOf } from '../../language/pictures/spots.ts';
import { type Anchor, type Box, boxOf, newRoom, textWidth } from '../../language/pictures/text.ts';
import { tell } from '../../language/pictures/words.ts';
import type { Range } from '../../language/tracks/track.ts';
import { changeText, type Drag, movedBy } from './drag.ts';
import type { Hover, Point } from './hover.ts';
import { useWords } from './words.ts';

export interface OverProps {
  readonly data: PictureData;
  readonly view: SheetView;
  readonly layout: Layout;
}

/** One line through every figure that shares the axis under the pointer. */
export function Crosshair({ layout, hover }: Pick<OverProps, 'layout'> & { readonly hover: Hover }) {
  const [point, setPoint] = useState<Point | undefined>(undefined);
  useEffect(() => hover.listen(setPoint), [hover]);
  if (!point) return null;
  const { plan, map, time, chart, right } = layout;
  const inChart = point.x >= chart.x && point.x <= chart.x + chart.w;
  const inTime = point.y >= time.y && point.y <= time.y + time.h;
  const inMap = point.y >= map.y && point.y <= map.y + map.h;
  const columns = [
    [plan.y, plan.y + plan.h],
    [map.y, map.y + map.h],
    [time.y, time.y + time.h],
  ];
  return (
    <g aria-hidden="true">
      {inChart && <path class="cross" d={columns.map(([a, b]) => `M${r(point.x)} ${r(a!)}V${r(b!)}`).join('')} />}
      {(inTime || inMap) && (
        <path
          class="cross"
          d={`M${r(chart.x)} ${r(point.y)}H${r(chart.x + chart.w)}M${r(right.x)} ${r(point.y)}H${r(right.x + right.w)}`}
        />
      )}
    </g>
  );
}

// ── the cursor of the text ───────────────────────────────────────────────────────────────────────────────────────

/** Frames about the things that the cursor in the text stands in, and the line's number. */
export function Highlight({
  data,
  view,
  layout,
  things,
  line,
}: OverProps & { readonly things: readonly string[]; readonly line: number | undefined }) {
  const t = useWords();
  const paths = things.flatMap(thing => framesOf(thing, data, view, layout));
  const first = paths[0];
  if (!first) return null;
  return (
    <g class="highlight" aria-hidden="true" pointer-events="none">
      {paths.map(({ d }) => (
        <path class="select" d={d} />
      ))}
      {line !== undefined && (
        <LineChip
          text={t('line {0}', line)}
          frame={first}
          marks={[
            // The sides are seen only under the pointer, and lie over it then.
            ...handleBoxes(data, view, layout, ({ moves }) => moves !== 'deposit side'),
            ...ringBoxes({ data, view, layout }),
          ]}
        />
      )}
    </g>
  );
}

const chipHeight = 16;

/** What is framed stands on this line: at an edge of the frame, where it covers neither words nor marks. */
function LineChip({ text, frame, marks }: { text: string; frame: Frame; marks: readonly Box[] }) {
  const chip = useRef<SVGGElement>(null);
  const w = textWidth(text) + 10;
  useLayoutEffect(() => {
    // The words lie in another layer, and have had their turn.
    const room = newRoom();
    for (const box of [...marks, ...wordBoxes()]) room.keep(box);
    const [x0, x1] = frame.x;
    const places = frame.y.flatMap(y => [x1 - w, x0, (x0 + x1 - w) / 2].map(x => ({ x, y: y - chipHeight })));
    const { x, y } = places.find(each => room.isFree({ ...each, w, h: chipHeight }, 0)) ?? places[0]!;
    chip.current?.setAttribute('transform', `translate(${r(x)} ${r(y)})`);
  });
  return (
    <g ref={chip}>
      <rect class="pill" width={r(w)} height={chipHeight} />
      <T x={w / 2} y={chipHeight - 4} anchor="middle" tone="chip">
        {text}
      </T>
    </g>
  );
}

/** What the words of the figures cover, told from their elements without having them laid out. */
function wordBoxes(): readonly Box[] {
  return [...document.querySelectorAll('.words [data-unit] text')].map(each => {
    const at = (name: string): number => Number(each.getAttribute(name));
    const anchor = (each.getAttribute('text-anchor') ?? 'start') as Anchor;
    const size = ([15, 13, 12] as const).find(px => each.classList.contains(`t${px}`));
    return boxOf(each.textContent ?? '', at('x'), at('y'), anchor, size, each.classList.contains('b'));
  });
}

interface Frame {
  readonly d: string;
  /** From its left to its right edge. */
  readonly x: Range;
  /** Where the lower edge of a chip may be, in order. */
  readonly y: readonly number[];
}

function framesOf(thing: string, data: PictureData, view: SheetView, layout: Layout): readonly Frame[] {
  const { along, plan, map, planY, chart, right } = layout;
  const [kind, at] = thing.split('/');
  const i = Number(at);
  const box = (x0: number, y0: number, x1: number, y1: number): Frame => ({
    d: `M${r(x0)} ${r(y0)}H${r(x1)}V${r(y1)}H${r(x0)}Z`,
    x: [x0, x1],
    y: Array.from({ length: Math.max(1, Math.floor((y1 - y0) / 8) - 1) }, (_, i) => y1 - 8 * i),
  });
  const bays = (work: number) =>
    data.bays
      .filter(bay => bay.work === work && data.works[work]!.runway === view.runway)
      .flatMap(bay => {
        const part = along.part(bay.x);
        if (!part) return [];
        const own = data.activities.filter(
          each =>
            each.night === view.night && each.work === work && each.bay === bay.number && each.does !== 'wash-down',
        );
        const spent =
          own.length === 0
            ? undefined
            : timePart(layout, [Math.min(...own.map(each => each.start)), Math.max(...own.map(each => each.end))]);
        return [
          box(part[0], plan.y, part[1], plan.y + plan.h),
          box(part[0], map.y, part[1], map.y + map.h),
          ...(spent ? [box(part[0], spent[0], part[1], spent[1])] : []),
        ];
      });
  switch (kind) {
    case 'deposit': {
      const deposit = data.deposits[i];
      if (!deposit || deposit.runway !== view.runway) return [];
      const xs = deposit.outline.map(([x]) => x);
      const part = along.part([Math.min(...xs), Math.max(...xs)]);
      if (!part) return [];
      // At the upper or lower edge of the pavement, inside the handles of bays and works.
      return [
        { d: polygon(deposit.outline, along, planY), x: part, y: [plan.y + 8 + chipHeight, plan.y + plan.h - 10] },
      ];
    }
    case 'work':
      return bays(i);
    case 'machine': {
      const columns = columnsOf(data, layout, view.night);
      const x = columns.machine(i);
      return [box(x + 1, layout.time.y - 17, x + columns.w - 1, layout.time.y + layout.time.h)];
    }
    case 'activity': {
      const activity = data.activities[i];
      if (!activity || activity.night !== view.night) return [];
      const spent = timePart(layout, [activity.start, activity.end]);
      const bay = data.bays.find(each => each.work === activity.work && each.number === activity.bay);
      const part = bay && data.works[bay.work]!.runway === view.runway ? along.part(bay.x) : undefined;
      return spent && part ? [box(part[0], spent[0], part[1], spent[1])] : [];
    }
    case 'night': {
      if (i !== view.night) return [];
      const y = layout.time.y;
      return [box(chart.x - 3, y - 2, right.x + right.w + 2, y + layout.time.h + 2)];
    }
    default:
      return [];
  }
}

// ── handles ──────────────────────────────────────────────────────────────────────────────────────────────────────

export interface HandlesProps extends OverProps {
  readonly drag: Drag | undefined;
  /** Deposits whose sides can be dragged all the time: the cursor stands in them. */
  readonly off: boolean;
}

export function Handles({ data, view, layout, drag, off }: HandlesProps) {
  if (off) return null;
  return (
    <g>
      {data.refusals.map(refusal => {
        const spot = spotOf(refusal, data, view, layout);
        return spot ? <Refused refusal={refusal} x={spot.x} y={spot.y} /> : null;
      })}
      {data.handles.map(handle => {
        const held = drag?.handle.id === handle.id ? drag : undefined;
        const own = held?.handle ?? handle;
        const spot = spotOf(own, data, view, layout, held ? movedBy(held) : 0);
        return spot ? (
          <Grip handle={own} value={held?.value ?? own.value} dragged={held !== undefined} x={spot.x} y={spot.y} />
        ) : null;
      })}
      {/* A handle on the worst place must not hide it. */}
      <WorstRings data={data} view={view} layout={layout} />
      {drag && <DragChip {...{ data, view, layout }} drag={drag} />}
    </g>
  );
}

function Grip({
  handle,
  value,
  dragged,
  x,
  y,
}: {
  handle: Handle;
  value: number;
  dragged: boolean;
  x: number;
  y: number;
}) {
  const t = useWords();
  const text = writtenValue(handle, value);
  const name = ['handle-group', handle.at.axis, handle.moves === 'deposit side' && 'side', dragged && 'dragged']
    .filter(Boolean)
    .join(' ');
  return (
    <g
      class={name}
      transform={`translate(${r(x)} ${r(y)})`}
      data-handle={handle.id}
      role="slider"
      tabindex={0}
      aria-label={tell(t, handle.name)}
      aria-valuenow={value}
      aria-valuemin={handle.least}
      aria-valuemax={handle.most}
      aria-valuetext={dragged ? t('{0}, Enter writes it, Escape leaves it', text) : text}
      aria-orientation={handle.at.axis === 'x' ? 'horizontal' : 'vertical'}
    >
      <title>{t('{0}: {1}. Drag, or use the arrow keys and Enter.', tell(t, handle.name), text)}</title>
      <rect class="hit" x="-9" y="-9" width="18" height="18" />
      <Shape moves={handle.moves} />
    </g>
  );
}

function Refused({ refusal, x, y }: { refusal: Refusal; x: number; y: number }) {
  const t = useWords();
  return (
    <g
      class={`handle-group refused${refusal.moves === 'deposit side' ? ' side' : ''}`}
      transform={`translate(${r(x)} ${r(y)})`}
      data-refused={refusal.id}
      role="img"
      tabindex={0}
      aria-label={`${tell(t, refusal.name)}. ${tell(t, refusal.why)}`}
    >
      <title>{tell(t, refusal.why)}</title>
      <rect class="hit" x="-9" y="-9" width="18" height="18" />
      <Shape moves={refusal.moves} />
    </g>
  );
}

function Shape({ moves }: { moves: Handle['moves'] }) {
  switch (moves) {
    case 'work end':
      return (
        <>
          <path class="handle" d="M0 -8L5 -2V7H-5V-2Z" />
          <path class="handle-line" d="M-1.2 -1V5M1.2 -1V5" />
        </>
      );
    case 'bay boundary':
      return <path class="handle" d="M0 -6L6 0L0 6L-6 0Z" />;
    case 'deposit end':
      return (
        <>
          <rect class="handle" x="-4" y="-7" width="8" height="14" />
          <path class="handle-line" d="M-1.2 -4V4M1.2 -4V4" />
        </>
      );
    default:
      return (
        <>
          <rect class="handle" x="-8" y="-3.5" width="16" height="7" />
          <path class="handle-line" d="M-4 -1H4M-4 1.2H4" />
        </>
      );
  }
}

/** The old and the new number beside the handle that is dragged. */
function DragChip({ data, view, layout, drag }: OverProps & { readonly drag: Drag }) {
  const spot = spotOf(drag.handle, data, view, layout, movedBy(drag));
  if (!spot) return null;
  const text = changeText(drag);
  const w = textWidth(text, 12, true) + 12;
  const x = Math.min(Math.max(spot.x - w / 2, 2), layout.width - w - 2);
  const y = Math.max(2, spot.y - 32);
  return (
    <g aria-hidden="true" pointer-events="none">
      <rect class="pill" x={r(x)} y={r(y)} width={r(w)} height="19" rx="2" />
      <T x={x + w / 2} y={y + 14} anchor="middle" size={12} bold tone="chip">
        {text}
      </T>
    </g>
  );
}
