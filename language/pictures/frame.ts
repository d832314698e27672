/** One frame for all works on a runway: chainage and offset from either threshold to metres of the pavement. */
import type { Range } from '../tracks/track.ts';
import type { RunwayPicture } from './data.ts';

/** All that a frame does to numbers: where its chainages begin, and which way they run. */
export interface Turn {
  readonly zero: number;
  readonly dir: 1 | -1;
}

export interface Frame extends Turned {
  /** Indices of the runway and of its ruler. */
  readonly runway: number;
  readonly ruler: number;
}

/** Numbers of the text turned into those of the pavement. */
export interface Turned extends Turn {
  readonly x: (s: number) => number;
  readonly y: (t: number) => number;
  /** Ranges come back least first. */
  readonly xs: (s: Range) => Range;
  readonly ys: (t: Range) => Range;
  /** And back: chainage and offset as the text counts. */
  readonly s: (x: number) => number;
  readonly t: (y: number) => number;
}

/** The frame of an end of a runway; undefined where the runway has no such end. */
export function frameFrom({ rulers }: Pick<RunwayPicture, 'rulers'>, runway: number, end: string): Frame | undefined {
  const ruler = rulers.findIndex(each => each.end === end);
  if (ruler < 0) return undefined;
  return { runway, ruler, ...turnedBy(rulers[ruler]!) };
}

export function turnedBy({ zero, dir }: Turn): Turned {
  const x = (s: number): number => zero + dir * s;
  const y = (t: number): number => dir * t + 0;
  const sorted = (a: number, b: number): Range => (a <= b ? [a, b] : [b, a]);
  return {
    zero,
    dir,
    x,
    y,
    xs: ([a, b]) => sorted(x(a), x(b)),
    ys: ([a, b]) => sorted(y(a), y(b)),
    s: at => dir * (at - zero) + 0,
    t: at => dir * at + 0,
  };
}

/** Values at the two ends of a chainage range, in the order of the x-range. */
export function mirrored(values: Range, { dir }: Turn): Range {
  return dir === 1 ? values : [values[1], values[0]];
}
