/**
 * What each point of the pavement went through, computed exactly from the passes.
 *
 * Three clocks for every point of the deposit:
 * - **soak**: from the moment the point had its full rate to the first contact of a tool (broom or jet). Overlap,
 *   keep-wet passes and surplus coats do not start it again. It is negative where a tool comes before the product.
 * - **wet gap**: the longest time since any wetting (product, water, a jet's own water) until the last agitation
 *   (broom or jet).
 * - **residence**: from the first product to the last rinse.
 * Besides these: contacts, rinses, jets and pick-ups per point, the last touch, and the ground that got none.
 *
 * Method. Passes are straight, at constant speed, on bands parallel to the centreline. So the ground is cut across at
 * all edges of bands, and lengthwise where a pass begins or ends and where two passes change order in time. In such a
 * cell the same passes act in the same order, every clock is a linear function of chainage, and its extremes lie at
 * the cell's ends. No raster; the work grows with the passes that act in each strip.
 *
 * The deposit's slanting edges only decide which part of a cell counts, and where along it.
 */

import type { Does, Pass, Place, Range, Track } from '../tracks/track.ts';
import type { Slab } from './deposit.ts';
import { areaOf, edgeAt, extentOf } from './deposit.ts';

/** What {@link exposure} needs: SI, depths and rate in millimetres. */
export interface ExposureInput {
  /** The ground that counts: slabs that do not overlap (see `mergeSlabs`). */
  readonly area: readonly Slab[];
  readonly tracks: readonly Track[];
  /** Depth a point must have received before its soak begins, mm. Without it the first product begins it. */
  readonly rate?: number;
  /** When soak begins: at each point's full rate, or when the last applying pass over the area has ended. */
  readonly dwellFrom?: 'full rate' | 'end of bay';
  /** What every point should get; where it does not is a gap. Default: whatever the tracks do at all. */
  readonly needs?: readonly Does[];
}

/** A time and where it occurs. The place is a limit where the point lies on the edge of a pass. */
export interface TimeAt extends Place {
  readonly seconds: number;
}

/** A number of passes and a place that gets it. */
export interface CountAt extends Place {
  readonly count: number;
}

/** Least and greatest value of a clock over the area. */
export interface ClockRange {
  readonly least: TimeAt;
  readonly greatest: TimeAt;
}

/** Least and greatest number of passes at a point of the area. */
export interface CountRange {
  readonly least: CountAt;
  readonly most: CountAt;
}

/** What a gap lacks. */
export type GapKind =
  | 'not swept'
  | 'not wetted'
  | 'not applied'
  | 'under rate'
  | 'not contacted'
  | 'not jetted'
  | 'not rinsed'
  | 'not picked up';

/** Ground that did not get something: its exact area in m², and rectangles around it (exact where the ground is). */
export interface Gap {
  readonly kind: GapKind;
  readonly area: number;
  readonly where: readonly { readonly s: Range; readonly t: Range }[];
}

/** One strip across the runway: least and greatest over its length. */
export interface ProfileStrip {
  readonly t: Range;
  readonly contacts: Range;
  readonly rinses: Range;
  readonly jets: Range;
  readonly pickups: Range;
  /** Liquid applied, mm. */
  readonly depth: Range;
}

/**
 * Ground that went through the same passes in the same order. Clocks are linear in chainage: their two numbers stand
 * at `s[0]` and `s[1]`; null where the clock does not run.
 */
export interface Cell {
  readonly s: Range;
  readonly t: Range;
  /** m², only what lies in the deposit. */
  readonly area: number;
  readonly soak: Range | null;
  readonly wetGap: Range | null;
  readonly residence: Range | null;
  /** When the last pass of all went over it, s. */
  readonly lastTouch: Range | null;
  readonly contacts: number;
  readonly rinses: number;
  readonly jets: number;
  readonly pickups: number;
  /** mm */
  readonly depth: number;
}

/** The exposure of one area. Clocks are null where no point has them. */
export interface Exposure {
  readonly area: { readonly s: Range; readonly t: Range; readonly squareMetres: number };
  readonly rate: number | null;
  readonly soak: ClockRange | null;
  readonly wetGap: ClockRange | null;
  readonly residence: ClockRange | null;
  readonly lastTouch: ClockRange | null;
  readonly contacts: CountRange;
  readonly rinses: CountRange;
  readonly jets: CountRange;
  readonly pickups: CountRange;
  /** Rinses of points on the centreline; null where the area does not reach it. */
  readonly rinsesAtCentreline: CountRange | null;
  readonly gaps: readonly Gap[];
  /** From left to right. */
  readonly profile: readonly ProfileStrip[];
  readonly cells: readonly Cell[];
}

/** Lengths closer than this, m, are the same: edges computed in two ways must not leave a sliver of a cell. */
const snap = 1e-6;

