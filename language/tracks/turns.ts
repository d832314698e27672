/**
 * Turns between two opposite lanes: how long they are, how much time and room they take, and their path.
 *
 * A machine leaves a lane, turns through 180° with least radius R and enters the lane a distance d away in the
 * opposite direction.
 *
 * - d ≥ 2R: quarter circle, straight, quarter circle; `πR + d − 2R` (or, on request, one wide semicircle `πd/2`).
 * - d < 2R: three arcs, away, round, back; `R(π + 4α)` with `cos α = (d + 2R)/(4R)`.
 *   Both are the shortest paths of bounded curvature (Dubins 1957, from memory; the tests find them by search).
 * - d < 2R with one reverse (fishtail): quarter circle, back `2R − d`, quarter circle; `R(π + 2) − d`.
 *
 * Derivation of α: the first and the last arc are centred at −R and d + R, the middle one is tangent to both, so the
 * three centres form an isosceles triangle with legs 2R and base d + 2R; α is its angle at the base.
 * The handbook's form of the same length is `R(3π − 4 asin((2R + d)/(4R)))`.
 */

import type { Heading, Place, Range } from './track.ts';

/** How a machine turns where there is a choice. */
export interface TurnStyle {
  /** Lanes at least 2R apart. Default `straight between` (shortest). */
  readonly wide?: 'straight between' | 'semicircle';
  /** Lanes closer than 2R. Default `loop`. */
  readonly narrow?: 'loop' | 'fishtail';
}

/** The size of a turn, metres, in the frame of the lane it leaves. */
export interface TurnShape {
  readonly kind: 'straight between' | 'semicircle' | 'loop' | 'fishtail';
  readonly length: number;
  /** How far the path goes beyond the lane's end. */
  readonly reach: number;
  /** Least and greatest offset from the lane it leaves, positive towards the lane it enters. */
  readonly aside: Range;
}

/** A piece of a path. Angles in radians from +s towards +t; a positive `sweep` turns that way. */
export type PathPiece =
  | {
      readonly kind: 'arc';
      readonly centre: Place;
      readonly radius: number;
      readonly from: number;
      readonly sweep: number;
    }
  | { readonly kind: 'line'; readonly from: Place; readonly to: Place; readonly reverse: boolean };

/**
 * Length and room of the turn between opposite lanes.
 *
 * @param distance between the lanes' centres, m (its sign does not matter; 0 turns round in the same lane)
 * @param radius least turning radius, m (negative counts as 0)
 * @param style which turn to take where there is a choice
 * @returns the shape; NaN in, NaN out, nothing is thrown. Source: geometry, see the head of the file.
 */
export function turnShape(distance: number, radius: number, style: TurnStyle = {}): TurnShape {
  const d = Math.abs(distance);
  const R = Math.max(0, radius);
  if (d >= 2 * R * (1 - sameWidth)) {
    if (style.wide === 'semicircle') {
      return { kind: 'semicircle', length: (Math.PI * d) / 2, reach: d / 2, aside: [0, d] };
    }
    return { kind: 'straight between', length: Math.PI * R + Math.max(0, d - 2 * R), reach: R, aside: [0, d] };
  }
  if (style.narrow === 'fishtail') {
    return {
      kind: 'fishtail',
      length: R * (Math.PI + 2) - d,
      reach: R,
      aside: [Math.min(0, d - R), Math.max(R, d)],
    };
  }
  const alpha = loopAngle(d, R);
  return {
    kind: 'loop',
    length: R * (Math.PI + 4 * alpha),
    reach: R * (1 + 2 * Math.sin(alpha)),
    aside: [d / 2 - R, d / 2 + R],
  };
}

/**
 * Distances closer than this to two radii, as a share, are two radii: the loop's length begins there with a vertical
 * tangent, and rounding of the distance would show in the eighth digit of the way.
 */
const sameWidth = 1e-12;

/** Length of the turn alone, m. See {@link turnShape}. */
export function turnLength(distance: number, radius: number, style?: TurnStyle): number {
  return turnShape(distance, radius, style).length;
}

/**
 * Time of a turn: `length / speed + fixed`, seconds.
 *
 * @param length m
 * @param speed turning speed, m/s
 * @param fixed lifting, lowering, changing gear, s
 */
export function turnTime(length: number, speed: number, fixed = 0): number {
  return (length === 0 ? 0 : length / speed) + fixed;
}

/**
 * Room a machine needs beyond the lane's end and beside its lanes, m: the path's own, widened by half the machine.
 * The path is that of the machine's centre; `halfWidth` may be chosen larger to include what overhangs.
 */
export function turnRoom(shape: TurnShape, halfWidth = 0): { beyond: number; aside: Range } {
  return { beyond: shape.reach + halfWidth, aside: [shape.aside[0] - halfWidth, shape.aside[1] + halfWidth] };
}

/**
 * The path of a turn as arcs and lines, for drawing and for checking its room.
 *
 * @param from end of the lane it leaves
 * @param heading direction of travel there
 * @param to start of the lane it enters; a different chainage is made up by driving straight first or last
 * @param radius least turning radius, m
 * @param towards which side to turn when both lanes are the same: 1 right, -1 left (of the landing direction)
 */
