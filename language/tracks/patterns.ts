/**
 * Patterns of work: the order in which a machine, or a convoy, takes its lanes. Pure geometry, no times yet;
 * `timing.ts` places the legs in time.
 *
 * - Spraying: alternate sides of the centreline, in one or several coats.
 * - Brooming: circuits round the centreline, outward, then inward over the same circuits, as often as asked.
 * - Rinsing: circuits outward only, the first one repeated, then each wider one repeated.
 * - One way: dry sweeping against the landing direction, with empty returns.
 * - Side by side: pre-wetting, low-pressure water, magnet and regenerative-air pick-up.
 *
 * The patterns themselves are common practice, no source; the lane arithmetic is geometry.
 */

import type { EdgeRule, Lane, LaneProblem } from './lanes.ts';
import { circuitOffsets, lanesFromCentreline, lanesSideBySide } from './lanes.ts';
import type { Facing, Heading, Leg, Range } from './track.ts';

/** Side of the centreline, looking in the landing direction. */
export type Side = 'right' | 'left';

/** The legs of one machine, or none and the reason. */
export interface Pattern {
  readonly legs: readonly Leg[];
  readonly problem?: PatternProblem;
}

/** The legs of each member of a convoy, leader first; all have the same number of legs, at the same chainages. */
export interface ConvoyPattern {
  readonly members: readonly (readonly Leg[])[];
  /** Circuits the leader drives in one run. */
  readonly circuits: number;
  /** How much wider each circuit of the whole convoy is, m. */
  readonly advance: number;
  /** Offsets of the lanes, innermost first, m. */
  readonly offsets: readonly number[];
  readonly problem?: PatternProblem;
}

/** Why a pattern is empty. */
export type PatternProblem = LaneProblem | { readonly kind: 'no bay' | 'too many passes'; readonly value: number };

/** More passes than this in one activity is a slip of the pen. */
export const mostPasses = 5000;

/** What every pattern needs to know of the bay. */
interface Bay {
  /** Chainage, least first, m. */
  readonly bay: Range;
  /** Direction of the first pass. Default 1, with the landing. */
  readonly heading?: Heading;
}

/** See {@link sprayPattern}. Metres. */
export interface SprayOptions extends Bay {
  /** Lateral extent to cover. */
  readonly across: Range;
  readonly width: number;
  readonly overlap: number;
  readonly coats?: number;
  /** Side of the first pass. Default right. */
  readonly first?: Side;
  /** Close the nozzles beyond the lateral extent. */
  readonly closeOutside?: boolean;
}

/** Spraying: passes alternate from side to side of the centreline, from the inside out, coat after coat. */
export function sprayPattern(options: SprayOptions): Pattern {
  const { lanes, problem } = lanesFromCentreline(
    options.across,
    options.width,
    options.overlap,
    options.closeOutside ?? false,
  );
  if (problem) return { legs: [], problem };
  const [near, far] = options.first === 'left' ? [lanes.left, lanes.right] : [lanes.right, lanes.left];
  const order: Lane[] = [];
  for (let k = 0; k < Math.max(near.length, far.length); k++) {
    if (near[k]) order.push(near[k]!);
    if (far[k]) order.push(far[k]!);
  }
  return backAndForth(order, options, options.coats ?? 1);
}

/** See {@link circuitPattern}. Metres. */
export interface CircuitOptions extends Bay {
  /** Distance from the centreline that must be worked. */
  readonly edge: number;
  /** Swept width of each member, leader first. */
  readonly swept: readonly number[];
  /** Distance between neighbouring lanes. */
  readonly advance: number;
  /** Runs in turn outward and inward: 2 is out and in once, the default. */
  readonly runs?: number;
  /** Where followers go: the leader's lane (contacts multiply) or each the next lane outward (coverage widens). */
  readonly followers?: 'same lane' | 'next lane';
  readonly edges?: EdgeRule;
  readonly extra?: number;
  /** Side of the first pass of the outward run. Default right. */
  readonly first?: Side;
}