/** Depths within this share of the rate reach it. */
const depthTolerance = 1e-6;

const sweeps = 1;
const wets = 2;
const applies = 4;
const contacts = 8;
const rinses = 16;
const jets = 32;
const picksUp = 64;

const bitOf: Readonly<Record<Does, number>> = {
  sweep: sweeps,
  wet: wets,
  apply: applies,
  contact: contacts,
  rinse: rinses,
  jet: jets,
  pickup: picksUp,
};

/**
 * The exposure of an area to its passes.
 *
 * Total: passes whose numbers are not finite, or that have no length, are left out; no area gives empty results.
 *
 * @param input slabs, tracks, rate; see {@link ExposureInput}
 * @returns plain data; times in the same clock as the passes
 */
export function exposure(input: ExposureInput): Exposure {
  const slabs = soundSlabs(input.area);
  const extent = extentOf(slabs) ?? { s: [0, 0] as const, t: [0, 0] as const };
  const passes = gather(input.tracks, extent);
  const work = newWork(input, passes);
  const edges = stripEdges(passes, extent.t);
  const strips = edges.length - 1;
  const { last, startOf, starting } = passesByStrip(passes, edges);

  let active = new Int32Array(passes.n);
  let spare = new Int32Array(passes.n);
  let count = 0;
  for (let k = 0; k < strips; k++) {
    // Keep the passes that still reach this strip and merge in those that begin here; both are in order of time.
    let kept = 0;
    let next = startOf[k]!;
    const end = startOf[k + 1]!;
    for (let i = 0; i < count; i++) {
      const p = active[i]!;
      if (last[p]! < k) continue;
      while (next < end && starting[next]! < p) spare[kept++] = starting[next++]!;
      spare[kept++] = p;
    }
    while (next < end) spare[kept++] = starting[next++]!;
    const before = active;
    active = spare;
    spare = before;
    count = kept;
    walkStrip(work, slabs, edges[k]!, edges[k + 1]!, active, count);
  }
  return result(work, extent, slabs, input.rate);
}

/** What may happen to the contacts if machines stray. See {@link contactsWithinTolerance}. */
export interface ToleratedContacts {
  readonly contacts: CountRange;
  readonly profile: readonly { readonly t: Range; readonly contacts: Range }[];
  /** Ground that may be left without any contact, m². */
  readonly uncertain: number;
}

/**
 * Contacts that every point is sure to get, and the most it can get, when machines keep their lanes only within a
 * tolerance.
 *
 * Model: each pass runs anywhere within ± tolerance of its lane, independently of the others, without changing its
 * line within a pass. A point is sure of a pass exactly if it lies within the band by at least the tolerance, and may be
 * met by it if it lies within the tolerance outside it. So the least count comes from bands narrowed on both sides
 * by the tolerance, the most from bands widened by it; for each point alone both bounds are reached. Several points
 * can have their worst case at different strayings, so the area given is an upper bound of what is left out at once.
 *
 * @param tolerance m, not negative
 */
export function contactsWithinTolerance(
  area: readonly Slab[],
  tracks: readonly Track[],
  tolerance: number,
): ToleratedContacts {
  const by = Math.max(0, tolerance);
  const only = tracks.filter(track => track.does === 'contact');
  const shifted = (change: number): readonly Track[] =>
    only.map(track => ({
      does: track.does,
      passes: track.passes
        .map(pass => {
          const [a, b] = ordered(pass.band);
          return { ...pass, band: [a - change, b + change] as const };
        })
        .filter(pass => pass.band[1] - pass.band[0] > snap),
    }));
  const least = exposure({ area, tracks: shifted(-by), needs: ['contact'] });
  const most = exposure({ area, tracks: shifted(by), needs: ['contact'] });
  return {
    contacts: { least: least.contacts.least, most: most.contacts.most },
    profile: least.profile.map(strip => ({ t: strip.t, contacts: strip.contacts })),
    uncertain: least.gaps.find(gap => gap.kind === 'not contacted')?.area ?? 0,
  };
}

/** Square metres by number of contacts (or rinses, jets, pick-ups), fewest first. */
export function areaByCount(
  cells: readonly Cell[],
  of: 'contacts' | 'rinses' | 'jets' | 'pickups' = 'contacts',
): readonly { readonly count: number; readonly area: number }[] {
  const sums = new Map<number, number>();
  for (const cell of cells) sums.set(cell[of], (sums.get(cell[of]) ?? 0) + cell.area);
  return [...sums].sort((a, b) => a[0] - b[0]).map(([count, area]) => ({ count, area }));
}

// ---------------------------------------------------------------------------------------------------------------
// Passes and strips

