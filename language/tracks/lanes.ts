/**
 * Where the lanes lie across the runway: side by side over an area, from the centreline outward, or as circuits round
 * the centreline. Metres; nothing here knows about chainage or time.
 */

import type { Range } from './track.ts';

/** A lane: the line the machine's centre follows, and the strip it works on. */
export interface Lane {
  readonly t: number;
  readonly band: Range;
}

/** Why lanes could not be laid. The caller turns it into a finding. */
export interface LaneProblem {
  readonly kind: 'no width' | 'no progress' | 'too many lanes';
  /** The number that is wrong: the width, the pitch, or how many lanes it would take. */
  readonly value: number;
}

/** Lanes, or none and the reason. */
export interface Lanes<T> {
  readonly lanes: T;
  readonly problem?: LaneProblem;
}

/** More lanes than this on one runway is a slip of the pen (a 1 mm broom), not a job. */
export const mostLanes = 2000;

/** Lengths closer than this, m, are the same: edges that were computed two ways must not leave a sliver. */
const tiny = 1e-9;

/**
 * Width that a broom at an angle sweeps: `nominal · cos(angle)`. Source: geometry (handbook B1).
 *
 * @param nominal length of the broom, m
 * @param angle from square across the direction of travel, radians
 */
export function sweptWidth(nominal: number, angle: number): number {
  return nominal * Math.cos(angle);
}

/** How much wider each circuit is: half of the swept width, half of the nominal one, or a length in metres. */
export type AdvanceRule = 'half swept' | 'half nominal' | number;

/** The advance in metres. See {@link AdvanceRule}. */
export function advanceOf(rule: AdvanceRule, nominal: number, angle: number): number {
  if (rule === 'half swept') return sweptWidth(nominal, angle) / 2;
  if (rule === 'half nominal') return nominal / 2;
  return rule;
}

/**
 * What an advance leaves inside the worked area after one run, away from the edges.
 *
 * Neighbouring bands `swept` wide and `advance` apart cover a point ⌊swept/advance⌋ or one more times.
 *
 * @returns overlap of neighbours as a share of the swept width; fewest contacts; share of the interior that has only
 *   those fewest. Source: geometry. A square broom at half its width: 2 contacts everywhere (share 1).
 */
export function interiorContacts(swept: number, advance: number): { overlap: number; fewest: number; share: number } {
  const ratio = swept / advance;
  const fewest = Math.floor(ratio + tiny);
  return { overlap: (swept - advance) / swept, fewest, share: 1 - Math.max(0, ratio - fewest) };
}

/**
 * Lanes needed to cover a width: `ceil((W − o)/(w − o))`, at least one. Source: geometry (handbook B2).
 *
 * @param across width to cover, m
 * @param width of one lane, m
 * @param overlap of neighbours, m
 */
export function lanesNeeded(across: number, width: number, overlap: number): number {
  return Math.max(1, Math.ceil((across - overlap) / (width - overlap) - tiny));
}

/**
 * Lanes side by side over `across`, left to right. What they cover too much is shared between the two sides, or put
 * beyond the right edge when they are laid from the left one (and the other way round).
 */
export function lanesSideBySide(
  across: Range,
  width: number,
  overlap: number,
  from: 'middle' | 'left' | 'right' = 'middle',
): Lanes<readonly Lane[]> {
  const problem = problemOf(across, width, width - overlap);
  if (problem) return { lanes: [], problem };
  const n = lanesNeeded(across[1] - across[0], width, overlap);
  if (n > mostLanes) return { lanes: [], problem: { kind: 'too many lanes', value: n } };
  const pitch = width - overlap;
  const covered = n * pitch + overlap;
  const spare = covered - (across[1] - across[0]);
  const left = across[0] - (from === 'middle' ? spare / 2 : from === 'left' ? 0 : spare);
  const lanes = Array.from({ length: n }, (_, k) => laneAt(left + width / 2 + k * pitch, width));
  return { lanes };
}

/** Lanes on either side of the centreline, each from the inside out. */
export interface SidedLanes {
  readonly right: readonly Lane[];
  readonly left: readonly Lane[];
}

