/**
 * The preview: one sheet for a job. What it shows comes from the host; what it keeps is what is looked at. The last good
 * picture stays, greyed, while the text can't be read.
 */
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { PictureData } from '../../language/pictures/data.ts';
import {
  firstView,
  type Layout,
  layoutOf,
  leastWidth,
  legibleAlong,
  nightView,
  type SheetView,
  spanOf,
} from '../../language/pictures/layout.ts';
import type { Table } from '../../language/pictures/tables.ts';
import { placeOfThing } from '../../language/pictures/things.ts';
import { type Said, tell } from '../../language/pictures/words.ts';
import type { Range } from '../../language/tracks/track.ts';
import type { Place } from '../../language/vocabulary/given.ts';
import { Bar } from './bar.tsx';
import type { Channel } from './channel.ts';
import type { Picture } from './delivery.ts';
import { type Drag, dragText, editOf } from './drag.ts';
import { exportPicture } from './exporting.ts';
import { Figures } from './figures.tsx';
import { HeadInTurn } from './head.tsx';
import { createHover } from './hover.ts';
import { Incoming } from './incoming.ts';
import { Lists } from './lists.tsx';
import { Turns, TurnsContext } from './turns.ts';
import { useWords } from './words.ts';

interface Trouble {
  readonly headline: string;
  readonly detail: string;
  readonly place?: Place;
}

interface Cursor {
  readonly file: string;
  readonly offset: number;
  readonly line: number;
}