/** Passes as columns, in order of their start. Time at chainage s is `at + slope · (s − lo)`. */
interface Passes {
  readonly n: number;
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly tA: Float64Array;
  readonly tB: Float64Array;
  readonly at: Float64Array;
  readonly slope: Float64Array;
  readonly bit: Int32Array;
  readonly depth: Float64Array;
  /** End of the last applying pass over the area, s. */
  readonly applied: number;
  /** Bits of everything the tracks do, also outside the area. */
  readonly all: number;
}

function gather(tracks: readonly Track[], extent: { s: Range; t: Range }): Passes {
  const found: Pass[] = [];
  const bits: number[] = [];
  let all = 0;
  for (const track of tracks) {
    const bit = bitOf[track.does] ?? 0;
    for (const pass of track.passes) {
      if (!isSound(pass)) continue;
      all |= bit;
      if (!touches(pass, extent)) continue;
      found.push(pass);
      bits.push(bit);
    }
  }
  const n = found.length;
  const order = new Array<number>(n);
  for (let i = 0; i < n; i++) order[i] = i;
  // Tracks come one after another: sort by time, and by what they do at the same time, so that order never matters.
  order.sort((a, b) => found[a]!.start - found[b]!.start || found[a]!.end - found[b]!.end || bits[a]! - bits[b]!);
  const passes = {
    n,
    lo: new Float64Array(n),
    hi: new Float64Array(n),
    tA: new Float64Array(n),
    tB: new Float64Array(n),
    at: new Float64Array(n),
    slope: new Float64Array(n),
    bit: new Int32Array(n),
    depth: new Float64Array(n),
    applied: Number.NEGATIVE_INFINITY,
    all,
  };
  for (let i = 0; i < n; i++) {
    const pass = found[order[i]!]!;
    const up = pass.to.s > pass.from.s;
    const lo = up ? pass.from.s : pass.to.s;
    const hi = up ? pass.to.s : pass.from.s;
    passes.lo[i] = lo;
    passes.hi[i] = hi;
    passes.tA[i] = Math.min(pass.band[0], pass.band[1]);
    passes.tB[i] = Math.max(pass.band[0], pass.band[1]);
    passes.at[i] = up ? pass.start : pass.end;
    passes.slope[i] = ((up ? 1 : -1) * (pass.end - pass.start)) / (hi - lo);
    passes.bit[i] = bits[order[i]!]!;
    passes.depth[i] = pass.depth ?? Number.POSITIVE_INFINITY;
    if (passes.bit[i] === applies) passes.applied = Math.max(passes.applied, pass.end);
  }
  return passes;
}

/** Finite, and with a length and a width. */
function isSound(pass: Pass): boolean {
  const { from, to, band, start, end, depth } = pass;
  const sum = from.s + to.s + band[0] + band[1] + start + end + (depth ?? 0);
  return Number.isFinite(sum) && Math.abs(to.s - from.s) > snap && Math.abs(band[1] - band[0]) > snap;
}

function touches(pass: Pass, extent: { s: Range; t: Range }): boolean {
  const { from, to, band } = pass;
  return (
    Math.min(band[0], band[1]) < extent.t[1] &&
    Math.max(band[0], band[1]) > extent.t[0] &&
    Math.min(from.s, to.s) < extent.s[1] &&
    Math.max(from.s, to.s) > extent.s[0]
  );
}

function ordered(range: Range): Range {
  return range[0] <= range[1] ? range : [range[1], range[0]];
}

/** All edges of bands within the extent and the extent's own, without near duplicates. */
function stripEdges(passes: Passes, extent: Range): Float64Array {
  const all = new Float64Array(2 * passes.n + 2);
  let n = 0;
  all[n++] = extent[0];
  all[n++] = extent[1];
  for (let i = 0; i < passes.n; i++) {
    if (passes.tA[i]! > extent[0]) all[n++] = passes.tA[i]!;
    if (passes.tB[i]! < extent[1]) all[n++] = passes.tB[i]!;
  }
  const sorted = all.subarray(0, n).sort();
  let kept = 1;
  for (let i = 1; i < n; i++) if (sorted[i]! > sorted[kept - 1]! + snap) sorted[kept++] = sorted[i]!;
  // The right edge of the extent may have been merged into a band's edge just before it; both are the same.
  return sorted.subarray(0, extent[1] > extent[0] ? kept : 1);
}

/** Last strip of each pass, and the passes listed by their first strip, in order of time. */
function passesByStrip(passes: Passes, edges: Float64Array) {
  const strips = Math.max(0, edges.length - 1);
  const first = new Int32Array(passes.n);
  const last = new Int32Array(passes.n);
  const startOf = new Int32Array(strips + 2);
  for (let p = 0; p < passes.n; p++) {
    first[p] = edgeIndex(edges, passes.tA[p]!);
    last[p] = edgeIndex(edges, passes.tB[p]!) - 1;
    if (last[p]! >= first[p]!) startOf[first[p]! + 1]!++;
  }
  for (let k = 0; k <= strips; k++) startOf[k + 1]! += startOf[k]!;
  const starting = new Int32Array(passes.n);
  const at = startOf.slice();
  for (let p = 0; p < passes.n; p++) {
    if (last[p]! < first[p]!) continue;
    const strip = first[p]!;
    starting[at[strip]!] = p;
    at[strip]!++;
  }
  return { last, startOf, starting };
}

