/**
 * The problem made ready for the search: variables, lag arcs, pairs that can't overlap, pools, and frames of windows.
 *
 * Each activity's start is a variable; one more is the objective (its latest end). All that can be settled by lags alone is
 * settled here: impossible cycles, pairs whose order the lags fix, and the order of parts of the problem that are alike.
 */

import { orderAlikeParts } from './alike.ts';
import { positiveCycle } from './cycle.ts';
import type { Cycle, Options, Problem } from './model.ts';
import { TIME_LIMIT } from './model.ts';
import { span } from './validate.ts';

/** start[to] − start[from] ≥ weight. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/** Two activities that can't overlap: start[second] ≥ start[first] + gapFirst, or start[first] ≥ start[second] + gapSecond. */
export interface Pair {
  readonly first: number;
  readonly second: number;
  readonly gapFirst: number;
  readonly gapSecond: number;
}

/** A resource on which not all uses fit at once: demand[k] of tasks[k], for its duration, within the capacity. */
export interface Pool {
  readonly tasks: Int32Array;
  readonly demand: Int32Array;
  readonly capacity: number;
  /** True when no two tasks fit at once, so that the pairs say it all. */
  readonly allPairs: boolean;
}

/**
 * The members lie within the same window. Member m also leaves the first `head[m]` of it to members that the lags put before
 * it, and the last `tail[m]` to those after it.
 */
export interface Frame {
  readonly members: Int32Array;
  readonly head: Int32Array;
  readonly tail: Int32Array;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
}

export interface Network {
  /** Number of activities; the variable of the objective has this index. */
  readonly count: number;
  /** Duration of each activity, 0 for the objective. */
  readonly duration: Int32Array;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  readonly arcs: readonly Arc[];
  readonly pairs: readonly Pair[];
  /** Pairs that can't overlap and whose order the lags settle: first, second. */
  readonly settled: readonly (readonly [number, number])[];
  readonly pools: readonly Pool[];
  /** Sets of activities of which no two can overlap, whatever resources keep them apart. */
  readonly cliques: readonly (readonly number[])[];
  readonly frames: readonly Frame[];
  /** Lags that can't all be kept, whatever else. */
  readonly cycle?: Cycle;
  /** An activity that asks for more than there is, or has no window long enough: no search is needed. */
  readonly hopeless: boolean;
}

/** The network of a well-formed problem. */
export function buildNetwork(problem: Problem, options: Options): Network {
  const { activities } = problem;
  const count = activities.length;
  const duration = new Int32Array(count + 1);
  activities.forEach((each, i) => {
    duration[i] = each.duration;
  });
  const cycle = positiveCycle(problem);
  const objective = new Set(problem.objective ?? activities.keys());
  const ends = [...objective].map(i => ({ from: i, to: count, weight: duration[i]! }));
  const resources = pools(problem);
  const conflicting = conflictingPairs(problem);
  const base = { count, duration, pools: resources, cliques: cliques(count, resources, conflicting) };
  const none = { arcs: ends, pairs: [], settled: [], frames: [], hopeless: true };
  if (cycle !== undefined) return { ...base, ...startBounds(problem, [], options), ...none, cycle };
  const orders = settleOrders(count, [...lagArcs(problem), ...orderAlikeParts(problem)], conflicting);
  const framed = frames(problem, orders.arcs);
  const bounds = startBounds(problem, framed, options);
  const hopeless =
    orders.impossible ||
    problem.resources.some(r => r.uses.some(u => (u.demand ?? 1) > r.capacity && duration[u.activity]! > 0)) ||
    bounds.earliest.some((early, i) => early > bounds.latest[i]!);
  if (hopeless) return { ...base, ...bounds, ...none };
  const arcs = [...orders.arcs, ...ends];
  const { pairs, settled } = orders;
  return { ...base, ...bounds, arcs: strongest(count + 1, arcs), pairs, settled, frames: framed, hopeless };
}

/** Arcs of all lags, both sides, the strongest for each ordered pair of activities. */
export function lagArcs(problem: Problem): readonly Arc[] {
  const arcs: Arc[] = [];
  for (const { from, to, least, greatest } of problem.lags) {
    if (least !== undefined) arcs.push({ from, to, weight: least });
    if (greatest !== undefined) arcs.push({ from: to, to: from, weight: -greatest });
  }
  return strongest(problem.activities.length, arcs).filter(arc => arc.from !== arc.to);
}

/** Keeps the strongest of arcs that join the same two variables. */
function strongest(size: number, arcs: readonly Arc[]): Arc[] {
  const best = new Map<number, Arc>();
  for (const arc of arcs) {
    const key = arc.from * size + arc.to;
    const known = best.get(key);
    if (known === undefined || known.weight < arc.weight) best.set(key, arc);
  }
  return [...best.values()];
}

