/**
 * Legs placed in time: where each machine of a convoy is, when. Passes at constant speed; between them turns, empty
 * returns and trips to the water or emptying point. Seconds, metres, litres.
 *
 * A convoy takes its legs together. Each member starts a leg its headway after the member ahead of it, and the leader
 * waits at the lane's end until all can; so a headway, once given, holds at both ends of every leg, also when the
 * outer member has the longer turn or one of them goes to fill up. A single machine is a convoy of one.
 *
 * Refills: before a leg that the tank cannot finish, or, with `when empty`, at the place where it runs dry. A leg that
 * needs more than a full tank is cut there in any case; the place is reported, for product then runs out inside a pass.
 */

import type { Heading, Leg, Pass, Place, Range, Trip, Turn } from './track.ts';
import { headingOf, lengthOf } from './track.ts';
import type { TurnStyle } from './turns.ts';
import { turnShape, turnTime } from './turns.ts';

/** How a machine turns: by its radius, or simply so many seconds. */
export type Turning =
  | { readonly radius: number; readonly speed: number; readonly fixed?: number; readonly style?: TurnStyle }
  | { readonly time: number };

/** A tank that empties while working (product, water) or one that fills (recovered water, hopper). */
export interface Tank {
  readonly kind: 'empties' | 'fills';
  /** Usable volume, L. */
  readonly capacity: number;
  /** Volume used or taken up for each square metre of band, L/m² (mm). */
  readonly perArea: number;
  /** The way there and back: seconds flat, or the place of the point and the speed of driving. */
  readonly trip: { readonly seconds: number } | { readonly point: Place; readonly speed: number };
  /** Filling, or emptying, s; with `flow` only what does not depend on the amount (coupling). */
  readonly service: number;
  /** Flow of filling or emptying, L/s. */
  readonly flow?: number;
  /** When it goes. Default before the leg it cannot finish. */
  readonly goes?: 'before a pass' | 'when empty';
}

/** One machine of a convoy. Metres per second and seconds. */
export interface Mover {
  readonly speed: number;
  readonly turning: Turning;
  /** Speed of empty returns. Default the working speed. */
  readonly returnSpeed?: number;
  /** Start after the member ahead, s. Ignored for the leader. */
  readonly headway?: number;
  readonly tank?: Tank;
}

/** A place where the tank ran dry, or full, inside a pass. */
export interface RanOut extends Place {
  /** Which leg of the pattern, from 0. */
  readonly leg: number;
}

/** What one machine did. */
export interface Run {
  readonly passes: readonly Pass[];
  readonly turns: readonly Turn[];
  readonly trips: readonly Trip[];
  readonly ranOut: readonly RanOut[];
  /** Tank loads used; 0 without a tank. */
  readonly loads: number;
  /** Litres used or taken up. */
  readonly used: number;
  /** Litres of the last load not used, or not filled. */
  readonly left: number;
  /** Metres of work, of turns, and of empty returns. */
  readonly distance: { readonly working: number; readonly turning: number; readonly returning: number };
  readonly start: number;
  readonly end: number;
}

/** Runs of all members, or the reason why there are none. */
export interface ConvoyRun {
  readonly runs: readonly Run[];
  readonly problem?: { readonly kind: 'no speed' | 'too many loads'; readonly member: number; readonly value: number };
}

/** More loads than this is a slip of the pen (a tank of a cupful). */
export const mostLoads = 5000;

/**
 * Time a single machine. See {@link timeConvoy}.
 *
 * @param depth what its passes lay down, mm, if they apply a liquid
 */
export function timeRun(
  legs: readonly Leg[],
  mover: Mover,
  start = 0,
  depth?: number,
): { run: Run; problem?: ConvoyRun['problem'] } {
  const { runs, problem } = timeConvoy([legs], [mover], start, [depth]);
  return { run: runs[0]!, ...(problem && { problem }) };
}

/**
 * Place the legs of a convoy in time.
 *
 * @param members legs of each member, leader first; same number of legs at the same chainages
 * @param movers one for each member
 * @param start of the leader's first pass, s
 * @param depths what each member's passes lay down, mm
 * @returns a run for each member; empty runs with a problem where a speed is not positive or loads explode
 */