/** Index of the edge that stands for an offset: the last one not beyond it (up to the snap), clamped to the extent. */
function edgeIndex(edges: Float64Array, t: number): number {
  let low = 0;
  let high = edges.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if (edges[mid]! <= t + snap / 1e3) low = mid;
    else high = mid - 1;
  }
  return low;
}

// ---------------------------------------------------------------------------------------------------------------
// One strip

/** A part of the deposit within a strip, with straight lower and upper edge. */
interface Piece {
  readonly s0: number;
  s1: number;
  readonly lo0: number;
  lo1: number;
  readonly hi0: number;
  hi1: number;
  readonly whole: boolean;
}

/** Least and greatest of something, while it is being found. */
interface Extremes {
  least: number;
  leastS: number;
  leastT: number;
  greatest: number;
  greatestS: number;
  greatestT: number;
}

interface GapSum {
  readonly kind: GapKind;
  readonly bit: number;
  area: number;
  readonly where: { s: Range; t: [number, number] }[];
}

/** Everything that is filled in while walking over the strips. */
interface Work {
  readonly passes: Passes;
  readonly need: number;
  readonly endOfBay: number | undefined;
  readonly cells: Cell[];
  readonly profile: ProfileStrip[];
  readonly soak: Extremes;
  readonly wetGap: Extremes;
  readonly residence: Extremes;
  readonly lastTouch: Extremes;
  readonly contacts: Extremes;
  readonly rinses: Extremes;
  readonly jets: Extremes;
  readonly pickups: Extremes;
  readonly centre: Extremes;
  readonly gaps: readonly GapSum[];
  // Scratch columns for the passes of one cell: index, time at both ends, lines of the wet gap.
  readonly order: Int32Array;
  readonly xa: Float64Array;
  readonly xb: Float64Array;
  readonly ga: Float64Array;
  readonly gb: Float64Array;
}

function newWork(input: ExposureInput, passes: Passes): Work {
  const n = passes.n;
  const rated = input.rate !== undefined && input.rate > 0;
  let needs = passes.all;
  if (input.needs) {
    needs = 0;
    for (const does of input.needs) needs |= bitOf[does];
  }
  const gaps: GapSum[] = [];
  const watch = (kind: GapKind, bit: number): void => {
    if (needs & bit) gaps.push({ kind, bit, area: 0, where: [] });
  };
  watch('not swept', sweeps);
  watch('not wetted', wets);
  watch('not applied', applies);
  if (rated) watch('under rate', applies);
  watch('not contacted', contacts);
  watch('not jetted', jets);
  watch('not rinsed', rinses);
  watch('not picked up', picksUp);
  return {
    passes,
    need: rated ? input.rate! * (1 - depthTolerance) : 0,
    endOfBay: input.dwellFrom === 'end of bay' ? passes.applied : undefined,
    cells: [],
    profile: [],
    soak: noExtremes(),
    wetGap: noExtremes(),
    residence: noExtremes(),
    lastTouch: noExtremes(),
    contacts: noExtremes(),
    rinses: noExtremes(),
    jets: noExtremes(),
    pickups: noExtremes(),
    centre: noExtremes(),
    gaps,
    order: new Int32Array(n),
    xa: new Float64Array(n),
    xb: new Float64Array(n),
    ga: new Float64Array(n),
    gb: new Float64Array(n),
  };
}

function noExtremes(): Extremes {
  return {
    least: Number.POSITIVE_INFINITY,
    leastS: 0,
    leastT: 0,
    greatest: Number.NEGATIVE_INFINITY,
    greatestS: 0,
    greatestT: 0,
  };
}

function walkStrip(
  work: Work,
  slabs: readonly Slab[],
  ta: number,
  tb: number,
  active: Int32Array,
  count: number,
): void {
  const pieces = clip(slabs, ta, tb);
  if (pieces.length === 0) return;
  const firstCell = work.cells.length;
  for (let i = 0; i < pieces.length; ) {
    const s0 = pieces[i]!.s0;
    let s1 = pieces[i]!.s1;
    let j = i + 1;
    while (j < pieces.length && pieces[j]!.s0 <= s1 + snap) s1 = Math.max(s1, pieces[j++]!.s1);
    walkStretch(work, { ta, tb, pieces, from: i, to: j }, s0, s1, active, count);
    i = j;
  }
  if (work.cells.length > firstCell) work.profile.push(profileOf(work.cells, firstCell));
}

