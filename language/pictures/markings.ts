/**
 * Runway markings in their true dimensions, for the plan: the family of ICAO Annex 14, EASA CS-ADR-DSN L.525–L.545 and
 * MOS 139 chapter 8, as collected in the handbook 4.3 (marks beside the numbers). A drawing, not a design of markings.
 */
import type { Ruler, RunwayPicture } from './data.ts';
import { designationLoops } from './glyphs.ts';
import { once } from './once.ts';

/** A filled shape: loops of [x, y] in metres of the pavement, even-odd. */
export interface Marking {
  readonly kind: 'threshold' | 'designation' | 'centreline' | 'aiming point' | 'touchdown zone' | 'side stripe';
  readonly loops: readonly (readonly (readonly [number, number])[])[];
}

/** Stripes by runway width. [V1] AIM 2-3-3 table 2-3-2, [V2] CS-ADR-DSN L.535. */
const stripesByWidth: readonly (readonly [width: number, stripes: number])[] = [
  [18, 4],
  [23, 6],
  [30, 8],
  [45, 12],
  [60, 16],
];
/** 30 m long from 6 m past the threshold, about 1.8 m wide [V2]. */
const stripe = { from: 6, length: 30, width: 1.8 };
/** The designation stands 12 m past the threshold marking [V2]. */
const beforeDesignation = 12;
/** Stripes of 30 m with gaps of 20 m; 0.45 m wide (category I) [V2]. */
const centreline = { length: 30, gap: 20, width: 0.45, clear: 12 };

/** Aiming point by landing distance available [V2]: start, bar length and width, gap between the bars, m. */
interface AimingPoint {
  readonly below: number;
  readonly start: number;
  readonly length: number;
  readonly width: number;
  readonly gap: number;
}
const aimingPoints: readonly AimingPoint[] = [
  { below: 800, start: 150, length: 30, width: 4, gap: 6 },
  { below: 1200, start: 250, length: 30, width: 6, gap: 9 },
  { below: 2400, start: 300, length: 45, width: 9, gap: 18 },
  { below: Infinity, start: 400, length: 60, width: 9, gap: 18 },
];
/** Touchdown zone pairs by landing distance available [V2]: bars of 22.5 × 3 m. */
const touchdown: readonly (readonly [below: number, starts: readonly number[]])[] = [
  [900, [300]],
  [1200, [150, 450]],
  [1500, [150, 450, 600]],
  [2400, [150, 450, 600, 750]],
  [Infinity, [150, 300, 600, 750, 900, 1050]],
];
const bar = { length: 22.5, width: 3 };
/** A pair this close to the aiming point is left out [V2]. */
const nearAimingPoint = 50;
/** No pairs within this zone about the middle of the runway [V2] MOS 8.24(5). */
const middleZone = 550;

/** All markings of a runway; without a length only those of its first end. */
export const markingsOf = once((runway: Pick<RunwayPicture, 'length' | 'width' | 'rulers'>): readonly Marking[] => {
  const ends = runway.length === undefined ? runway.rulers.slice(0, 1) : runway.rulers;
  return [...ends.flatMap(ruler => ofEnd(ruler, runway)), ...betweenEnds(runway)];
});

/** How many threshold stripes a runway of a width has. */
export function thresholdStripes(width: number): number {
  return stripesByWidth.findLast(([least]) => width >= least - 0.5)?.[1] ?? 4;
}

function ofEnd(ruler: Ruler, runway: Pick<RunwayPicture, 'length' | 'width' | 'rulers'>): readonly Marking[] {
  const landing = landingDistance(ruler, runway);
  const point = aimingPoints.find(each => landing < each.below)!;
  const start = ruler.aimingPoint ?? point.start;
  const pair = (from: number, length: number, width: number, gap: number) => [
    rectangle(ruler, from, length, -gap / 2 - width, -gap / 2),
    rectangle(ruler, from, length, gap / 2, gap / 2 + width),
  ];
  const zones = touchdown.find(([below]) => landing < below)![1];
  const middle = landing === Infinity ? Infinity : (runway.length ?? 0) / 2;
  return [
    { kind: 'threshold', loops: thresholdLoops(ruler, runway.width) },
    { kind: 'designation', loops: designationOf(ruler) },
    { kind: 'aiming point', loops: pair(start, point.length, point.width, point.gap) },
    ...zones
      .filter(from => Math.abs(from - start) > nearAimingPoint)
      .filter(from => Math.abs(xAt(ruler, from) - middle) > middleZone / 2)
      .map((from): Marking => ({ kind: 'touchdown zone', loops: pair(from, bar.length, bar.width, point.gap) })),
  ];
}

function landingDistance({ displaced }: Ruler, { length }: Pick<RunwayPicture, 'length'>): number {
  return length === undefined ? Infinity : length - displaced;
}

/** Half of the stripes on either side; between the two middle ones twice the gap. */
function thresholdLoops(ruler: Ruler, width: number): Marking['loops'] {
  const half = thresholdStripes(width) / 2;
  return Array.from({ length: half }, (_, i) => stripe.width * (1 + 2 * i)).flatMap(inner => [
    rectangle(ruler, stripe.from, stripe.length, inner, inner + stripe.width),
    rectangle(ruler, stripe.from, stripe.length, -inner - stripe.width, -inner),
  ]);
}

function designationOf(ruler: Ruler): Marking['loops'] {
  const base = stripe.from + stripe.length + beforeDesignation;
  const { loops } = designationLoops(ruler.end);
  return loops.map(loop => loop.map(([u, v]) => [xAt(ruler, base + v), ruler.dir * u] as const));
}

function afterDesignation({ end }: Ruler): number {
  return stripe.from + stripe.length + beforeDesignation + designationLoops(end).height + centreline.clear;
}

/** Centreline between the designations, side stripes between the thresholds. */
function betweenEnds(runway: Pick<RunwayPicture, 'length' | 'width' | 'rulers'>): readonly Marking[] {
  const [first, second] = runway.rulers;
  if (!first) return [];
  const from = xAt(first, afterDesignation(first));
  const to = second && runway.length !== undefined ? xAt(second, afterDesignation(second)) : from + 3000;
  const loops: (readonly (readonly [number, number])[])[] = [];
  for (let x = from; x < to && loops.length < 200; x += centreline.length + centreline.gap) {
    loops.push(corners(x, Math.min(to, x + centreline.length), -centreline.width / 2, centreline.width / 2));
  }
  const [a, b] = [first.zero, second && runway.length !== undefined ? second.zero : first.zero + 3000];
  const edge = runway.width / 2;
  const sides = [corners(a, b, -edge, -edge + centreline.width), corners(a, b, edge - centreline.width, edge)];
  return [
    { kind: 'centreline', loops },
    { kind: 'side stripe', loops: sides },
  ];
}

function xAt({ zero, dir }: Ruler, s: number): number {
  return zero + dir * s;
}

/** A rectangle from a chainage on, between two offsets. */
function rectangle(ruler: Ruler, from: number, length: number, t0: number, t1: number) {
  return corners(xAt(ruler, from), xAt(ruler, from + length), ruler.dir * t0, ruler.dir * t1);
}

function corners(x0: number, x1: number, y0: number, y1: number): readonly (readonly [number, number])[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}