export function timeConvoy(
  members: readonly (readonly Leg[])[],
  movers: readonly Mover[],
  start = 0,
  depths: readonly (number | undefined)[] = [],
): ConvoyRun {
  const bad = movers.findIndex(m => !(m.speed > 0) || !Number.isFinite(m.speed));
  if (bad >= 0) return refuse(movers, start, { kind: 'no speed', member: bad, value: movers[bad]!.speed });
  const states = movers.map((mover, j) => newState(mover, depths[j]));
  const legCount = members[0]?.length ?? 0;
  let loads = 0;

  for (let index = 0; index < legCount; index++) {
    let done = 0;
    const whole = lengthOf(members[0]![index]!);
    while (whole - done > shortest || (whole === 0 && done === 0)) {
      const rest = members.map(legs => remainder(legs[index]!, done));
      for (let j = 0; j < states.length; j++) if (mustGo(states[j]!, rest[j]!)) states[j]!.goes = true;
      loads = Math.max(loads, ...states.map(state => state.loads));
      if (loads > mostLoads) return refuse(movers, start, { kind: 'too many loads', member: 0, value: loads });
      states.forEach((state, j) => {
        bring(state, rest[j]!, start);
      });
      const stretch = Math.min(whole - done, ...states.map((state, j) => reachOfTank(state, rest[j]!)));
      const cut = stretch < whole - done - shortest;
      const pieces = rest.map(leg => (cut ? beginning(leg, stretch) : leg));
      work(states, pieces);
      if (cut) {
        states.forEach((state, j) => {
          if (reachOfTank(state, rest[j]!) <= shortest) state.ranOut.push({ leg: index, ...pieces[j]!.to });
        });
      }
      done = cut ? done + stretch : whole;
      if (whole === 0) break;
    }
  }
  return { runs: states.map(state => finish(state, start)) };
}

/** Legs shorter than this, m, are not driven: they are rounding. */
const shortest = 1e-6;

interface State {
  readonly mover: Mover;
  readonly depth: number | undefined;
  readonly passes: Pass[];
  readonly turns: Turn[];
  readonly trips: Trip[];
  readonly ranOut: RanOut[];
  /** Litres that the tank can still give, or take. */
  level: number;
  loads: number;
  used: number;
  goes: boolean;
  /** When the machine stands at the start of its next pass. */
  ready: number;
  turning: number;
  returning: number;
}

function newState(mover: Mover, depth: number | undefined): State {
  const hasTank = mover.tank !== undefined;
  return {
    mover,
    depth,
    passes: [],
    turns: [],
    trips: [],
    ranOut: [],
    level: mover.tank?.capacity ?? 0,
    loads: hasTank ? 1 : 0,
    used: 0,
    goes: false,
    ready: Number.NEGATIVE_INFINITY,
    turning: 0,
    returning: 0,
  };
}

/** Litres for each metre of a leg. */
function perMetre(tank: Tank, leg: Leg): number {
  return tank.perArea * (leg.band[1] - leg.band[0]);
}

/** Must the machine go to the point before this leg? Not with a full tank: it would stand there again. */
function mustGo(state: State, leg: Leg): boolean {
  const tank = state.mover.tank;
  if (!tank || state.level >= tank.capacity) return false;
  const reach = reachOfTank(state, leg);
  return reach <= shortest || (tank.goes !== 'when empty' && reach < lengthOf(leg) - shortest);
}

/** How far along the leg the tank lasts, m. */
function reachOfTank(state: State, leg: Leg): number {
  const tank = state.mover.tank;
  // A tank that holds nothing would never get on: let it drive, the volumes then show it.
  if (!tank || !(tank.capacity > 0)) return Number.POSITIVE_INFINITY;
  const use = perMetre(tank, leg);
  return use > 0 ? state.level / use : Number.POSITIVE_INFINITY;
}

/** Bring the machine from the end of its last pass to the start of `next`: a turn, a trip, or nothing at first. */
function bring(state: State, next: Leg, start: number): void {
  const last = state.passes.at(-1);
  if (!last) {
    state.ready = start;
    return;
  }
  if (state.goes) {
    visit(state, last, next);
    return;
  }
  const from = last.to;
  const to = next.from;
  const heading = headingOf(last);
  const nextHeading = headingOf(next);
  if (heading === -nextHeading) {
    turn(state, from, heading, to, last.end);
    return;
  }
  const ahead = (to.s - from.s) * heading;
  if (ahead >= -shortest && Math.abs(to.t - from.t) < shortest) {
    drive(state, from, to, last.end);
    return;
  }
  // Same heading, but the start lies behind or beside: round, back empty on the better of the two lanes, and round.
  const radius = 'radius' in state.mover.turning ? state.mover.turning.radius : 0;
  const style = 'radius' in state.mover.turning ? state.mover.turning.style : undefined;
  const aside = 2 * radius * Math.sign(from.t - to.t);
  const lines = [from.t, to.t, to.t + aside, from.t - aside];
  const cost = (t: number): number =>
    turnShape(t - from.t, radius, style).length + turnShape(to.t - t, radius, style).length;
  // Of two that cost the same, the one nearer the centreline: the other may lie off the pavement.
  const line = lines.reduce((best, t) => {
    const less = cost(t) - cost(best);
    return less < -shortest || (less < shortest && Math.abs(t) < Math.abs(best) - shortest) ? t : best;
  });
  turn(state, from, heading, { s: from.s, t: line }, last.end);
  const back = { s: to.s, t: line };
  drive(state, { s: from.s, t: line }, back, state.ready);
  turn(state, back, -heading as Heading, to, state.ready);
}