export function App({ channel }: { channel: Channel }) {
  const t = useWords();
  const [picture, setPicture] = useState<Picture | undefined>(undefined);
  const [answer, setAnswer] = useState<Picture | undefined>(undefined);
  const turns = useMemo(() => new Turns(tellBusy), []);
  useEffect(() => () => turns.stop(), [turns]);
  const [trouble, setTrouble] = useState<Trouble | undefined>(undefined);
  const [computing, setComputing] = useState(false);
  const [cursor, setCursor] = useState<Cursor | undefined>(undefined);
  const [view, setView] = useState<SheetView | undefined>(undefined);
  const [drag, setDragState] = useState<Drag | undefined>(undefined);
  const [refusal, setRefusal] = useState<Said | undefined>(undefined);
  const [opened, setOpened] = useState<readonly string[]>(() => channel.kept().tables ?? ['quantities']);
  const hover = useMemo(createHover, []);
  const since = useRef('');
  const asked = useRef(0);
  const data = picture?.data;
  const latest = useRef<{
    /** What is drawn, and how. */
    data: PictureData | undefined;
    view: SheetView | undefined;
    layout: Layout | undefined;
    /** The last picture of the text. */
    shown: PictureData | undefined;
  }>({ data, view, layout: undefined, shown: undefined });

  // ── what the host says ──
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const incoming = new Incoming(turns, () => channel.post({ type: 'whole' }));
    const quiet = (): void => {
      clearTimeout(timer);
      setComputing(false);
    };
    const stop = channel.listen(message => {
      switch (message.type) {
        case 'show':
          quiet();
          setTrouble(undefined);
          since.current = message.clock;
          incoming.take(message.picture, 'show', shown => {
            setAnswer(undefined);
            setView(before => viewFor(shown.data, before, latest.current.shown, channel));
            latest.current.shown = shown.data;
            setPicture(shown);
          });
          break;
        case 'broken': {
          quiet();
          incoming.finish();
          const kept = since.current === '' ? '' : ` ${t('The picture is that of {0}.', since.current)}`;
          setTrouble({
            headline:
              message.line === undefined ? t('The text can’t be read') : t('Line {0} can’t be read', message.line),
            detail: `${message.message}${kept}`,
            ...(message.place && { place: message.place }),
          });
          setDragState(undefined);
          break;
        }
        case 'fault':
          quiet();
          incoming.finish();
          setTrouble({
            headline: t('The engine failed'),
            detail: [
              message.message,
              ...(since.current === '' ? [] : [t('The picture is that of {0}.', since.current)]),
              t('Please report it.'),
            ].join(' '),
          });
          setDragState(undefined);
          break;
        case 'computing':
          // The old picture is enough for a moment.
          clearTimeout(timer);
          timer = setTimeout(() => setComputing(true), 200);
          break;
        case 'cursor':
          setCursor({ file: message.file, offset: message.offset, line: message.line });
          break;
        case 'whatIf':
          incoming.take(message.picture, 'whatIf', tried => {
            if (message.id === asked.current) setAnswer(tried);
          });
          break;
        case 'export':
          incoming.finish();
          // What has come is shown first.
          setTimeout(() => {
            const { data: drawn, view: shown, layout } = latest.current;
            void exportPicture(message.format, drawn, shown, layout, t)
              .then(content => channel.post({ type: 'exported', id: message.id, format: message.format, content }))
              .catch((error: unknown) => channel.post({ type: 'failed', message: String(error) }));
          }, 0);
          break;
      }
    });
    channel.post({ type: 'ready' });
    return () => {
      clearTimeout(timer);
      incoming.stop();
      stop();
    };
  }, [channel, t, turns]);

  // ── size ──
  const figures = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const measure = useCallback(() => {
    const box = figures.current;
    if (!box) return;
    const head = document.querySelector('.head')?.getBoundingClientRect().height ?? 0;
    const bar = document.querySelector('.control-bar')?.getBoundingClientRect().height ?? 60;
    const width = Math.max(leastWidth, Math.floor(box.clientWidth));
    // A sheet wider than its place is scrolled; the scroll bar takes its part of the height.
    const height = Math.floor(window.innerHeight - head - bar - (box.offsetHeight - box.clientHeight));
    setSize(before => (before.width === width && Math.abs(before.height - height) < 2 ? before : { width, height }));
  }, []);
  // The figures are measured when the head stands above them: their height is what it leaves.
  const [headed, setHeaded] = useState(false);
  useLayoutEffect(() => {
    if (!headed) return undefined;
    measure();
    const observer = new ResizeObserver(measure);
    for (const each of document.querySelectorAll('.head, .figures, .control-bar')) observer.observe(each);
    window.addEventListener('resize', measure);
    return () => {
      observer.disconnect();
      window.removeEventListener('resize', measure);
    };
    // The bar is there once the first measure has given a size.
  }, [headed, measure, size.width > 0]);

  // ── what is shown ──
  // What was tried stays after its drop, until the text is read anew.
  const current = answer ?? picture;
  const shown = current?.data;
  const held = useRef<{ readonly key: string; readonly along: readonly Range[] } | undefined>(undefined);
  const drawable =
    shown !== undefined &&
    view !== undefined &&
    shown.runways.length > 0 &&
    shown.nights.length > 0 &&
    shown.works.length > 0;
  const safeView = useSame(drawable ? fitted(shown, view) : undefined);
  // A clock that is too long to be read is shown in parts, and goes with the time.
  const part = safeView && !safeView.span ? spanOf(shown!, safeView)[0] : undefined;
  const alongOf = (safe: SheetView): readonly Range[] => {
    if (safe.along) return safe.along;
    // The axis stands still while something is typed or dragged: it changes only when the ground leaves it.
    const key = `${shown!.file} ${safe.runway} ${safe.night} ${size.width}`;
    const fresh = legibleAlong(shown!, safe, size.width);
    const before = held.current;
    if (before?.key !== key || !(drag || covers(before.along, fresh))) held.current = { key, along: fresh };
    return held.current!.along;
  };
  const along = safeView && size.width > 0 ? alongOf(safeView) : undefined;
  const layout = useMemo(
    () => safeView && along && layoutOf(shown!, { ...safeView, along }, size.width, size.height),
    [shown, safeView?.runway, safeView?.night, along, safeView?.span, part, safeView?.across, size.width, size.height],
  );
  latest.current = { ...latest.current, data: shown, view: safeView, layout };
  // What the time does not move.
  const still = useSame(safeView && { ...safeView, time: 0 });
  const scene = useMemo(
    () => (current && still && layout ? { ...current, view: still, layout } : undefined),
    [current, still, layout],
  );

  useEffect(() => {
    if (!view || !data) return undefined;
    // Not for every frame of a clock that plays: the host hears of each.
    const timer = setTimeout(() => channel.keep({ view, job: data.job, file: data.file, tables: opened }), 100);
    return () => clearTimeout(timer);
  }, [channel, view, data, opened]);

  // ── what is done ──
  const change = useCallback((part: Partial<SheetView>) => setView(before => before && { ...before, ...part }), []);
  const reveal = useCallback(
    (place: Place) => channel.post({ type: 'reveal', place: { file: place.file, start: place.start, end: place.end } }),
    [channel],
  );
  const off = trouble !== undefined;
  const cure = useCallback(
    ({ data: of, number }: Picture, finding: number, fix: number): void => {
      const chosen = of.findings[finding]?.fixes[fix];
      if (!chosen || off) return;
      channel.post({ type: 'edit', picture: number, edits: chosen.edits.map(copied), what: chosen.title });
    },
    [channel, off],
  );
  const openNight = (night: number): void => {
    if (data && view) setView(withoutAlong(nightView(data, view, night)));
  };
  const toggle = useCallback(
    (key: string, open: boolean): void =>
      setOpened(before => (open ? [...before.filter(each => each !== key), key] : before.filter(each => each !== key))),
    [],
  );
  const copy = useCallback(
    (table: Table, text: string): void => channel.post({ type: 'copy', text, what: table.title }),
    [channel],
  );
  const show = (id: string): void => {
    requestAnimationFrame(() => document.getElementById(id)?.scrollIntoView({ block: 'start' }));
  };
  const act = (action: string): void => {
    const [what, which = ''] = action.split(':');
    if (what === 'night') openNight(Number(which));
    if (what === 'across' && view) {
      const { across, ...rest } = view;
      const next = exaggerations[exaggerations.indexOf(across) + 1];
      setView(next === undefined ? rest : { ...rest, across: next });
    }
    if (what === 'table') {
      toggle(which, true);
      show(`table-${which}`);
    }
  };
  const follow = (thing: string, of: PictureData): void => {
    setRefusal(undefined);
    const [kind, at] = thing.split('/');
    if (kind === 'bay') change({ bay: of.bays[Number(at)]!.id });
    const place = placeOfThing(of, thing);
    if (place) reveal(place);
  };
  const refuse = (id: string): void => setRefusal(data?.refusals.find(each => each.id === id)?.why);
  const setDrag = (next: Drag | undefined, drop: boolean): void => {
    setRefusal(undefined);
    if (!next || drop) {
      const written = next !== undefined && next.value !== next.handle.value;
      if (written)
        channel.post({ type: 'edit', picture: next.picture, edits: [copied(editOf(next))], what: dragText(next, t) });
      else setAnswer(undefined);
      channel.post({ type: 'endWhatIf' });
      asked.current++;
      setDragState(undefined);
      return;
    }
    if (next.value !== (drag?.value ?? next.handle.value))
      channel.post({ type: 'whatIf', id: ++asked.current, picture: next.picture, edits: [copied(editOf(next))] });
    setDragState(next);
  };
  const zoomAt = (factor: number, px: number): void => {
    if (!shown || !safeView || !layout) return;
    setView({ ...safeView, ...zoomed(shown, safeView, layout, factor, layout.along.x(px)) });
  };
  const zoom = (factor: number | 'all'): void => {
    if (!shown || !safeView || !layout) return;
    if (factor === 'all') {
      const { stretches } = shown.runways[safeView.runway]!;
      setView({ ...safeView, along: stretches });
    } else zoomAt(factor, layout.chart.x + layout.chart.w / 2);
  };
  const hours = (times: 1 | 3): void => {
    if (!shown || !safeView) return;
    const [a, b] = spanOf(shown, safeView);
    if (times === 1) {
      const { span: _, ...rest } = safeView;
      setView(rest);
      return;
    }
    const length = (b - a) / 3;
    const from = Math.min(Math.max(a, safeView.time - length / 2), b - length);
    setView({ ...safeView, span: [from, from + length] });
  };

  // ── the document ──
  // Nothing of this is drawn again for a time that moves.
  const before = drag ? data?.verdict.facts : undefined;
  const head = useMemo(
    () =>
      current && (
        <HeadInTurn
          picture={current}
          before={before}
          trouble={trouble}
          computing={computing}
          reveal={reveal}
          cure={cure}
          open={what => show(what === 'sum' ? 'sum' : 'findings')}
          place={`${current.data.file} ${window.innerWidth}`}
          drawn={setHeaded}
        />
      ),
    [current, before, trouble, computing, size.width],
  );
  const lists = useMemo(
    () =>
      current && (
        <Lists picture={current} view={still} opened={opened} toggle={toggle} reveal={reveal} cure={cure} copy={copy} />
      ),
    [current, still, cure, opened],
  );
  const says = drag
    ? `${dragText(drag, t)}. ${drag.byKey ? t('Enter writes it, Escape leaves it as it was.') : t('Let go to write it, Escape leaves it as it was.')}`
    : refusal && tell(t, refusal);
  const bar = useMemo(
    () =>
      shown &&
      layout &&
      safeView && (
        <Bar
          data={shown}
          view={safeView}
          off={off}
          says={says}
          hover={hover}
          change={change}
          openNight={openNight}
          zoom={zoom}
          hours={hours}
        />
      ),
    [shown, data, view, layout, safeView, off, says],
  );
  if (!data || !view || !shown) return <Waiting trouble={trouble} reveal={reveal} />;
  return (
    <TurnsContext.Provider value={turns}>
      <div class={off ? 'stale' : ''}>
        {head}
        <div class="body">
          <main>
            <div class={view.along ? 'figures panned' : 'figures'} ref={figures}>
              {safeView && scene && (
                <Figures
                  scene={scene}
                  time={safeView.time}
                  hover={hover}
                  cursor={cursor}
                  drag={drag}
                  off={off}
                  change={change}
                  setDrag={setDrag}
                  follow={follow}
                  act={act}
                  refuse={refuse}
                  zoomAt={zoomAt}
                />
              )}
              {!drawable && <Missing data={data} />}
            </div>
            {bar}
          </main>
          {lists}
        </div>
      </div>
    </TurnsContext.Provider>
  );
}