export function turnPath(
  from: Place,
  heading: Heading,
  to: Place,
  radius: number,
  style: TurnStyle = {},
  towards: Heading = 1,
): readonly PathPiece[] {
  const side: Heading = to.t > from.t ? 1 : to.t < from.t ? -1 : towards;
  const ahead = (to.s - from.s) * heading;
  const base: Place = { s: ahead > 0 ? to.s : from.s, t: from.t };
  const R = Math.max(0, radius);
  const d = Math.abs(to.t - from.t);
  const place = (u: number, v: number): Place => ({ s: base.s + heading * u, t: base.t + side * v });
  const arc = (u: number, v: number, r: number, start: number, sweep: number): PathPiece => ({
    kind: 'arc',
    centre: place(u, v),
    radius: r,
    from: Math.atan2(side * Math.sin(start), heading * Math.cos(start)),
    sweep: sweep * heading * side,
  });
  const line = (a: Place, b: Place, reverse = false): PathPiece => ({ kind: 'line', from: a, to: b, reverse });
  const quarter = Math.PI / 2;

  const pieces: PathPiece[] = [];
  if (ahead > 0) pieces.push(line(from, base));
  const shape = turnShape(d, R, style);
  if (shape.kind === 'semicircle') {
    pieces.push(arc(0, d / 2, d / 2, -quarter, Math.PI));
  } else if (shape.kind === 'straight between') {
    pieces.push(arc(0, R, R, -quarter, quarter));
    if (d > 2 * R) pieces.push(line(place(R, R), place(R, d - R)));
    pieces.push(arc(0, d - R, R, 0, quarter));
  } else if (shape.kind === 'fishtail') {
    pieces.push(arc(0, R, R, -quarter, quarter));
    pieces.push(line(place(R, R), place(R, d - R), true));
    pieces.push(arc(0, d - R, R, 0, quarter));
  } else {
    const alpha = loopAngle(d, R);
    pieces.push(arc(0, -R, R, quarter, -alpha));
    pieces.push(arc(2 * R * Math.sin(alpha), d / 2, R, -quarter - alpha, Math.PI + 2 * alpha));
    pieces.push(arc(0, d + R, R, alpha - quarter, -alpha));
  }
  if (ahead < 0) pieces.push(line({ s: from.s, t: to.t }, to));
  return pieces;
}

/**
 * A path as points no further than `step` metres apart along it, both ends included.
 *
 * @param step greatest distance between points, m; at least a hundredth of the path is taken, so it cannot explode
 */
export function pathPoints(path: readonly PathPiece[], step = 0.5): readonly Place[] {
  const points: Place[] = [];
  for (const piece of path) {
    const length =
      piece.kind === 'arc'
        ? piece.radius * Math.abs(piece.sweep)
        : Math.hypot(piece.to.s - piece.from.s, piece.to.t - piece.from.t);
    const n = Math.min(100, Math.max(1, Math.ceil(length / Math.max(step, 1e-3)) || 1));
    for (let i = points.length === 0 ? 0 : 1; i <= n; i++) {
      const f = i / n;
      points.push(
        piece.kind === 'arc'
          ? {
              s: piece.centre.s + piece.radius * Math.cos(piece.from + f * piece.sweep),
              t: piece.centre.t + piece.radius * Math.sin(piece.from + f * piece.sweep),
            }
          : {
              s: piece.from.s + f * (piece.to.s - piece.from.s),
              t: piece.from.t + f * (piece.to.t - piece.from.t),
            },
      );
    }
  }
  return points;
}

/** Length of a path, m. */
export function pathLength(path: readonly PathPiece[]): number {
  let sum = 0;
  for (const piece of path) {
    sum +=
      piece.kind === 'arc'
        ? piece.radius * Math.abs(piece.sweep)
        : Math.hypot(piece.to.s - piece.from.s, piece.to.t - piece.from.t);
  }
  return sum;
}

/** What a run of widening circuits round the centreline comes to, metres. */
export interface CircuitLengths {
  readonly straight: number;
  readonly turning: number;
  readonly turns: number;
}

/**
 * Lengths of `circuits` widening circuits, no return after the last pass: 2n straights, and 2n − 1 turns between
 * lanes that are 1, 2, … 2n − 1 pitches apart.
 *
 * @param circuits n, a whole number; 0 gives zeros
 * @param pitch distance between neighbouring lanes, m
 * @param straight length of a lane, m
 * @param radius least turning radius, m; 0 with `wide: 'semicircle'` gives the closed form π·pitch·n(n − ½)
 */
export function circuitLengths(
  circuits: number,
  pitch: number,
  straight: number,
  radius: number,
  style: TurnStyle = {},
): CircuitLengths {
  const turns = Math.max(0, 2 * circuits - 1);
  let turning = 0;
  for (let k = 1; k <= turns; k++) turning += turnLength(k * pitch, radius, style);
  return { straight: 2 * circuits * straight, turning, turns };
}

/** Ends of `n` widening circuits driven as semicircles, m: `π·pitch·n(n − ½)`. Source: geometry. */
export function semicircleEnds(n: number, pitch: number): number {
  return Math.PI * pitch * n * (n - 0.5);
}

/**
 * Field efficiency from the path: the time the area would take at full width and speed without overlap or turns,
 * over the time it takes. Source: definition of field efficiency (useful time over total time).
 *
 * @param area m²
 * @param width working width, m
 * @param speed m/s
 * @param time total, s
 */
export function fieldEfficiency(area: number, width: number, speed: number, time: number): number {
  return area / (width * speed) / time;
}

/** Angle of the outer arcs of the loop, radians. The ratio is at most 1 because d < 2R; rounding must not pass it. */
function loopAngle(d: number, R: number): number {
  return Math.acos(Math.min(1, (d + 2 * R) / (4 * R)));
}