/**
 * Brooming in circuits from the centreline outward, each wider by the advance, then inward over the same circuits with
 * direction of travel and facing turned, as often as asked.
 *
 * With followers in the next lane, circuit c of member j (both from 0) is lane c·m + j of m members: the convoy as a
 * whole then widens by m advances. The last circuit may reach further out than one machine would need to.
 */
export function circuitPattern(options: CircuitOptions): ConvoyPattern {
  const members = options.swept.length;
  const spread = options.followers === 'next lane' ? members : 1;
  const least = Math.min(...options.swept);
  const advance = options.advance * spread;
  const laid = circuitOffsets(options.edge, least, options.advance, options.edges ?? 'covered', options.extra ?? 0);
  const problem = laid.problem ?? bayProblem(options);
  if (problem || members === 0) {
    return { members: options.swept.map(() => []), circuits: 0, advance, offsets: [], ...(problem && { problem }) };
  }
  const circuits = Math.ceil(laid.lanes.length / spread);
  const offsets = Array.from({ length: circuits * spread }, (_, k) => (k + 0.5) * options.advance);
  const runs = wholeAtLeast(options.runs ?? 2, 1);
  if (2 * circuits * runs * members > mostPasses) {
    const value = 2 * circuits * runs * members;
    return {
      members: options.swept.map(() => []),
      circuits,
      advance,
      offsets,
      problem: { kind: 'too many passes', value },
    };
  }
  const legsOf = (swept: number, j: number): readonly Leg[] => {
    const legs: Leg[] = [];
    for (let run = 1; run <= runs; run++) {
      const outward = run % 2 === 1;
      for (let i = 0; i < circuits; i++) {
        const c = outward ? i : circuits - 1 - i;
        const t = offsets[options.followers === 'next lane' ? c * spread + j : c]!;
        const pair = circuit(t, swept, options, outward ? 'centreline' : 'edge', c + 1, run);
        legs.push(...(outward ? pair : [turned(pair[1]), turned(pair[0])]));
      }
    }
    return legs;
  };
  return { members: options.swept.map(legsOf), circuits, advance, offsets };
}

/** See {@link rinsePattern}. Metres. */
export interface RinseOptions extends Bay {
  readonly edge: number;
  /** Width of the band of each member of the convoy, leader first. */
  readonly widths: readonly number[];
  readonly advance: number;
  /** How often the first circuit is driven before it runs clear. Default 3 (common practice, no source). */
  readonly firstRepeats?: number;
  /** How often each wider circuit is driven. Default 1. */
  readonly repeats?: number;
  readonly edges?: EdgeRule;
  readonly extra?: number;
  readonly first?: Side;
}

/**
 * Rinsing: circuits outward only, for an inward run would drag dirty water to the crown. The whole convoy keeps to one
 * lane; brooms face the edge. The first circuit is repeated, then each wider one is.
 */
export function rinsePattern(options: RinseOptions): ConvoyPattern {
  const least = Math.min(...options.widths);
  const laid = circuitOffsets(options.edge, least, options.advance, options.edges ?? 'covered', options.extra ?? 0);
  const problem = laid.problem ?? bayProblem(options);
  const empty = options.widths.map(() => []);
  if (problem || empty.length === 0) {
    return { members: empty, circuits: 0, advance: options.advance, offsets: [], ...(problem && { problem }) };
  }
  const offsets = laid.lanes;
  const first = wholeAtLeast(options.firstRepeats ?? 3, 1);
  const each = wholeAtLeast(options.repeats ?? 1, 1);
  const passes = 2 * (first + (offsets.length - 1) * each) * empty.length;
  if (passes > mostPasses) {
    const tooMany: PatternProblem = { kind: 'too many passes', value: passes };
    return { members: empty, circuits: offsets.length, advance: options.advance, offsets, problem: tooMany };
  }
  const members = options.widths.map(width => {
    const legs: Leg[] = [];
    offsets.forEach((t, k) => {
      for (let r = 1; r <= (k === 0 ? first : each); r++) legs.push(...circuit(t, width, options, 'edge', k + 1, r));
    });
    return legs;
  });
  return { members, circuits: offsets.length, advance: options.advance, offsets };
}

