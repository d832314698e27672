import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Heading } from '../../../language/tracks/track.ts';
import type { PathPiece } from '../../../language/tracks/turns.ts';
import {
  circuitLengths,
  fieldEfficiency,
  pathLength,
  pathPoints,
  semicircleEnds,
  turnLength,
  turnPath,
  turnRoom,
  turnShape,
  turnTime,
} from '../../../language/tracks/turns.ts';
import { shortestPath } from './dubins.ts';

describe('turn lengths: check values of the handbook (work-methods 3.5, all [D]: derived, checked there numerically)', () => {
  it.each([
    // K-1 and its neighbours [D]
    ['loop', 3, 8, {}, 55.055],
    ['loop', 4.5, 6, {}, 38.356],
    ['loop', 8, 8, {}, 48.26],
    // K-2 [D]
    ['fishtail', 3, 8, { narrow: 'fishtail' }, 38.133],
    ['fishtail', 4.5, 6, { narrow: 'fishtail' }, 26.35],
    ['straight between', 20, 10, {}, 31.416],
    ['semicircle', 20, 10, { wide: 'semicircle' }, 31.416],
  ] as const)('%s, d = %d, R = %d', (kind, d, R, style, length) => {
    const shape = turnShape(d, R, style);
    expect(shape.kind).toBe(kind);
    expect(shape.length).toBeCloseTo(length, 3);
  });

  it('ends of widening circuits, w = 1.5 m, semicircles: K-3 [D] and its neighbours', () => {
    for (const [n, length] of [
      [1, 2.356],
      [2, 14.137],
      [5, 106.029],
      [8, 282.743],
    ] as const) {
      expect(semicircleEnds(n, 1.5)).toBeCloseTo(length, 3);
      expect(circuitLengths(n, 1.5, 900, 0, { wide: 'semicircle' }).turning).toBeCloseTo(length, 3);
    }
  });

  it('eight circuits of 1.5 m with R = 6 m: loops below 12 m', () => {
    // The handbook prints 466.02 m [D] and says arc, straight, arc above 12 m; that number is the one with wide
    // semicircles. With what it says the sum is 442.05 m, 24 m less. Its example Z (449.2 m) does use arc, straight, arc.
    const asPrinted = circuitLengths(8, 1.5, 900, 6, { wide: 'semicircle' });
    expect(asPrinted.turning).toBeCloseTo(466.02, 2);
    const shortest = circuitLengths(8, 1.5, 900, 6);
    expect(shortest.turning).toBeCloseTo(442.05, 2);
    expect(asPrinted.turning - shortest.turning).toBeCloseTo((Math.PI / 2 - 1) * 1.5 * (1 + 2 + 3 + 4 + 5 + 6 + 7), 9);
    expect(shortest).toMatchObject({ straight: 14_400, turns: 15 });
  });

  it('no circuit has no length', () => {
    expect(circuitLengths(0, 1.5, 900, 6)).toEqual({ straight: 0, turning: 0, turns: 0 });
  });

  it('the handbook writes the loop with asin; both forms agree (identity)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1.99, noNaN: true }),
        (R, x) => {
          const d = x * R;
          expect(turnLength(d, R)).toBeCloseTo(R * (3 * Math.PI - 4 * Math.asin((2 * R + d) / (4 * R))), 9);
        },
      ),
    );
  });
});

describe('turns are the shortest paths of bounded curvature', () => {
  it('equals the best of the six words found by search', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }).filter(x => Math.abs(x - 2) > 0.01),
        (R, x) => {
          const d = x * R;
          const found = shortestPath(0, d, Math.PI, R);
          expect(turnLength(d, R)).toBeCloseTo(found.length, 4);
          if (d >= 2 * R) expect(found.word).toBe('LSL');
          // Turning round in the same lane may go either way.
          else expect(d < 1e-3 ? 'RLR' : found.word).toBe('RLR');
        },
      ),
      { numRuns: 60 },
    );
  });

  it('runs on at d = 2R: both turns are half a circle there', () => {
    expect(turnLength(20 - 1e-9, 10)).toBeCloseTo(10 * Math.PI, 3);
    expect(turnLength(20, 10)).toBeCloseTo(10 * Math.PI, 9);
  });
});

