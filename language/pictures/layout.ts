/** Where the figures of the sheet stand and how metres, offsets and seconds become pixels. One axis for all that share it. */
import { scaleLinear } from 'd3-scale';
import type { Range } from '../tracks/track.ts';
import type { BayPicture, NightPicture, PictureData, RunwayPicture } from './data.ts';

/** What is looked at: the state of a preview, and of a picture that is exported. */
export interface SheetView {
  readonly runway: number;
  readonly night: number;
  /** Moment shown, s. */
  readonly time: number;
  /** Stretches of the runway that are shown, x; as many as can be read by default. */
  readonly along?: readonly Range[];
  /** Part of the night that the pass chart shows, s; all that can be read by default. */
  readonly span?: Range;
  readonly clock: Clock;
  /** Lateral exaggeration of the plan; to fit by default. */
  readonly across?: number;
  /** Bay whose profile is shown; by default the one that matters most in the night. */
  readonly bay?: string;
}

export type Clock = 'soak' | 'wetGap' | 'residence';

export interface Along {
  readonly segments: readonly { readonly x: Range; readonly px: Range; readonly ruler: number }[];
  /** Pixels a metre. */
  readonly scale: number;
  readonly px: (x: number) => number;
  readonly x: (px: number) => number;
  /** The part of a range that is shown, in pixels; undefined for none. */
  readonly part: (range: Range) => Range | undefined;
}

export interface Strip {
  readonly night: number;
  readonly y: number;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly wide: boolean;
  /** Too narrow for the usual form: names and signs are shorter, heads stand in two rows. */
  readonly narrow: boolean;
  readonly chart: { readonly x: number; readonly w: number };
  readonly right: { readonly x: number; readonly w: number };
  readonly along: Along;
  readonly plan: Figure & { readonly names: number; readonly ruler: number; readonly below: number };
  readonly map: Figure;
  readonly time: Figure;
  readonly strips: readonly Strip[];
  /** Nights that have no strip for lack of room. */
  readonly unseen: number;
  /** Pixels of an offset, in the plan and in the map. */
  readonly planY: (y: number) => number;
  readonly mapY: (y: number) => number;
  readonly planOffset: (px: number) => number;
  readonly exaggeration: { readonly plan: number; readonly map: number };
  /** Half the width that the map shows, m. */
  readonly reach: number;
  readonly timeY: (t: number) => number;
  readonly timeAt: (px: number) => number;
  readonly span: Range;
}

/** A figure: its title's baseline, and the box it is drawn in. */
export interface Figure {
  readonly title: number;
  readonly y: number;
  readonly h: number;
}

/** Narrowest sheet whose figures can be read beside each other, px; the usual form begins at `usualWidth`. */
export const leastWidth = 420;
const usualWidth = 560;

export const pad = 12;
const gutter = 46;
const stripHeight = 18;
const leastHeight = 430;

/** Room beside the figures on the right: machines, signs, profile. */
export function rightWidth(width: number, machines: number): number {
  if (width < usualWidth) return 152 + (44 * (Math.max(leastWidth, width) - leastWidth)) / (usualWidth - leastWidth);
  if (width < 600) return 196;
  if (width < 900) return 244;
  return Math.min(460, Math.max(300, 60 * (machines + 1), width * 0.24));
}