function turn(state: State, from: Place, heading: Heading, to: Place, start: number): void {
  const turning = state.mover.turning;
  const along = Math.abs(to.s - from.s);
  if ('time' in turning) {
    const end = start + turning.time + along / returnSpeed(state.mover);
    const across: Range = from.t < to.t ? [from.t, to.t] : [to.t, from.t];
    state.turns.push({ from, to, heading, length: along, reach: 0, across, start, end });
    state.turning += along;
    state.ready = end;
    return;
  }
  const shape = turnShape(to.t - from.t, turning.radius, turning.style);
  const end = start + turnTime(shape.length + along, turning.speed, turning.fixed ?? 0);
  const side = to.t >= from.t ? 1 : -1;
  const across: Range =
    side === 1
      ? [from.t + shape.aside[0], from.t + shape.aside[1]]
      : [from.t - shape.aside[1], from.t - shape.aside[0]];
  state.turns.push({ from, to, heading, length: shape.length + along, reach: shape.reach, across, start, end });
  state.turning += shape.length + along;
  state.ready = end;
}

/** Straight empty drive, such as the return of one-way work. */
function drive(state: State, from: Place, to: Place, start: number): void {
  const length = Math.abs(to.s - from.s);
  const end = start + length / returnSpeed(state.mover);
  if (length > shortest) {
    state.trips.push({ why: 'return', from, to, amount: 0, start, end });
    state.returning += length;
  }
  state.ready = end;
}

/** To the water or emptying point and on to the next pass. */
function visit(state: State, last: Pass, next: Leg): void {
  const tank = state.mover.tank!;
  const amount = tank.capacity - state.level;
  const trip = tank.trip;
  // Along the runway and across it, not as the crow flies: vehicles keep to pavement.
  const way = (a: Place, b: Place): number => Math.abs(a.s - b.s) + Math.abs(a.t - b.t);
  const travel =
    'seconds' in trip ? trip.seconds : (way(last.to, trip.point) + way(trip.point, next.from)) / trip.speed;
  const end = last.end + travel + tank.service + (tank.flow !== undefined && tank.flow > 0 ? amount / tank.flow : 0);
  state.trips.push({
    why: tank.kind === 'empties' ? 'refill' : 'empty',
    from: last.to,
    ...('point' in trip && { by: trip.point }),
    to: next.from,
    amount,
    start: last.end,
    end,
  });
  state.level = tank.capacity;
  state.loads++;
  state.goes = false;
  state.ready = end;
}

function returnSpeed(mover: Mover): number {
  return mover.returnSpeed !== undefined && mover.returnSpeed > 0 ? mover.returnSpeed : mover.speed;
}

/** All members drive their piece, each its headway behind the one ahead at both ends. */
function work(states: readonly State[], pieces: readonly Leg[]): void {
  const behind: number[] = [];
  states.forEach((state, j) => {
    if (j === 0) {
      behind.push(0);
      return;
    }
    const slowerAhead =
      lengthOf(pieces[j - 1]!) / states[j - 1]!.mover.speed - lengthOf(pieces[j]!) / state.mover.speed;
    behind.push(behind[j - 1]! + Math.max(0, state.mover.headway ?? 0) + Math.max(0, slowerAhead));
  });
  // Before the first pass everyone is ready at the start; after it the slowest to turn holds the others.
  const lead = Math.max(
    ...states.map((state, j) => (state.passes.length === 0 ? state.ready : state.ready - behind[j]!)),
  );
  states.forEach((state, j) => {
    const leg = pieces[j]!;
    // Never before it is ready, not even by rounding.
    const start = Math.max(state.ready, lead + behind[j]!);
    const end = start + lengthOf(leg) / state.mover.speed;
    state.passes.push({ ...leg, start, end, ...(state.depth !== undefined && { depth: state.depth }) });
    const tank = state.mover.tank;
    if (tank) {
      const use = perMetre(tank, leg) * lengthOf(leg);
      state.used += use;
      state.level = Math.max(0, state.level - use);
      if (state.level < 1e-9 * tank.capacity) state.level = 0;
    }
  });
}

function finish(state: State, start: number): Run {
  return {
    passes: state.passes,
    turns: state.turns,
    trips: state.trips,
    ranOut: state.ranOut,
    loads: state.passes.length === 0 ? 0 : state.loads,
    used: state.used,
    left: state.mover.tank ? state.level : 0,
    distance: {
      working: state.passes.reduce((sum, pass) => sum + lengthOf(pass), 0),
      turning: state.turning,
      returning: state.returning,
    },
    start: state.passes[0]?.start ?? start,
    end: state.passes.at(-1)?.end ?? start,
  };
}

function refuse(movers: readonly Mover[], start: number, problem: NonNullable<ConvoyRun['problem']>): ConvoyRun {
  return { runs: movers.map(mover => finish(newState(mover, undefined), start)), problem };
}

/** What is left of a leg after its first `done` metres. */
function remainder(leg: Leg, done: number): Leg {
  return done === 0 ? leg : { ...leg, from: { s: leg.from.s + headingOf(leg) * done, t: leg.from.t } };
}

/** The first `length` metres of a leg. */
function beginning(leg: Leg, length: number): Leg {
  return { ...leg, to: { s: leg.from.s + headingOf(leg) * length, t: leg.to.t } };
}
