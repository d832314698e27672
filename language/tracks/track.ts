/**
 * What a machine did, as plain data: the shapes that tracks, exposure, schedule, pictures and the published
 * results share. SI throughout: metres, seconds, metres per second; depths of liquid in millimetres (1 mm = 1 L/m²).
 *
 * Frame: chainage `s` along the centreline from the named landing threshold in the landing direction; offset `t`
 * from the centreline, right positive looking that way.
 */

/** What a pass does to the pavement. A pass that does two things appears once for each. */
export type Does = 'sweep' | 'wet' | 'apply' | 'contact' | 'rinse' | 'jet' | 'pickup';

/** All the things a pass can do, in the order of the work. */
export const allDoes: readonly Does[] = ['sweep', 'wet', 'apply', 'contact', 'rinse', 'jet', 'pickup'];

/** A point of the pavement: chainage and offset, metres. */
export interface Place {
  readonly s: number;
  readonly t: number;
}

/** A lateral or longitudinal range, metres, least first. */
export type Range = readonly [number, number];

/** Direction of travel: 1 towards greater chainage (with the landing), -1 against it. */
export type Heading = 1 | -1;

/** Which way a broom throws: towards the centreline or towards the edge. */
export type Facing = 'centreline' | 'edge';

/** A straight run of a machine in a lane, not yet placed in time. `from.t` = `to.t` is the line its centre follows. */
export interface Leg {
  readonly from: Place;
  readonly to: Place;
  /** The strip of pavement it works on. */
  readonly band: Range;
  readonly facing?: Facing;
  /** Circuit round the centreline, or lane, counted from 1. */
  readonly lane?: number;
  /** Coat, run or repetition, counted from 1. */
  readonly round?: number;
}

/** A leg at constant speed from `start` to `end`, seconds. `depth` is what an applying pass lays down, millimetres. */
export interface Pass extends Leg {
  readonly start: number;
  readonly end: number;
  readonly depth?: number;
}

/** A turn between two lanes, for drawing and for the room it needs. Lengths in metres, times in seconds. */
export interface Turn {
  readonly from: Place;
  readonly to: Place;
  /** Direction of travel into the turn. */
  readonly heading: Heading;
  readonly length: number;
  /** How far the path goes beyond the lane's end. */
  readonly reach: number;
  /** Least and greatest offset of the path. */
  readonly across: Range;
  readonly start: number;
  readonly end: number;
}

/** A drive without work: to refill or empty a tank, or back empty to the start of the next one-way pass. */
export interface Trip {
  readonly why: 'refill' | 'empty' | 'return';
  readonly from: Place;
  /** The water or emptying point, where its place is known. */
  readonly by?: Place;
  readonly to: Place;
  /** Litres taken in or emptied; 0 for a return. */
  readonly amount: number;
  readonly start: number;
  readonly end: number;
}

/** One machine's movements in one activity that does one thing. */
export interface Track {
  readonly does: Does;
  readonly passes: readonly Pass[];
}

/** Direction of travel of a leg. */
export function headingOf(leg: Leg): Heading {
  return leg.to.s >= leg.from.s ? 1 : -1;
}

/** Length of a leg, metres. */
export function lengthOf(leg: Leg): number {
  return Math.abs(leg.to.s - leg.from.s);
}