/** The strip, and which of its pieces of deposit are meant. */
interface Ground {
  readonly ta: number;
  readonly tb: number;
  readonly pieces: readonly Piece[];
  readonly from: number;
  readonly to: number;
}

/** Cut a stretch of a strip where passes begin or end, then each part where they change order. */
function walkStretch(work: Work, ground: Ground, s0: number, s1: number, active: Int32Array, count: number): void {
  const { lo, hi } = work.passes;
  let cuts: number[] | undefined;
  for (let i = 0; i < count; i++) {
    const p = active[i]!;
    if (lo[p]! > s0 + snap && lo[p]! < s1 - snap) cuts = added(cuts, lo[p]!);
    if (hi[p]! > s0 + snap && hi[p]! < s1 - snap) cuts = added(cuts, hi[p]!);
  }
  if (!cuts) {
    walkSpan(work, ground, s0, s1, active, count);
    return;
  }
  cuts.sort((a, b) => a - b);
  let a = s0;
  for (const cut of cuts) {
    if (cut <= a + snap) continue;
    walkSpan(work, ground, a, cut, active, count);
    a = cut;
  }
  walkSpan(work, ground, a, s1, active, count);
}

/** No pass begins or ends in (a, b): find its passes, in order of time, and where that order changes. */
function walkSpan(work: Work, ground: Ground, a: number, b: number, active: Int32Array, count: number): void {
  const { lo, hi, at, slope } = work.passes;
  const { order, xa, xb } = work;
  const mid = (a + b) / 2;
  let m = 0;
  let longest = 0;
  for (let i = 0; i < count; i++) {
    const p = active[i]!;
    if (lo[p]! > mid || hi[p]! < mid) continue;
    const ta = at[p]! + slope[p]! * (a - lo[p]!);
    const tb = at[p]! + slope[p]! * (b - lo[p]!);
    const duration = ta < tb ? tb - ta : ta - tb;
    if (duration > longest) longest = duration;
    let k = m++;
    while (k > 0 && xa[k - 1]! + xb[k - 1]! > ta + tb) {
      order[k] = order[k - 1]!;
      xa[k] = xa[k - 1]!;
      xb[k] = xb[k - 1]!;
      k--;
    }
    order[k] = p;
    xa[k] = ta;
    xb[k] = tb;
  }
  // Two passes can only change order if their times overlap: their middles are then less than the mean of their
  // durations apart. The list is in order of the middles, so looking ahead can stop early.
  let cuts: number[] | undefined;
  for (let i = 0; i < m; i++) {
    const limit = xa[i]! + xb[i]! + Math.abs(xb[i]! - xa[i]!) + longest;
    for (let j = i + 1; j < m && xa[j]! + xb[j]! < limit; j++) {
      const da = xa[i]! - xa[j]!;
      const db = xb[i]! - xb[j]!;
      if (da * db >= 0) continue;
      const cut = a + ((b - a) * da) / (da - db);
      if (cut > a + snap && cut < b - snap) cuts = added(cuts, cut);
    }
  }
  if (!cuts) {
    evaluate(work, ground, a, b, m);
    return;
  }
  cuts.sort((x, y) => x - y);
  cuts.push(b);
  let from = a;
  for (const cut of cuts) {
    if (cut <= from + snap && cut !== b) continue;
    sortAt(work, (from + cut) / 2, m);
    evaluate(work, ground, from, cut, m);
    from = cut;
  }
}

/** A list that is only made when something goes into it: most stretches are not cut at all. */
function added(list: number[] | undefined, value: number): number[] {
  if (!list) return [value];
  list.push(value);
  return list;
}

/** Put the passes of a cell in the order in which they come to chainage s. */
function sortAt(work: Work, s: number, m: number): void {
  const { lo, at, slope } = work.passes;
  const { order, xa } = work;
  for (let i = 0; i < m; i++) {
    const p = order[i]!;
    const time = at[p]! + slope[p]! * (s - lo[p]!);
    let k = i;
    while (k > 0 && xa[k - 1]! > time) {
      order[k] = order[k - 1]!;
      xa[k] = xa[k - 1]!;
      k--;
    }
    order[k] = p;
    xa[k] = time;
  }
}