/** Says whether what is shown is on its way to something newer. Not a state: nothing is drawn for it. */
function tellBusy(busy: boolean): void {
  document.body.setAttribute('aria-busy', String(busy));
}

/** The same object as long as it says the same. */
function useSame<T>(value: T): T {
  const held = useRef(value);
  if (JSON.stringify(held.current) !== JSON.stringify(value)) held.current = value;
  return held.current;
}

/** Lateral exaggerations to choose from; to fit first. */
const exaggerations: readonly (number | undefined)[] = [undefined, 1, 2, 5, 10, 20];

function Waiting({ trouble, reveal }: { trouble: Trouble | undefined; reveal: (place: Place) => void }) {
  const t = useWords();
  return (
    <div class="empty">
      <strong>{trouble?.headline ?? t('Reading the job …')}</strong>
      {trouble && <p>{trouble.detail}</p>}
      {trouble?.place && (
        <button type="button" class="cure" onClick={() => reveal(trouble.place!)}>
          {t('Go to the line')}
        </button>
      )}
    </div>
  );
}

/** What to write next, where there is nothing to draw yet. */
function Missing({ data }: { data: PictureData }) {
  const t = useWords();
  return (
    <div class="empty">
      <strong>
        {data.missing.length > 0 ? t('A picture needs, in this order:') : t('There is nothing to draw on a runway.')}
      </strong>
      <ol>
        {data.missing.map(line => (
          <li>{line}</li>
        ))}
      </ol>
    </div>
  );
}

