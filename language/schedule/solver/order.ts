/**
 * A schedule read as an order: which activity follows which on every resource. With the order kept, times can be moved
 * without looking at capacities again: two uses that followed each other still do, and only those overlap that did before.
 */
import type { Problem, Window } from './model.ts';

/** How far an activity can move to the right. */
export interface Slack {
  /** While the others move with it, the order is kept and nothing that counts ends later. */
  readonly total: number;
  /** While all others stay where they are. */
  readonly free: number;
}

/** Something that keeps an activity from starting one unit earlier, all others staying where they are. */
export type Wait =
  | { readonly kind: 'release'; readonly tag?: string }
  /** The start lies at the beginning of a window; `group` is the index in `together`, absent for the activity's own windows. */
  | { readonly kind: 'window'; readonly window: Window; readonly group?: number; readonly tag?: string }
  | {
      readonly kind: 'lag';
      readonly lag: number;
      readonly side: 'least' | 'greatest';
      readonly activity: number;
      readonly tag?: string;
    }
  /** The activity that has to end (and be changed over from) first. */
  | { readonly kind: 'resource'; readonly resource: number; readonly activity: number; readonly tag?: string };

/**
 * Every activity as early as it can be with the order of a schedule kept: no start is later than it was. A schedule that
 * does not keep the constraints is given back as it is.
 */
export function earliestInOrder(problem: Problem, starts: readonly number[]): number[] {
  const arcs = orderArcs(problem, starts);
  const times = problem.activities.map(each => each.release ?? 0);
  const groups = windowGroups(problem);
  for (let moved = true; moved; ) {
    moved = false;
    for (const { members, windows } of groups) {
      for (const i of members) {
        const from = windows.find(w => times[i]! + problem.activities[i]!.duration <= w.end);
        if (from === undefined) return [...starts];
        for (const m of members) {
          if (times[m]! >= from.start) continue;
          if (from.start > starts[m]!) return [...starts];
          times[m] = from.start;
          moved = true;
        }
      }
    }
    for (let k = 0; k < arcs.length; k += 3) {
      const time = times[arcs[k]!]! + arcs[k + 2]!;
      if (time <= times[arcs[k + 1]!]!) continue;
      if (time > starts[arcs[k + 1]!]!) return [...starts];
      times[arcs[k + 1]!] = time;
      moved = true;
    }
  }
  return times;
}

/**
 * Every activity as late as it can be with the order of a schedule kept: objective activities end by `end`, the others by the
 * latest end in the schedule.
 */
export function latestInOrder(problem: Problem, starts: readonly number[], end: number): number[] {
  const arcs = orderArcs(problem, starts);
  const { activities } = problem;
  const objective = new Set(problem.objective ?? activities.keys());
  const lastEnd = Math.max(end, ...starts.map((s, i) => s + activities[i]!.duration));
  const times = activities.map(
    ({ duration, deadline }, i) => Math.min(objective.has(i) ? end : lastEnd, deadline ?? lastEnd) - duration,
  );
  const groups = windowGroups(problem);
  for (let moved = true; moved; ) {
    moved = false;
    for (const { members, windows } of groups) {
      for (const i of members) {
        const to = windows.findLast(w => times[i]! >= w.start);
        if (to === undefined) return [...starts];
        for (const m of members) {
          const latest = to.end - activities[m]!.duration;
          if (times[m]! <= latest) continue;
          if (latest < starts[m]!) return [...starts];
          times[m] = latest;
          moved = true;
        }
      }
    }
    for (let k = arcs.length - 3; k >= 0; k -= 3) {
      const time = times[arcs[k + 1]!]! - arcs[k + 2]!;
      if (time >= times[arcs[k]!]!) continue;
      if (time < starts[arcs[k]!]!) return [...starts];
      times[arcs[k]!] = time;
      moved = true;
    }
  }
  return times;
}

/** The slack of each activity in a schedule that keeps all constraints. */
export function slack(problem: Problem, starts: readonly number[]): readonly Slack[] {
  const { activities } = problem;
  const objective = problem.objective ?? [...activities.keys()];
  const end = Math.max(...objective.map(i => starts[i]! + activities[i]!.duration));
  const latest = latestInOrder(problem, starts, end);
  const free = latest.map((time, i) => time - starts[i]!);
  const arcs = orderArcs(problem, starts);
  for (let k = 0; k < arcs.length; k += 3) {
    const i = arcs[k]!;
    free[i] = Math.min(free[i]!, starts[arcs[k + 1]!]! - arcs[k + 2]! - starts[i]!);
  }
  // The others stay in their windows, so this one does too.
  for (const { members, windows } of windowGroups(problem)) {
    for (const i of members) {
      const ending = starts[i]! + activities[i]!.duration;
      const own = windows.find(w => starts[i]! >= w.start && ending <= w.end);
      if (own !== undefined && (members.length > 1 || free[i]! > own.end - ending)) {
        free[i] = Math.min(free[i]!, own.end - ending);
      }
    }
  }
  return latest.map((time, i) => ({ total: time - starts[i]!, free: Math.max(0, free[i]!) }));
}

/**
 * For each activity what it waits for: all that keeps it from starting one unit earlier. Empty where nothing does, as the
 * schedule happens to leave room.
 */