/** One cell: the same passes in the same order from a to b. */
function evaluate(work: Work, ground: Ground, a: number, b: number, m: number): void {
  const { lo, at, slope, bit, depth } = work.passes;
  const { order, xa, xb, ga, gb, need } = work;
  let laid = 0;
  let did = 0;
  let full = -1;
  let tool = -1;
  let agitated = -1;
  let product = -1;
  let rinsed = -1;
  let contactCount = 0;
  let rinseCount = 0;
  let jetCount = 0;
  let pickupCount = 0;
  for (let i = 0; i < m; i++) {
    const p = order[i]!;
    xa[i] = at[p]! + slope[p]! * (a - lo[p]!);
    xb[i] = at[p]! + slope[p]! * (b - lo[p]!);
    const what = bit[p]!;
    did |= what;
    if (what === applies) {
      if (product < 0) product = i;
      // A pass that does not say how much it lays down is taken to give the full rate.
      laid += depth[p] === Number.POSITIVE_INFINITY ? need : depth[p]!;
      if (full < 0 && laid >= need) full = i;
    } else if (what === contacts) {
      contactCount++;
      agitated = i;
      if (tool < 0) tool = i;
    } else if (what === jets) {
      jetCount++;
      agitated = i;
      if (tool < 0) tool = i;
    } else if (what === rinses) {
      rinseCount++;
      rinsed = i;
    } else if (what === picksUp) {
      pickupCount++;
    }
  }

  let gaps = 0;
  let wet = -1;
  for (let i = 0; i < agitated; i++) {
    if (!(bit[order[i]!]! & (wets | applies | jets))) continue;
    if (wet >= 0) {
      ga[gaps] = xa[i]! - xa[wet]!;
      gb[gaps++] = xb[i]! - xb[wet]!;
    }
    wet = i;
  }
  if (wet >= 0) {
    ga[gaps] = xa[agitated]! - xa[wet]!;
    gb[gaps++] = xb[agitated]! - xb[wet]!;
  }
  let wetGap: Range | null = null;
  if (gaps > 0) {
    let atA = 0;
    let atB = 0;
    for (let g = 1; g < gaps; g++) {
      if (ga[g]! > ga[atA]! || (ga[g]! === ga[atA]! && gb[g]! > gb[atA]!)) atA = g;
      if (gb[g]! > gb[atB]! || (gb[g]! === gb[atB]! && ga[g]! > ga[atB]!)) atB = g;
    }
    wetGap = [ga[atA]!, gb[atB]!];
    // The greatest of several lines has a kink where another takes over: two cells, each linear.
    const da = ga[atA]! - ga[atB]!;
    const db = gb[atB]! - gb[atA]!;
    const kink = a + ((b - a) * da) / (da + db);
    if (da > 0 && db > 0 && kink > a + snap && kink < b - snap) {
      evaluate(work, ground, a, kink, m);
      evaluate(work, ground, kink, b, m);
      return;
    }
  }

  const begin = work.endOfBay;
  let soak: Range | null = null;
  if (full >= 0 && tool >= 0) {
    soak =
      begin === undefined ? [xa[tool]! - xa[full]!, xb[tool]! - xb[full]!] : [xa[tool]! - begin, xb[tool]! - begin];
  }
  const residence: Range | null =
    product >= 0 && rinsed >= 0 ? [xa[rinsed]! - xa[product]!, xb[rinsed]! - xb[product]!] : null;
  const lastTouch: Range | null = m > 0 ? [xa[m - 1]!, xb[m - 1]!] : null;

  const shape = shapeOf(ground, a, b);
  if (!(shape.area > 0)) return;
  const cell: Cell = {
    s: [a, b],
    t: shape.t,
    area: shape.area,
    soak,
    wetGap,
    residence,
    lastTouch,
    contacts: contactCount,
    rinses: rinseCount,
    jets: jetCount,
    pickups: pickupCount,
    depth: laid,
  };
  work.cells.push(cell);
  if (soak) note(work.soak, soak, ground, a, b);
  if (wetGap) note(work.wetGap, wetGap, ground, a, b);
  if (residence) note(work.residence, residence, ground, a, b);
  if (lastTouch) note(work.lastTouch, lastTouch, ground, a, b);
  noteCount(work.contacts, contactCount, ground, a, b);
  noteCount(work.rinses, rinseCount, ground, a, b);
  noteCount(work.jets, jetCount, ground, a, b);
  noteCount(work.pickups, pickupCount, ground, a, b);
  if (shape.t[0] <= snap && shape.t[1] >= -snap) noteCount(work.centre, rinseCount, ground, a, b);
  for (const gap of work.gaps) {
    const missing = gap.kind === 'under rate' ? product >= 0 && full < 0 : !(did & gap.bit);
    if (missing) addGap(gap, cell);
  }
}

// ---------------------------------------------------------------------------------------------------------------
// The deposit within a strip

/** The deposit between two offsets, as pieces in order of chainage; whole rectangles are joined. */
function clip(slabs: readonly Slab[], ta: number, tb: number): Piece[] {
  const pieces: Piece[] = [];
  for (const slab of slabs) {
    const { left, right } = slab;
    if ((left[0] >= tb && left[1] >= tb) || (right[0] <= ta && right[1] <= ta)) continue;
    const [s0, s1] = slab.s;
    if (left[0] <= ta + snap && left[1] <= ta + snap && right[0] >= tb - snap && right[1] >= tb - snap) {
      const before = pieces.at(-1);
      if (before?.whole && before.s1 === s0) before.s1 = s1;
      else pieces.push({ s0, s1, lo0: ta, lo1: ta, hi0: tb, hi1: tb, whole: true });
      continue;
    }
    clipSlanting(slab, ta, tb, pieces);
  }
  // Deposits with a bare strip between them lie side by side: their pieces come in turn, not in order.
  for (let i = 1; i < pieces.length; i++) {
    if (pieces[i]!.s0 < pieces[i - 1]!.s0) return pieces.sort((a, b) => a.s0 - b.s0);
  }
  return pieces;
}