/** Earliest and latest start of each activity by release, deadline, windows and horizon; then those of the objective. */
function startBounds(
  problem: Problem,
  framed: readonly Frame[],
  options: Options,
): { earliest: Int32Array; latest: Int32Array } {
  const { activities } = problem;
  const count = activities.length;
  const horizon = span(problem);
  const earliest = new Int32Array(count + 1);
  const latest = new Int32Array(count + 1);
  activities.forEach(({ duration, release, deadline }, i) => {
    earliest[i] = release ?? 0;
    latest[i] = Math.min(horizon, deadline ?? horizon) - duration;
  });
  for (const { members, head, tail, starts, ends } of framed) {
    members.forEach((i, m) => {
      const last = ends.at(-1);
      if (last === undefined) {
        latest[i] = earliest[i]! - 1;
        return;
      }
      earliest[i] = Math.max(earliest[i]!, starts[0]! + head[m]!);
      latest[i] = Math.min(latest[i]!, last - tail[m]! - activities[i]!.duration);
    });
  }
  const objective = problem.objective ?? [...activities.keys()];
  earliest[count] = objective.reduce((most, i) => Math.max(most, earliest[i]! + activities[i]!.duration), -TIME_LIMIT);
  latest[count] = horizon;
  if (objective.length === 0) earliest[count] = latest[count] = 0;
  if (options.upperBound !== undefined) latest[count] = Math.min(latest[count]!, options.upperBound);
  return { earliest, latest };
}

function pools(problem: Problem): Pool[] {
  const result: Pool[] = [];
  for (const { capacity, uses } of problem.resources) {
    const taking = uses
      .map(({ activity, demand }) => ({ activity, demand: demand ?? 1 }))
      .filter(({ activity, demand }) => demand > 0 && problem.activities[activity]!.duration > 0);
    if (taking.reduce((sum, each) => sum + each.demand, 0) <= capacity) continue;
    const [least, second] = taking.map(each => each.demand).sort((a, b) => a - b);
    result.push({
      tasks: Int32Array.from(taking, each => each.activity),
      demand: Int32Array.from(taking, each => each.demand),
      capacity,
      allPairs: second === undefined || least! + second > capacity,
    });
  }
  return result;
}

/** Windows of single activities and of groups, without those that are too short for what the lags ask of the members. */
function frames(problem: Problem, arcs: readonly Arc[]): Frame[] {
  const { activities } = problem;
  const groups = [...activities.map(({ windows }, i) => ({ activities: [i], windows })), ...(problem.together ?? [])];
  const reversed = arcs.map(({ from, to, weight }) => ({ from: to, to: from, weight }));
  const [forth, back] = [outgoing(activities.length, arcs), outgoing(activities.length, reversed)];
  const result: Frame[] = [];
  for (const { activities: all, windows } of groups) {
    if (windows === undefined || all.length === 0) continue;
    const members = [...new Set(all)];
    const before = longestFrom(
      forth,
      members.map(i => [i, 0]),
    );
    const after = longestFrom(
      back,
      members.map(i => [i, activities[i]!.duration]),
    );
    const head = members.map(i => Math.max(0, before[i]!));
    const tail = members.map(i => Math.max(0, after[i]! - activities[i]!.duration));
    const needed = Math.max(...members.map((i, m) => head[m]! + activities[i]!.duration + tail[m]!));
    const fitting = windows.filter(w => w.end - w.start >= needed);
    result.push({
      members: Int32Array.from(members),
      head: Int32Array.from(head),
      tail: Int32Array.from(tail),
      starts: Int32Array.from(fitting, w => w.start),
      ends: Int32Array.from(fitting, w => w.end),
    });
  }
  return result;
}

/** Pairs that exceed some resource together, with the widest gap that any resource asks for. */
function conflictingPairs(problem: Problem): Pair[] {
  const count = problem.activities.length;
  const known = new Map<number, Pair>();
  for (const { capacity, uses, changeover } of problem.resources) {
    for (let a = 0; a < uses.length; a++) {
      const i = uses[a]!.activity;
      const durationI = problem.activities[i]!.duration;
      if (durationI === 0) continue;
      for (let b = a + 1; b < uses.length; b++) {
        const j = uses[b]!.activity;
        const durationJ = problem.activities[j]!.duration;
        if (durationJ === 0 || (uses[a]!.demand ?? 1) + (uses[b]!.demand ?? 1) <= capacity) continue;
        const after = durationI + (changeover?.[a]?.[b] ?? 0);
        const before = durationJ + (changeover?.[b]?.[a] ?? 0);
        const [first, second, gapFirst, gapSecond] = i < j ? [i, j, after, before] : [j, i, before, after];
        const key = first * count + second;
        const old = known.get(key);
        known.set(key, {
          first,
          second,
          gapFirst: Math.max(gapFirst, old?.gapFirst ?? 0),
          gapSecond: Math.max(gapSecond, old?.gapSecond ?? 0),
        });
      }
    }
  }
  return [...known.values()];
}

/**
 * For each pool the tasks that need more than half of it, and then any others that can't overlap with these, one by one. Two
 * pools may well keep three steps apart that neither of them does alone.
 */