export function waitsFor(problem: Problem, starts: readonly number[]): readonly (readonly Wait[])[] {
  const { activities } = problem;
  const waits: Wait[][] = activities.map(() => []);
  activities.forEach(({ duration, release, windows, tag }, i) => {
    const named = tag === undefined ? {} : { tag };
    if (starts[i] === (release ?? 0)) waits[i]!.push({ kind: 'release', ...named });
    const window = windows === undefined ? undefined : windowOf(starts[i]!, duration, windows);
    if (window?.start === starts[i]) waits[i]!.push({ kind: 'window', window: window!, ...named });
  });
  problem.together?.forEach(({ activities: members, windows, tag }, group) => {
    for (const i of new Set(members)) {
      const window = windowOf(starts[i]!, activities[i]!.duration, windows);
      if (window?.start !== starts[i]) continue;
      waits[i]!.push({ kind: 'window', window: window!, group, ...(tag === undefined ? {} : { tag }) });
    }
  });
  problem.lags.forEach(({ from, to, least, greatest, tag }, lag) => {
    if (from === to) return;
    const named = tag === undefined ? {} : { tag };
    const apart = starts[to]! - starts[from]!;
    if (apart === least) waits[to]!.push({ kind: 'lag', lag, side: 'least', activity: from, ...named });
    if (apart === greatest) waits[from]!.push({ kind: 'lag', lag, side: 'greatest', activity: to, ...named });
  });
  problem.resources.forEach(({ capacity, uses, changeover, tag }, resource) => {
    const named = tag === undefined ? {} : { tag };
    const taking = uses.map((use, u) => ({ i: use.activity, demand: use.demand ?? 1, u }));
    const active = taking.filter(({ i, demand }) => demand > 0 && activities[i]!.duration > 0);
    for (const own of active) {
      const before = starts[own.i]! - 1;
      const blocking = active.filter(other => {
        const gap = activities[other.i]!.duration + (changeover?.[other.u]?.[own.u] ?? 0);
        return other !== own && starts[other.i]! <= before && starts[other.i]! + gap === starts[own.i];
      });
      const running = active.filter(
        ({ i }) => i !== own.i && starts[i]! <= before && before < starts[i]! + activities[i]!.duration,
      );
      const used = running.reduce((sum, each) => sum + each.demand, own.demand);
      for (const other of blocking) {
        if (used > capacity || changeover !== undefined) {
          waits[own.i]!.push({ kind: 'resource', resource, activity: other.i, ...named });
        }
      }
    }
  });
  return waits;
}

function windowOf(start: number, duration: number, windows: readonly Window[]): Window | undefined {
  return windows.find(w => w.start <= start && start + duration <= w.end);
}

/** Windows of single activities and of groups alike, those too short for a member left out. */
function windowGroups(problem: Problem): { members: readonly number[]; windows: readonly Window[] }[] {
  const groups = [
    ...problem.activities.map(({ windows }, i) => ({ activities: [i], windows })),
    ...(problem.together ?? []),
  ];
  return groups.flatMap(({ activities: members, windows }) => {
    if (windows === undefined || members.length === 0) return [];
    const longest = Math.max(...members.map(i => problem.activities[i]!.duration));
    return [{ members, windows: windows.filter(w => w.end - w.start >= longest) }];
  });
}

/**
 * Lags, and for each resource the order of the uses that follow each other, as from, to, least time between starts, …, in the
 * order of the starts of `from`, so that one round of relaxing usually is enough. Orders that others imply are left out.
 */
function orderArcs(problem: Problem, starts: readonly number[]): Int32Array {
  const { activities } = problem;
  const out: number[][] = activities.map(() => []);
  for (const { from, to, least, greatest } of problem.lags) {
    if (from === to) continue;
    if (least !== undefined) out[from]!.push(from, to, least);
    if (greatest !== undefined) out[to]!.push(to, from, -greatest);
  }
  for (const { capacity, uses, changeover } of problem.resources) {
    let whole = 0;
    const taking: { readonly i: number; readonly u: number; readonly start: number; readonly end: number }[] = [];
    uses.forEach(({ activity: i, demand }, u) => {
      const { duration } = activities[i]!;
      if (demand === 0 || duration === 0) return;
      whole += demand ?? 1;
      taking.push({ i, u, start: starts[i]!, end: starts[i]! + duration });
    });
    if (whole <= capacity) continue;
    taking.sort((a, b) => a.start - b.start || a.i - b.i);
    for (let a = 0; a < taking.length; a++) {
      const { i, u, end } = taking[a]!;
      // What starts after a follower has ended follows that follower.
      let followerEnds = Infinity;
      for (let b = a + 1; b < taking.length; b++) {
        const next = taking[b]!;
        if (next.start < end) continue;
        if (changeover === undefined && next.start >= followerEnds) break;
        if (next.end < followerEnds) followerEnds = next.end;
        out[i]!.push(i, next.i, activities[i]!.duration + (changeover?.[u]?.[next.u] ?? 0));
      }
    }
  }
  const order = activities.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  let size = 0;
  for (const list of out) size += list.length;
  const arcs = new Int32Array(size);
  let at = 0;
  for (const i of order) {
    arcs.set(out[i]!, at);
    at += out[i]!.length;
  }
  return arcs;
}