/** A slab whose edges run through the strip: cut it where they enter and leave. */
function clipSlanting(slab: Slab, ta: number, tb: number, pieces: Piece[]): void {
  const [s0, s1] = slab.s;
  const cuts = [s0, s1];
  for (const edge of [slab.left, slab.right]) {
    for (const t of [ta, tb]) {
      const cut = s0 + ((s1 - s0) * (t - edge[0])) / (edge[1] - edge[0]);
      if (cut > s0 + snap && cut < s1 - snap) cuts.push(cut);
    }
  }
  cuts.sort((a, b) => a - b);
  for (let i = 1; i < cuts.length; i++) {
    const [a, b] = [cuts[i - 1]!, cuts[i]!];
    if (b - a <= snap && cuts.length > 2) continue;
    const lo0 = Math.min(tb, Math.max(ta, edgeAt(slab, slab.left, a)));
    const lo1 = Math.min(tb, Math.max(ta, edgeAt(slab, slab.left, b)));
    const hi0 = Math.max(ta, Math.min(tb, edgeAt(slab, slab.right, a)));
    const hi1 = Math.max(ta, Math.min(tb, edgeAt(slab, slab.right, b)));
    if (hi0 - lo0 + hi1 - lo1 <= 2 * snap) continue;
    pieces.push({ s0: a, s1: b, lo0, lo1, hi0, hi1, whole: false });
  }
}

/** Area and lateral extent of what a cell holds of the deposit. */
function shapeOf(ground: Ground, a: number, b: number): { area: number; t: Range } {
  const only = ground.pieces[ground.from]!;
  if (ground.to - ground.from === 1 && only.whole) {
    return { area: (b - a) * (ground.tb - ground.ta), t: [ground.ta, ground.tb] };
  }
  let area = 0;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = ground.from; i < ground.to; i++) {
    const piece = ground.pieces[i]!;
    const p = Math.max(a, piece.s0);
    const q = Math.min(b, piece.s1);
    if (q <= p) continue;
    const [lo0, lo1] = [along(piece, piece.lo0, piece.lo1, p), along(piece, piece.lo0, piece.lo1, q)];
    const [hi0, hi1] = [along(piece, piece.hi0, piece.hi1, p), along(piece, piece.hi0, piece.hi1, q)];
    area += ((q - p) * (hi0 - lo0 + hi1 - lo1)) / 2;
    low = Math.min(low, lo0, lo1);
    high = Math.max(high, hi0, hi1);
  }
  return { area, t: [low, high] };
}

/** An offset inside the deposit, in this strip, at a chainage just inside the cell. */
function offsetAt(ground: Ground, s: number): number {
  for (let i = ground.from; i < ground.to; i++) {
    const piece = ground.pieces[i]!;
    if (s < piece.s0 || s > piece.s1) continue;
    return (along(piece, piece.lo0, piece.lo1, s) + along(piece, piece.hi0, piece.hi1, s)) / 2;
  }
  return (ground.ta + ground.tb) / 2;
}

function along(piece: Piece, from: number, to: number, s: number): number {
  return from === to ? from : from + ((to - from) * (s - piece.s0)) / (piece.s1 - piece.s0);
}

// ---------------------------------------------------------------------------------------------------------------
// Extremes, gaps, profile

/** Differences smaller than this, s, do not move the place of an extreme: it would jump about with rounding. */
const sameTime = 1e-9;

function note(extremes: Extremes, values: Range, ground: Ground, a: number, b: number): void {
  const atA = values[0];
  const atB = values[1];
  const low = Math.min(atA, atB);
  if (low < extremes.least - sameTime) {
    extremes.least = low;
    extremes.leastS = atA <= atB ? a : b;
    extremes.leastT = offsetJustInside(ground, extremes.leastS, a, b);
  }
  const high = Math.max(atA, atB);
  if (high > extremes.greatest + sameTime) {
    extremes.greatest = high;
    extremes.greatestS = atA >= atB ? a : b;
    extremes.greatestT = offsetJustInside(ground, extremes.greatestS, a, b);
  }
}

/** At the very end of a cell the deposit may have no width: look a hair inside. */
function offsetJustInside(ground: Ground, s: number, a: number, b: number): number {
  return offsetAt(ground, s + ((a + b) / 2 - s) * 1e-6);
}

