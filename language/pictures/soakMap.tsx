/** How long the product stands: the exact cells of the exposure in four classes, with their numbers. */
import { scaleLinear } from 'd3-scale';
import type { Range } from '../tracks/track.ts';
import type { BayPicture, PictureData } from './data.ts';
import type { Clock, SheetView } from './layout.ts';
import { type Limit, limitOf, minuteRange, minutes, misses } from './minutes.ts';
import { once } from './once.ts';
import { Ring, r, Sign, T, To } from './parts.tsx';
import { type FigureProps, factorText, Offsets, polygon } from './plan.tsx';
import { boxOf, cut, fitting, textWidth } from './text.ts';
import { nameOfBay } from './things.ts';
import type { Translate } from './words.ts';

function clockTitle(clock: Clock, t: Translate): string {
  switch (clock) {
    case 'soak':
      return t('How long the product soaks');
    case 'wetGap':
      return t('How long nothing wets it again');
    case 'residence':
      return t('How long the product stays');
  }
}

/** Name of a clock, for a legend or a choice. */
export function clockName(clock: Clock, t: Translate): string {
  return clock === 'soak' ? t('soak') : clock === 'wetGap' ? t('wet gap') : t('residence');
}

/** The cells by class, and what is beyond a limit. */
export function SoakMapMarks({ data, view, layout, id }: FigureProps) {
  const { along, mapY, chart } = layout;
  const bounds = classBounds(data, view.clock);
  return (
    <g>
      <g clip-path={`url(#${id}-map)`}>
        {data.bays.map((bay, i) =>
          data.works[bay.work]!.runway !== view.runway || !along.part(bay.x) ? null : (
            <To thing={`bay/${i}`} label={nameOfBay(data, bay)}>
              <clipPath id={`${id}-bay${i}`}>
                <path d={bay.outlines.map(outline => polygon(outline, along, mapY)).join('')} />
              </clipPath>
              <g clip-path={`url(#${id}-bay${i})`}>
                {piecesOf(bay, view.clock, bounds).map(({ fill, rects }) => {
                  const d = rects
                    .map(({ x, y }) => box(along.px(x[0]), mapY(y[0]), along.px(x[1]), mapY(y[1])))
                    .join('');
                  return fill === 'over' || fill === 'under' ? (
                    <>
                      <path class="missed" d={d} />
                      <path fill={`url(#${id}-${fill})`} d={d} />
                    </>
                  ) : (
                    <path class={`tint${fill}`} d={d} />
                  );
                })}
              </g>
              {bay.outlines.length > 0 && (
                <path class={missesAny(bay, view.clock) ? 'miss-edge' : 'slab'} d={outlineOf(bay, along.px, mapY)} />
              )}
            </To>
          ),
        )}
      </g>
      <path class="rule" d={`M${r(chart.x)} ${r(mapY(0))}H${r(chart.x + chart.w)}`} stroke-dasharray="1 4" />
    </g>
  );
}

/** Their numbers, the axis, the worst place. */
export function SoakMapWords(props: FigureProps) {
  const { data, view, layout, t } = props;
  const { along, map, mapY, chart, reach } = layout;
  const half = Math.round(reach * 5) / 10;
  const title = cut(clockTitle(view.clock, t), chart.x + chart.w - 12 - 18, 13, true);
  const ring = ringOf(props);
  const from = 12 + textWidth(title, 13, true) + 8;
  // Not under a ring at the upper edge.
  const ringed = ring && ring.y - 11 < map.title + 3 && ring.x > from ? ring.x - 12 : Infinity;
  const beside = Math.min(chart.x + chart.w - 18, ringed) - from;
  const factor = t('across ×{0}', factorText(layout.exaggeration.map));
  return (
    <g>
      <T x={12} y={map.title} size={13} bold>
        {title}
      </T>
      <T x={from} y={map.title} tone="quiet">
        {fitting(beside, [t('min, least–greatest; {0}', factor), `min; ${factor}`, 'min']) ?? ''}
      </T>
      {ring && <Ring x={ring.x} y={ring.y} bad={ring.bad} />}
      <Offsets {...props} values={[0, -reach, reach, -half, half]} toY={mapY} top={map.y} bottom={map.y + map.h} />
      {data.bays.map(bay => {
        if (data.works[bay.work]!.runway !== view.runway) return null;
        const part = along.part(bay.x);
        return part ? numbersOf(bay, view, part, ring, props) : null;
      })}
      {data.bays.every(bay => bay[view.clock] === null) && (
        <T x={chart.x + chart.w / 2} y={map.y + map.h / 2 + 16} anchor="middle" tone="quiet" halo>
          {fitting(chart.w - 16, [t('No product is applied, so nothing soaks.'), t('nothing soaks')]) ?? ''}
        </T>
      )}
    </g>
  );
}