function cliques(count: number, pools: readonly Pool[], pairs: readonly Pair[]): readonly (readonly number[])[] {
  const apart: Set<number>[] = Array.from({ length: count }, () => new Set());
  for (const { first, second } of pairs) {
    apart[first]!.add(second);
    apart[second]!.add(first);
  }
  const result: (readonly number[])[] = [];
  const known = new Set<string>();
  for (const { tasks, demand, capacity, allPairs } of pools) {
    const set = [...tasks].filter((_, k) => allPairs || 2 * demand[k]! > capacity);
    if (set.length < 2) continue;
    for (const i of apart[set[0]!]!) {
      if (!set.includes(i) && set.every(j => apart[i]!.has(j))) set.push(i);
    }
    set.sort((a, b) => a - b);
    if (set.length < 3 || known.has(set.join())) continue;
    known.add(set.join());
    result.push(set);
  }
  return result;
}

interface Orders {
  readonly arcs: readonly Arc[];
  readonly pairs: readonly Pair[];
  readonly settled: readonly (readonly [number, number])[];
  readonly impossible: boolean;
}

/** Above this many activities the closure of the lags is not computed; the search finds the same, only later. */
const CLOSURE_LIMIT = 400;

/**
 * Fixes the order of pairs for which the lags leave only one, and drops pairs that the lags keep apart anyway. A fixed order
 * is a lag of its own and may fix others, so this is repeated while it helps.
 */
function settleOrders(count: number, arcs: readonly Arc[], pairs: readonly Pair[]): Orders {
  const settled: (readonly [number, number])[] = [];
  if (count > CLOSURE_LIMIT || pairs.length === 0) return { arcs, pairs, settled, impossible: false };
  let open = pairs;
  let known = arcs;
  for (let round = 0; round < 4; round++) {
    const distance = longestPaths(count, known);
    if (distance === undefined) return { arcs: known, pairs: [], settled, impossible: true };
    const fixed: Arc[] = [];
    const left: Pair[] = [];
    for (const pair of open) {
      const { first, second, gapFirst, gapSecond } = pair;
      const forth = distance[first * count + second]!;
      const back = distance[second * count + first]!;
      if (forth >= gapFirst || back >= gapSecond) {
        settled.push(forth >= gapFirst ? [first, second] : [second, first]);
        continue;
      }
      const firstCanLead = back + gapFirst <= 0;
      const secondCanLead = forth + gapSecond <= 0;
      if (!firstCanLead && !secondCanLead) return { arcs: known, pairs: [], settled, impossible: true };
      if (firstCanLead && secondCanLead) {
        left.push(pair);
        continue;
      }
      fixed.push(
        firstCanLead ? { from: first, to: second, weight: gapFirst } : { from: second, to: first, weight: gapSecond },
      );
      settled.push(firstCanLead ? [first, second] : [second, first]);
    }
    open = left;
    if (fixed.length === 0) break;
    known = [...known, ...fixed];
  }
  return { arcs: known, pairs: open, settled, impossible: false };
}

/** No path. Far below any real distance, and two of them still add up within 32 bits. */
const NO_PATH = -(2 ** 29);

/** Longest path between every two activities over the arcs (row: from); undefined when there is a positive cycle. */
function longestPaths(count: number, arcs: readonly Arc[]): Int32Array | undefined {
  const out = outgoing(count, arcs);
  const distance = new Int32Array(count * count);
  for (let source = 0; source < count; source++) {
    const row = longestFrom(out, [[source, 0]]);
    if (row.some(each => each === UNBOUNDED)) return undefined;
    distance.set(row, source * count);
  }
  return distance;
}

/** For each activity what its arcs lead to: activity, weight, activity, weight, … */
function outgoing(count: number, arcs: readonly Arc[]): readonly (readonly number[])[] {
  const out: number[][] = Array.from({ length: count }, () => []);
  for (const { from, to, weight } of arcs) out[from]!.push(to, weight);
  return out;
}

/** Stands for 'no limit' where a positive cycle is met. */
const UNBOUNDED = 2 ** 30;

/** Longest path to each activity from any of the sources, each with a start value. All unbounded when it meets a positive cycle. */
function longestFrom(out: readonly (readonly number[])[], sources: readonly (readonly number[])[]): Int32Array {
  const count = out.length;
  const distance = new Int32Array(count).fill(NO_PATH);
  const waiting = new Int32Array(count);
  const queued = new Uint8Array(count);
  const visits = new Int32Array(count);
  let head = 0;
  let size = 0;
  for (const [source, value] of sources as readonly (readonly [number, number])[]) {
    distance[source] = Math.max(distance[source]!, value);
    if (queued[source]) continue;
    queued[source] = 1;
    waiting[size++] = source;
  }
  while (size > 0) {
    const i = waiting[head]!;
    if (++head === count) head = 0;
    size--;
    queued[i] = 0;
    if (++visits[i]! > count) return distance.fill(UNBOUNDED);
    const arcs = out[i]!;
    for (let k = 0; k < arcs.length; k += 2) {
      const to = arcs[k]!;
      const reached = distance[i]! + arcs[k + 1]!;
      if (reached <= distance[to]!) continue;
      distance[to] = reached;
      if (queued[to]) continue;
      queued[to] = 1;
      waiting[(head + size) % count] = to;
      size++;
    }
  }
  return distance;
}