// ── views ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** The view for a new picture: what was looked at goes on being looked at. */
function viewFor(
  next: PictureData,
  before: SheetView | undefined,
  old: PictureData | undefined,
  channel: Channel,
): SheetView {
  if (before && old && old.file === next.file) return before;
  const kept = channel.kept();
  if (!before && kept.view && kept.file === next.file && kept.job === next.job) return kept.view;
  return next.nights.length > 0 && next.runways.length > 0
    ? firstView(next)
    : { runway: 0, night: 0, time: 0, clock: 'soak' };
}

/** A view within what there is: nights and runways may have gone, closures been moved. */
function fitted(data: PictureData, view: SheetView): SheetView {
  const night = Math.min(view.night, data.nights.length - 1);
  const runway = Math.min(view.runway, data.runways.length - 1);
  const { start, end } = data.nights[night]!;
  const time = Math.min(end, Math.max(start, view.time));
  const fits = view.span && view.span[0] >= start - 1 && view.span[1] <= end + 1;
  const { span, ...rest } = view;
  return {
    ...rest,
    night,
    runway,
    time: view.night === night && view.time === 0 && start > 0 ? start : time,
    ...(fits && span && { span }),
  };
}

function withoutAlong({ along: _, ...view }: SheetView): SheetView {
  return view;
}