/** Bounds between the classes, min: three or four round values between the least and the greatest of the job. */
export const classBounds = once((data: Pick<PictureData, 'bays'>, clock: Clock): readonly number[] => {
  const all = data.bays.flatMap(bay => bay.cells.flatMap(cell => cell[clock] ?? [])).map(each => each / 60);
  if (all.length === 0) return [];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const inner = scaleLinear([low, high], [0, 1])
    .ticks(4)
    .filter(each => each > low && each < high);
  // Four tints have three bounds between them.
  return inner.length <= 3
    ? inner
    : [1, 2, 3]
        .map(k => inner[Math.min(inner.length - 1, Math.round((k * inner.length) / 4))]!)
        .filter((each, i, list) => list.indexOf(each) === i);
});

type Fill = 0 | 1 | 2 | 3 | 'over' | 'under';
interface Piece {
  readonly fill: Fill;
  readonly rects: readonly { readonly x: Range; readonly y: Range }[];
}

/** Cells cut where their clock passes from one class to the next, put together by class. */
export const piecesOf = once((bay: BayPicture, clock: Clock, bounds: readonly number[]): readonly Piece[] => {
  const limit = limitOf(bay, clock);
  const cuts = [...bounds.map(each => each * 60), ...[limit.least, limit.most].filter(each => each !== undefined)];
  const byFill = new Map<Fill, { x: Range; y: Range }[]>();
  for (const { x, y, ...cell } of bay.cells) {
    const values = cell[clock];
    if (!values) continue;
    const [a, b] = values;
    const inside = cuts
      .filter(each => (each - a) * (each - b) < 0)
      .map(each => x[0] + ((x[1] - x[0]) * (each - a)) / (b - a));
    const xs = [x[0], ...inside.sort((p, q) => p - q), x[1]];
    for (let i = 1; i < xs.length; i++) {
      const middle = (xs[i - 1]! + xs[i]!) / 2;
      const value = a + ((b - a) * (middle - x[0])) / (x[1] - x[0]);
      const fill = fillOf(value, bounds, limit);
      const list = byFill.get(fill) ?? [];
      list.push({ x: [xs[i - 1]!, xs[i]!], y });
      byFill.set(fill, list);
    }
  }
  return [...byFill]
    .map(([fill, rects]) => ({ fill, rects }))
    .sort((a, b) => (String(a.fill) < String(b.fill) ? -1 : 1));
});

function fillOf(value: number, bounds: readonly number[], limit: Limit): Fill {
  if (limit.least !== undefined && misses(value, { least: limit.least })) return 'under';
  if (limit.most !== undefined && misses(value, { most: limit.most })) return 'over';
  return Math.min(3, bounds.filter(each => value >= each * 60).length) as Fill;
}

const missesAny = once((bay: BayPicture, clock: Clock): boolean => {
  const limit = limitOf(bay, clock);
  return bay.cells.some(cell => cell[clock]?.some(value => misses(value, limit)));
});

function box(x0: number, y0: number, x1: number, y1: number): string {
  return `M${r(x0)} ${r(y0)}H${r(x1)}V${r(y1)}H${r(x0)}Z`;
}