/**
 * Swaths from the centreline outward, as sprayers work. The two innermost overlap each other across the centreline by
 * the same `overlap` as all others. An area that lies wholly on one side starts at its inner edge.
 *
 * @param across lateral extent, m, least first
 * @param width of the swath, m
 * @param overlap of neighbours, m
 * @param closeOutside close the nozzles beyond the extent: the outermost bands end at its edge
 */
export function lanesFromCentreline(
  across: Range,
  width: number,
  overlap: number,
  closeOutside = false,
): Lanes<SidedLanes> {
  const none: SidedLanes = { right: [], left: [] };
  const problem = problemOf(across, width, width - overlap);
  if (problem) return { lanes: none, problem };
  const oneSide = across[0] >= 0 || across[1] <= 0;
  const side = (inner: number, outer: number): { t: number; count: number } => {
    const t = oneSide ? inner + width / 2 : (width - overlap) / 2;
    return { t, count: outer <= inner ? 0 : stepsUntil(outer, t + width / 2, width - overlap) };
  };
  const right = across[1] > 0 ? side(Math.max(0, across[0]), across[1]) : { t: 0, count: 0 };
  const left = across[0] < 0 ? side(Math.max(0, -across[1]), -across[0]) : { t: 0, count: 0 };
  if (right.count + left.count > mostLanes) {
    return { lanes: none, problem: { kind: 'too many lanes', value: right.count + left.count } };
  }
  const lay = (first: { t: number; count: number }, sign: 1 | -1): readonly Lane[] =>
    Array.from({ length: first.count }, (_, k) => {
      const lane = laneAt(sign * (first.t + k * (width - overlap)), width);
      if (!closeOutside) return lane;
      return { t: lane.t, band: [Math.max(lane.band[0], across[0]), Math.min(lane.band[1], across[1])] as const };
    });
  return { lanes: { right: lay(right, 1), left: lay(left, -1) } };
}

/** How far circuits must go out. */
export type EdgeRule =
  /** The outermost band reaches the edge: points along it get one contact a run. */
  | 'covered'
  /** Circuits go on until the edge gets as many contacts as the inside. */
  | 'as inside';

/**
 * Offsets of the circuits' lanes, innermost first: `(k − ½) · advance`. Lane 1 is centred at half the advance, so that
 * its two bands overlap across the crown like all other neighbours.
 *
 * @param edge distance from the centreline that must be worked, m
 * @param swept width of a band, m
 * @param advance distance between neighbouring lanes, m
 * @param rule see {@link EdgeRule}
 * @param extra further circuits on top
 */
export function circuitOffsets(
  edge: number,
  swept: number,
  advance: number,
  rule: EdgeRule = 'covered',
  extra = 0,
): Lanes<readonly number[]> {
  const problem = problemOf([0, edge], swept, advance);
  if (problem) return { lanes: [], problem };
  // As inside: the first band that no longer touches the deposit is lane n + 1.
  const n =
    rule === 'covered'
      ? stepsUntil(edge, advance / 2 + swept / 2, advance)
      : stepsUntil(edge, 1.5 * advance - swept / 2, advance);
  const count = Math.max(1, n + Math.max(0, Math.floor(extra) || 0));
  if (count > mostLanes) return { lanes: [], problem: { kind: 'too many lanes', value: count } };
  return { lanes: Array.from({ length: count }, (_, k) => (k + 0.5) * advance) };
}

/** A lane of a given width about a line. */
export function laneAt(t: number, width: number): Lane {
  return { t, band: [t - width / 2, t + width / 2] };
}

/** Steps of `pitch`, the first reaching `first`, until `goal` is reached. */
function stepsUntil(goal: number, first: number, pitch: number): number {
  return Math.max(1, Math.ceil((goal - first) / pitch - tiny) + 1);
}

function problemOf(across: Range, width: number, pitch: number): LaneProblem | undefined {
  const extent = across[1] - across[0];
  if (!(width > 0) || !Number.isFinite(width)) return { kind: 'no width', value: width };
  if (!(extent > 0) || !Number.isFinite(extent)) return { kind: 'no width', value: extent };
  if (!(pitch > 0) || !Number.isFinite(pitch)) return { kind: 'no progress', value: pitch };
  if (extent / pitch > 2 * mostLanes) return { kind: 'too many lanes', value: Math.ceil(extent / pitch) };
  return undefined;
}