function noteCount(extremes: Extremes, count: number, ground: Ground, a: number, b: number): void {
  if (count < extremes.least) {
    extremes.least = count;
    extremes.leastS = (a + b) / 2;
    extremes.leastT = offsetAt(ground, extremes.leastS);
  }
  if (count > extremes.greatest) {
    extremes.greatest = count;
    extremes.greatestS = (a + b) / 2;
    extremes.greatestT = offsetAt(ground, extremes.greatestS);
  }
}

/** Add a cell to a gap; it joins the rectangle to its left if both have the same length. */
function addGap(gap: GapSum, cell: Cell): void {
  gap.area += cell.area;
  for (let i = gap.where.length - 1; i >= 0 && i >= gap.where.length - 16; i--) {
    const before = gap.where[i]!;
    if (before.s[0] === cell.s[0] && before.s[1] === cell.s[1] && before.t[1] === cell.t[0]) {
      before.t[1] = cell.t[1];
      return;
    }
  }
  gap.where.push({ s: cell.s, t: [cell.t[0], cell.t[1]] });
}

function profileOf(cells: readonly Cell[], from: number): ProfileStrip {
  const start = cells[from]!;
  let [tLo, tHi] = start.t;
  let [cLo, cHi, rLo, rHi] = [start.contacts, start.contacts, start.rinses, start.rinses];
  let [jLo, jHi, pLo, pHi] = [start.jets, start.jets, start.pickups, start.pickups];
  let [dLo, dHi] = [start.depth, start.depth];
  for (let i = from + 1; i < cells.length; i++) {
    const cell = cells[i]!;
    tLo = Math.min(tLo, cell.t[0]);
    tHi = Math.max(tHi, cell.t[1]);
    cLo = Math.min(cLo, cell.contacts);
    cHi = Math.max(cHi, cell.contacts);
    rLo = Math.min(rLo, cell.rinses);
    rHi = Math.max(rHi, cell.rinses);
    jLo = Math.min(jLo, cell.jets);
    jHi = Math.max(jHi, cell.jets);
    pLo = Math.min(pLo, cell.pickups);
    pHi = Math.max(pHi, cell.pickups);
    dLo = Math.min(dLo, cell.depth);
    dHi = Math.max(dHi, cell.depth);
  }
  return {
    t: [tLo, tHi],
    contacts: [cLo, cHi],
    rinses: [rLo, rHi],
    jets: [jLo, jHi],
    pickups: [pLo, pHi],
    depth: [dLo, dHi],
  };
}

function result(
  work: Work,
  extent: { s: Range; t: Range },
  slabs: readonly Slab[],
  rate: number | undefined,
): Exposure {
  return {
    area: { s: extent.s, t: extent.t, squareMetres: areaOf(slabs) },
    rate: rate ?? null,
    soak: clockRange(work.soak),
    wetGap: clockRange(work.wetGap),
    residence: clockRange(work.residence),
    lastTouch: clockRange(work.lastTouch),
    contacts: countRange(work.contacts),
    rinses: countRange(work.rinses),
    jets: countRange(work.jets),
    pickups: countRange(work.pickups),
    rinsesAtCentreline: work.centre.least <= work.centre.greatest ? countRange(work.centre) : null,
    gaps: work.gaps.filter(gap => gap.area > 0).map(({ kind, area, where }) => ({ kind, area, where })),
    profile: work.profile,
    cells: work.cells,
  };
}

function clockRange(extremes: Extremes): ClockRange | null {
  if (extremes.least > extremes.greatest) return null;
  return {
    least: { seconds: extremes.least, s: extremes.leastS, t: extremes.leastT },
    greatest: { seconds: extremes.greatest, s: extremes.greatestS, t: extremes.greatestT },
  };
}

function countRange(extremes: Extremes): CountRange {
  if (extremes.least > extremes.greatest) return { least: { count: 0, s: 0, t: 0 }, most: { count: 0, s: 0, t: 0 } };
  return {
    least: { count: extremes.least, s: extremes.leastS, t: extremes.leastT },
    most: { count: extremes.greatest, s: extremes.greatestS, t: extremes.greatestT },
  };
}

/** Slabs with a length and a width, in order of chainage. */
function soundSlabs(slabs: readonly Slab[]): readonly Slab[] {
  const sound = slabs.filter(({ s, left, right }) => {
    const finite = Number.isFinite(s[0] + s[1] + left[0] + left[1] + right[0] + right[1]);
    return finite && s[1] - s[0] > snap && right[0] - left[0] + right[1] - left[1] > 2 * snap;
  });
  return sound.every((slab, i) => i === 0 || sound[i - 1]!.s[0] <= slab.s[0])
    ? sound
    : sound.toSorted((a, b) => a.s[0] - b.s[0]);
}