/** Whether ranges lie within others, and nearly fill them. */
function covers(held: readonly Range[], fresh: readonly Range[]): boolean {
  return (
    held.length === fresh.length &&
    fresh.every(([a, b], i) => {
      const [c, d] = held[i]!;
      // The fresh ones have room about the ground: a little beyond does not matter, half of them unused does.
      return a > c - 30 && b < d + 30 && b - a > 0.5 * (d - c);
    })
  );
}

function zoomed(data: PictureData, view: SheetView, layout: Layout, factor: number, about: number): Partial<SheetView> {
  const { stretches } = data.runways[view.runway]!;
  const segment =
    layout.along.segments.find(each => about >= each.x[0] && about <= each.x[1]) ?? layout.along.segments[0]!;
  const [a, b] = segment.x;
  const length = Math.max(40, (b - a) * factor);
  const low = Math.min(...stretches.map(each => each[0]));
  const high = Math.max(...stretches.map(each => each[1]));
  // Larger than the stretch it lies in: everything again.
  if (
    factor > 1 &&
    (layout.along.segments.length > 1 ||
      stretches.some(each => length >= each[1] - each[0] && about >= each[0] && about <= each[1]))
  ) {
    return {
      along:
        layout.along.segments.length === 1 &&
        stretches.length > 1 &&
        length < (b - a) * factor + 1 &&
        b - a < longest(stretches) - 1
          ? [stretchAt(stretches, about)]
          : stretches,
    };
  }
  const from = Math.min(Math.max(low, about - ((about - a) * length) / (b - a)), Math.max(low, high - length));
  return { along: [[from, Math.min(high, from + length)]] };
}

function longest(stretches: readonly Range[]): number {
  return Math.max(...stretches.map(([a, b]) => b - a));
}

function stretchAt(stretches: readonly Range[], x: number): Range {
  return stretches.find(([a, b]) => x >= a && x <= b) ?? stretches[0]!;
}

function copied({ place, text }: { readonly place: Place; readonly text: string }) {
  return { place: { file: place.file, start: place.start, end: place.end }, text };
}