export function layoutOf(data: PictureData, view: SheetView, width: number, wantedHeight: number): Layout {
  const runway = data.runways[view.runway]!;
  const height = Math.max(leastHeight, wantedHeight);
  const right = rightWidth(width, data.machines.length);
  const stretches = view.along ?? legibleAlong(data, view, width);
  const both = new Set(stretches.map(each => rulerOf(runway, each, data, view.runway))).size > 1;
  const x = pad + gutter;
  const narrow = width < usualWidth;
  const w = width - x - right - (narrow ? 12 : 18) - pad - (both ? 42 : 0);
  const along = alongOf(stretches, [x, x + w], each => rulerOf(runway, each, data, view.runway));

  const others = data.nights.length - 1;
  const roomForStrips = Math.max(1, Math.floor((height - 380) / (2.6 * stripHeight)));
  const shown = Math.min(others, roomForStrips);
  const below = shown * stripHeight + (shown > 0 ? 8 : 0);
  // Titles, names, rulers and gaps keep their height in every state.
  const heads = narrow ? 30 : 18;
  const fixed = 16 + 17 + 19 + 18 + 20 + 8 + 20 + heads + 6 + below;
  const free = height - fixed;
  const planH = clamp(free * 0.22, 66, 190);
  const mapH = clamp(free * 0.25, 78, 230);
  const timeH = free - planH - mapH;

  const planTop = 16 + 17 + 19;
  const mapTop = planTop + planH + 18 + 20;
  const timeTop = mapTop + mapH + 8 + 20 + heads;
  const half = runway.width / 2;
  const fit = planH / (2 * half + 3);
  const planScale = view.across === undefined ? fit : view.across * along.scale;
  const planMiddle = planTop + planH / 2;
  const own = data.bays.filter(bay => data.works[bay.work]?.runway === view.runway);
  const reach = Math.max(3, ...own.flatMap(bay => bay.y.map(Math.abs)));
  const mapScale = mapH / (2 * reach);
  const span = view.span ?? spanOf(data, view);
  const timeScale = scaleLinear([...span], [timeTop, timeTop + timeH]);
  return {
    width,
    height,
    wide: width >= 1000,
    narrow,
    chart: { x, w },
    right: { x: width - pad - right, w: right },
    along,
    plan: { title: 12, names: 28, ruler: 43, y: planTop, h: planH, below: planTop + planH + 13 },
    map: { title: mapTop - 8, y: mapTop, h: mapH },
    time: { title: timeTop - heads - 8, y: timeTop, h: timeH },
    strips: data.nights
      .map((_, i) => i)
      .filter(i => i !== view.night)
      .slice(0, shown)
      .map((i, k) => ({ night: i, y: timeTop + timeH + 8 + k * stripHeight })),
    unseen: others - shown,
    planY: y => planMiddle + y * planScale,
    mapY: y => mapTop + mapH / 2 + y * mapScale,
    planOffset: px => (px - planMiddle) / planScale,
    exaggeration: { plan: planScale / along.scale, map: mapScale / along.scale },
    reach,
    timeY: t => timeScale(t),
    timeAt: px => timeScale.invert(px),
    span,
  };
}

/** Longest clock that can be read in one piece, s: that of a long closure. */
const legibleClock = 8 * 3600;

/**
 * The part of a night that is shown where the author has not chosen. All of a closure. A job that has no schedule is drawn
 * one bay after the other and may take days: of it, the bays about the moment shown that fit a readable clock together.
 */
export function spanOf(data: PictureData, { night: index, time }: Pick<SheetView, 'night' | 'time'>): Range {
  const night = data.nights[index]!;
  const whole: Range = [night.start, night.end];
  if (night.clock !== undefined || night.end - night.start <= legibleClock) return whole;
  const pages: [number, number][] = [];
  for (const [start, end] of timesOfBays(data, index)) {
    const page = pages.at(-1);
    if (page && end - page[0] <= legibleClock) page[1] = Math.max(page[1], end);
    else pages.push([start, end]);
  }
  const shown = pages.findLast(page => page[0] <= time) ?? pages[0];
  return shown && shown[1] > shown[0] ? shown : whole;
}

/** From the first activity to the last of each bay of a night, in order. */
function timesOfBays({ bays, activities }: PictureData, night: number): readonly Range[] {
  return bays
    .filter(bay => bay.night === night)
    .map(({ work, number }) =>
      activities.filter(each => each.work === work && each.bay === number && each.does !== 'wash-down'),
    )
    .filter(own => own.length > 0)
    .map((own): Range => [Math.min(...own.map(each => each.start)), Math.max(...own.map(each => each.end))])
    .sort((a, b) => a[0] - b[0]);
}

/** What a preview shows first: the night in which a limit is missed by most, else the one with the least to spare. */
export function firstView(data: PictureData): SheetView {
  const spare = (night: NightPicture): number => (night.handBack ?? Infinity) - night.clear;
  const beyond = (bay: BayPicture): number =>
    bay.state === 'over'
      ? (bay.residence?.greatest.seconds ?? 0) - (bay.limits.residence ?? 0)
      : (bay.limits.soak ?? 0) - (bay.soak?.least.seconds ?? 0);
  const [worst] = data.bays
    .filter(bay => bay.state !== 'kept' && bay.night !== undefined)
    .toSorted((a, b) => beyond(b) - beyond(a));
  const tightest = data.nights.reduce((best, night, i) => (spare(night) < spare(data.nights[best]!) ? i : best), 0);
  const view = nightView(data, { runway: 0, night: 0, time: 0, clock: 'soak' }, worst?.night ?? tightest);
  if (!worst) return view;
  // Where a limit is missed the map shows the clock that misses it, and the time stands where its bay is worked on.
  const tool = data.activities.find(
    each => each.work === worst.work && each.bay === worst.number && (each.does === 'agitate' || each.does === 'jet'),
  );
  return {
    ...view,
    bay: worst.id,
    clock: worst.state === 'over' ? 'residence' : 'soak',
    ...(tool && { time: (tool.start + tool.end) / 2 }),
  };
}