/** Drive a path by integrating its curvature in small steps from a pose: where does it end, how far does it reach? */
function drive(path: readonly PathPiece[], s: number, t: number, heading: number) {
  let [x, y, theta] = [s, t, heading];
  const seen = { s: [x, x], t: [y, y], length: 0 };
  for (const piece of path) {
    const length =
      piece.kind === 'arc'
        ? piece.radius * Math.abs(piece.sweep)
        : Math.hypot(piece.to.s - piece.from.s, piece.to.t - piece.from.t);
    const curvature = piece.kind === 'arc' && piece.radius > 0 ? Math.sign(piece.sweep) / piece.radius : 0;
    const way = piece.kind === 'line' && piece.reverse ? -1 : 1;
    const n = 2000;
    const h = length / n;
    for (let i = 0; i < n; i++) {
      const middle = theta + (curvature * h) / 2;
      x += way * h * Math.cos(middle);
      y += way * h * Math.sin(middle);
      theta += curvature * h;
      seen.s = [Math.min(seen.s[0]!, x), Math.max(seen.s[1]!, x)];
      seen.t = [Math.min(seen.t[0]!, y), Math.max(seen.t[1]!, y)];
    }
    seen.length += length;
  }
  return { x, y, theta, ...seen };
}

describe('the path of a turn', () => {
  const styles = [{}, { wide: 'semicircle' }, { narrow: 'fishtail' }] as const;

  it('driven by numerical integration it ends in the other lane, as long and as far out as the shape says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 15, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.constantFrom<Heading>(1, -1),
        fc.constantFrom(...styles),
        (R, x, heading, style) => {
          const from = { s: 500, t: 3 };
          const to = { s: 500, t: 3 + x * R };
          const path = turnPath(from, heading, to, R, style);
          const shape = turnShape(x * R, R, style);
          const end = drive(path, from.s, from.t, heading === 1 ? 0 : Math.PI);
          expect(end.x).toBeCloseTo(to.s, 3);
          expect(end.y).toBeCloseTo(to.t, 3);
          expect(Math.cos(end.theta)).toBeCloseTo(-heading, 4);
          expect(end.length).toBeCloseTo(shape.length, 9);
          expect(pathLength(path)).toBeCloseTo(shape.length, 9);
          const beyond = heading === 1 ? end.s[1]! - 500 : 500 - end.s[0]!;
          expect(beyond).toBeCloseTo(shape.reach, 2);
          const side = x >= 0 ? 1 : -1;
          const aside = [(end.t[0]! - 3) * side, (end.t[1]! - 3) * side].sort((a, b) => a - b);
          expect(aside[0]).toBeCloseTo(shape.aside[0], 2);
          expect(aside[1]).toBeCloseTo(shape.aside[1], 2);
        },
      ),
      { numRuns: 80 },
    );
  });

  it('as points it begins and ends in the lanes, and no step is longer than asked', () => {
    const path = turnPath({ s: 900, t: 1 }, 1, { s: 890, t: -2 }, 7);
    const points = pathPoints(path, 0.5);
    expect(points[0]!.s).toBeCloseTo(900, 9);
    expect(points[0]!.t).toBeCloseTo(1, 9);
    expect(points.at(-1)!.s).toBeCloseTo(890, 9);
    expect(points.at(-1)!.t).toBeCloseTo(-2, 9);
    for (let i = 1; i < points.length; i++) {
      const step = Math.hypot(points[i]!.s - points[i - 1]!.s, points[i]!.t - points[i - 1]!.t);
      expect(step).toBeLessThanOrEqual(0.5 + 1e-9);
      expect(step).toBeGreaterThan(0);
    }
  });

  it('the room is that of the path, widened by half the machine', () => {
    const shape = turnShape(3, 8);
    const room = turnRoom(shape, 1.2);
    expect(room.beyond).toBeCloseTo(shape.reach + 1.2, 12);
    expect(room.aside[0]).toBeCloseTo(1.5 - 8 - 1.2, 12);
    expect(room.aside[1]).toBeCloseTo(1.5 + 8 + 1.2, 12);
  });
});

describe('times', () => {
  it('length over speed and a fixed time (handbook 3.5)', () => {
    expect(turnTime(31.416, 2, 5)).toBeCloseTo(20.708, 3);
    expect(turnTime(0, 0, 5)).toBe(5);
  });

  it('field efficiency of example Z: 0.7964 (handbook 8.3 [D])', () => {
    expect(fieldEfficiency(21_600, 2.4 * Math.cos(Math.PI / 6), 6 / 3.6, (12_600 + 449.2) / (6 / 3.6))).toBeCloseTo(
      0.7964,
      4,
    );
  });

  it('nothing throws on numbers that are none', () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, -3]) {
      expect(() => turnShape(bad, 7)).not.toThrow();
      expect(() => turnShape(3, bad)).not.toThrow();
      expect(() => pathPoints(turnPath({ s: 0, t: 0 }, 1, { s: bad, t: bad }, bad))).not.toThrow();
    }
  });
});