/** See {@link oneWayPattern} and {@link sideBySidePattern}. Metres. */
export interface AcrossOptions extends Bay {
  readonly across: Range;
  readonly width: number;
  readonly overlap: number;
  /** How often the whole area is covered. Default 1. */
  readonly rounds?: number;
  /** Order of the lanes: from left to right, right to left, or from the centreline out, side by side in turn. */
  readonly order?: 'left to right' | 'right to left' | 'from centreline';
}

/** One-way work, such as dry sweeping against the landing direction (the default): every pass has the same heading. */
export function oneWayPattern(options: AcrossOptions): Pattern {
  const heading = options.heading ?? -1;
  const { lanes, problem } = orderedLanes(options);
  if (problem) return { legs: [], problem };
  return passesOver(lanes, { ...options, heading }, options.rounds ?? 1, () => heading);
}

/** Passes side by side, up and down in turn: pre-wetting, water jets, magnet and pick-up passes. */
export function sideBySidePattern(options: AcrossOptions): Pattern {
  const { lanes, problem } = orderedLanes(options);
  if (problem) return { legs: [], problem };
  return backAndForth(lanes, options, options.rounds ?? 1);
}

function orderedLanes(options: AcrossOptions): { lanes: readonly Lane[]; problem?: PatternProblem } {
  const { lanes, problem } = lanesSideBySide(options.across, options.width, options.overlap);
  if (problem) return { lanes, problem };
  if (options.order === 'right to left') return { lanes: lanes.toReversed() };
  // Lanes at the same distance keep right before left, so that the order never hangs on rounding.
  if (options.order === 'from centreline') {
    const far = (lane: Lane): number => Math.round(Math.abs(lane.t) * 1e6);
    return { lanes: lanes.toSorted((a, b) => far(a) - far(b) || b.t - a.t) };
  }
  return { lanes };
}

/** Lanes in order, direction changing with every pass, the whole repeated. */
function backAndForth(lanes: readonly Lane[], bay: Bay, rounds: number): Pattern {
  const first = bay.heading ?? 1;
  return passesOver(lanes, bay, rounds, i => (i % 2 === 0 ? first : (-first as Heading)));
}

function passesOver(
  lanes: readonly Lane[],
  bay: Bay,
  rounds: number,
  headingOfPass: (index: number) => Heading,
): Pattern {
  const problem = bayProblem(bay);
  if (problem) return { legs: [], problem };
  const n = wholeAtLeast(rounds, 1);
  if (lanes.length * n > mostPasses) {
    return { legs: [], problem: { kind: 'too many passes', value: lanes.length * n } };
  }
  const legs: Leg[] = [];
  for (let round = 1; round <= n; round++) {
    lanes.forEach((lane, k) => {
      legs.push({ ...along(bay.bay, lane.t, headingOfPass(legs.length)), band: lane.band, lane: k + 1, round });
    });
  }
  return { legs };
}

/** One circuit: out on the first side, back on the other. */
function circuit(
  t: number,
  width: number,
  options: Bay & { readonly first?: Side },
  facing: Facing,
  lane: number,
  round: number,
): readonly [Leg, Leg] {
  const heading = options.heading ?? 1;
  const near = options.first === 'left' ? -t : t;
  const leg = (at: number, way: Heading): Leg => ({
    ...along(options.bay, at, way),
    band: [at - width / 2, at + width / 2],
    facing,
    lane,
    round,
  });
  return [leg(near, heading), leg(-near, -heading as Heading)];
}

/** The same leg driven the other way. */
function turned(leg: Leg): Leg {
  return { ...leg, from: leg.to, to: leg.from };
}

function along(bay: Range, t: number, heading: Heading): Pick<Leg, 'from' | 'to'> {
  const [a, b] = heading === 1 ? bay : [bay[1], bay[0]];
  return { from: { s: a, t }, to: { s: b, t } };
}

function bayProblem(options: Bay): PatternProblem | undefined {
  const length = options.bay[1] - options.bay[0];
  return length > 0 && Number.isFinite(length) ? undefined : { kind: 'no bay', value: length };
}

/** A count as a whole number, at least `least`; anything that is not a number counts as `least`. */
function wholeAtLeast(value: number, least: number): number {
  return Number.isFinite(value) ? Math.max(least, Math.floor(value)) : least;
}