/** The view turned to a night, at the moment when its first tool begins. */
export function nightView(data: PictureData, view: SheetView, night: number): SheetView {
  const own = data.activities.filter(each => each.night === night);
  const tool = own.find(each => each.does === 'agitate' || each.does === 'jet');
  const start = data.nights[night]?.start ?? 0;
  const time = tool ? tool.start + Math.min(900, (tool.end - tool.start) / 2) : start;
  const runway = own[0] ? (data.works[own[0].work]?.runway ?? 0) : view.runway;
  const { span: _, bay: __, ...rest } = view;
  return { ...rest, runway, night, time };
}

// ── the axis ─────────────────────────────────────────────────────────────────────────────────────────────────────

const gap = 16;

function alongOf(stretches: readonly Range[], [p0, p1]: Range, ruler: (x: Range) => number): Along {
  const total = stretches.reduce((sum, [a, b]) => sum + b - a, 0) || 1;
  const scale = Math.max(1e-6, (p1 - p0 - gap * Math.max(0, stretches.length - 1)) / total);
  let at = p0;
  const segments = stretches.map(x => {
    const px: Range = [at, at + (x[1] - x[0]) * scale];
    at = px[1] + gap;
    return { x, px, ruler: ruler(x) };
  });
  const px = (x: number): number => {
    const inside = segments.find(each => x <= each.x[1]) ?? segments.at(-1);
    if (!inside) return p0;
    // Before its stretch: in the cut, drawn at the stretch's edge; before the first or after the last, as far out as it is.
    const first = inside === segments[0];
    const last = inside === segments.at(-1);
    const free = (first && x < inside.x[0]) || (last && x > inside.x[1]);
    const held = free ? x : Math.max(inside.x[0], x);
    return inside.px[0] + (held - inside.x[0]) * scale;
  };
  return {
    segments,
    scale,
    px,
    x: at => {
      const inside = segments.find(each => at <= each.px[1]) ?? segments.at(-1);
      return inside ? inside.x[0] + (Math.max(inside.px[0], at) - inside.px[0]) / scale : 0;
    },
    part: ([a, b]) => {
      const seen = segments.filter(each => b > each.x[0] && a < each.x[1]);
      if (seen.length === 0) return undefined;
      return [px(Math.max(a, seen[0]!.x[0])), px(Math.min(b, seen.at(-1)!.x[1]))];
    },
  };
}

/** The ruler in which a stretch is read: that of the works in it, else of the nearer threshold. */
function rulerOf(runway: RunwayPicture, [a, b]: Range, data: PictureData, index: number): number {
  const bay = data.bays.find(each => data.works[each.work]?.runway === index && each.x[1] > a && each.x[0] < b);
  if (bay) return data.works[bay.work]!.ruler;
  const middle = (a + b) / 2;
  const distances = runway.rulers.map(each => Math.abs(each.zero - middle));
  return Math.max(0, distances.indexOf(Math.min(...distances)));
}

export function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}

/** Narrowest bay that can hold its numbers, px. */
const legibleBay = 42;

/**
 * The stretches shown where the author has not chosen: all of them where bays are wide enough to read, else the one that
 * holds most of the night's bays.
 */
export function legibleAlong(data: PictureData, view: SheetView, width: number): readonly Range[] {
  const { stretches } = data.runways[view.runway]!;
  if (stretches.length < 2) return stretches;
  const tonight = data.bays.filter(bay => bay.night === view.night && data.works[bay.work]!.runway === view.runway);
  const w = width - 2 * pad - gutter - rightWidth(width, data.machines.length) - 18 - 42;
  const total = stretches.reduce((sum, [a, b]) => sum + b - a, 0);
  const narrowest = Math.min(...tonight.map(bay => bay.x[1] - bay.x[0]));
  if ((narrowest * w) / total >= legibleBay) return stretches;
  const asked = data.bays.find(bay => bay.id === view.bay && bay.state !== 'kept');
  const holding = asked && stretches.find(each => asked.x[1] > each[0] && asked.x[0] < each[1]);
  if (holding) return [holding];
  const count = (range: Range): number => tonight.filter(bay => bay.x[1] > range[0] && bay.x[0] < range[1]).length;
  return [stretches.reduce((best, each) => (count(each) > count(best) ? each : best), stretches[0]!)];
}