/** The edge of a bay's ground: its slabs side by side, without the lines between them. */
function outlineOf({ outlines }: BayPicture, px: (x: number) => number, toY: (y: number) => number): string {
  return outlines.map(outline => `M${outline.map(([x, y]) => `${r(px(x))} ${r(toY(y))}`).join('L')}Z`).join('');
}

/** Rows of numbers: what stands least and longest in each row's strips. */
function numbersOf(
  bay: BayPicture,
  view: SheetView,
  part: Range,
  ring: ReturnType<typeof ringOf>,
  { layout, room }: FigureProps,
) {
  const { mapY } = layout;
  const limit = limitOf(bay, view.clock);
  const [top, bottom] = [mapY(bay.y[0]), mapY(bay.y[1])];
  const rows = Math.max(1, Math.floor((bottom - top) / 14.5));
  const height = (bottom - top) / rows;
  const values: number[][] = Array.from({ length: rows }, () => []);
  for (const cell of bay.cells) {
    const pair = cell[view.clock];
    if (!pair) continue;
    const middle = mapY((cell.y[0] + cell.y[1]) / 2);
    values[Math.min(rows - 1, Math.max(0, Math.floor((middle - top) / height)))]!.push(...pair);
  }
  return values.map((list, i) => {
    if (list.length === 0) return null;
    const [least, greatest] = [Math.min(...list), Math.max(...list)];
    const bad = misses(least, limit) || misses(greatest, limit);
    const sign = bad ? 12 : 0;
    // Where both ends do not fit, the one that counts.
    const one = view.clock === 'soak' ? `≥${minutes(least, limit)}` : `≤${minutes(greatest, limit)}`;
    const wordings = [minuteRange(least, greatest, limit), one, one.slice(1)];
    const text = fitting(part[1] - part[0] - 4 - sign, wordings, 11, bad);
    if (!text) return null;
    const y = top + (i + 0.5) * height + 4;
    const w = textWidth(text, 11, bad) + sign;
    // In the middle, or beside the ring that stands there, as far as the bay goes.
    const middle = (part[0] + part[1]) / 2;
    const beside = ring && Math.abs(ring.y - (y - 4)) < 13 ? [ring.x - 9 - w / 2, ring.x + 9 + w / 2] : [];
    const at = [middle, ...beside]
      .filter(each => beside.length === 0 || Math.abs(each - ring!.x) >= w / 2 + 2)
      .find(
        each =>
          each - w / 2 >= part[0] - 1 &&
          each + w / 2 <= part[1] + 1 &&
          room.take({ ...boxOf(text, each - sign / 2, y, 'middle', 11, bad), x: each - w / 2, w }, 1),
      );
    if (at === undefined) return null;
    const x = at - sign / 2;
    const own = boxOf(text, x, y, 'middle', 11, bad);
    return (
      <>
        <T x={x} y={y} anchor="middle" bold={bad} halo {...(bad && { tone: 'bad' })}>
          {text}
        </T>
        {bad && <Sign kind={limit.least !== undefined ? 'under' : 'over'} x={own.x + own.w + 8} y={y - 4} size={9} />}
      </>
    );
  });
}

/** The worst place of the clock that is shown, to be ringed as in the plan. */
function ringOf({ data, view, layout }: FigureProps) {
  const { along, mapY } = layout;
  const own = data.bays.filter(bay => data.works[bay.work]!.runway === view.runway);
  const spots = own.flatMap(bay => {
    const limit = limitOf(bay, view.clock);
    const clock = bay[view.clock];
    if (!clock) return [];
    const spot = view.clock === 'soak' && 'least' in clock ? clock.least : clock.greatest;
    const spare = view.clock === 'soak' ? spot.seconds - (limit.least ?? 0) : (limit.most ?? 0) - spot.seconds;
    return [{ spot, spare, bad: misses(spot.seconds, limit) }];
  });
  const worst = spots.toSorted((a, b) => a.spare - b.spare)[0];
  if (!worst || !along.part([worst.spot.x - 0.1, worst.spot.x + 0.1])) return undefined;
  return { x: along.px(worst.spot.x), y: mapY(worst.spot.y), bad: worst.bad };
}
