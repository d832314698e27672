/** What is decided once the search is over: how late product is sprayed, and which of several like machines does what. */
import type { Built } from './build.ts';
import { keepsAll } from './solver/keeps.ts';

/** What is put on before the first tool and only waits for it. */
const WETS = new Set(['pre-wet', 'apply', 'keep-wet']);

/**
 * The same schedule with product put on as late as nothing else is held up by it. The search starts everything as early
 * as it can, and would wet all bays at once and let them wait for the brooms; less of the runway is wet this way, each
 * point stands shorter, and the runway can be handed back sooner when it is called back. Ends stay what they were.
 */
export function shortenWetting({ problem, tasks, groups, works }: Built, starts: readonly number[]): readonly number[] {
  const bays = groups.length > 0 ? groups : works.flatMap(work => work.bays);
  const wet = bays
    .map(bay => {
      const members = tasks.flatMap((task, i) => (task.tracks === bay && WETS.has(task.does) ? [i] : []));
      return members.some(i => tasks[i]!.does === 'apply') ? withVisits(problem.lags, members, tasks.length) : [];
    })
    .filter(members => members.length > 0)
    .toSorted((a, b) => starts[b[0]!]! - starts[a[0]!]! || b[0]! - a[0]!);
  let best = [...starts];
  for (const members of wet) {
    const room = roomOf(problem.lags, best, members);
    let [low, high] = [0, room];
    // Moving less is always allowed as far as limits go; a machine in between is what the halving finds.
    while (low < high) {
      const by = low === 0 && high === room ? room : (low + high + 1) >> 1;
      const moved = [...best];
      for (const i of members) moved[i] = best[i]! + by;
      if (keepsAll(problem, moved)) low = by;
      else high = by - 1;
    }
    if (low > 0) {
      best = [...best];
      for (const i of members) best[i] = best[i]! + low;
    }
  }
  return best;
}

/** Trips to a stand move with what they belong to. */
function withVisits(lags: Built['problem']['lags'], members: readonly number[], tasks: number): readonly number[] {
  const own = new Set(members);
  return [...members, ...lags.flatMap(({ from, to }) => (own.has(from) && to >= tasks ? [to] : []))];
}

/** How far a group can move before a lag to something outside it is used up. */
function roomOf(lags: Built['problem']['lags'], starts: readonly number[], members: readonly number[]): number {
  const own = new Set(members);
  let room = Infinity;
  for (const { from, to, least, greatest } of lags) {
    const apart = starts[to]! - starts[from]!;
    if (own.has(from) && !own.has(to) && least !== undefined) room = Math.min(room, apart - least);
    if (own.has(to) && !own.has(from) && greatest !== undefined) room = Math.min(room, greatest - apart);
  }
  return Number.isFinite(room) ? Math.max(0, room) : 0;
}

/**
 * Names of the machines of every task. Where several machines go by one name, each activity gets those that are free,
 * lowest number first, so that none of them is in two places.
 */
export function unitsOf({ tasks, holders, problem }: Built, starts: readonly number[]): readonly (readonly string[])[] {
  const units = new Map<string, (readonly number[])[]>();
  problem.resources.forEach(({ uses }, r) => {
    const holder = holders[r];
    if (holder?.kind !== 'machine' || holder.capacity < 2) return;
    const freeAt: number[] = Array.from({ length: holder.capacity }, () => -Infinity);
    const taken: (readonly number[])[] = [];
    for (const { activity, demand = 1 } of uses.toSorted(
      (a, b) => starts[a.activity]! - starts[b.activity]! || a.activity - b.activity,
    )) {
      const start = starts[activity]!;
      const free = freeAt.flatMap((at, unit) => (at <= start ? [unit] : [])).slice(0, demand);
      for (const unit of free) freeAt[unit] = start + problem.activities[activity]!.duration;
      taken[activity] = free;
    }
    units.set(holder.machine.id, taken);
  });
  return tasks.map(({ activity }, i) => {
    const next = new Map<string, number>();
    return activity.machines.map(({ machine, name }) => {
      const own = units.get(machine.id)?.[i];
      if (!own) return name;
      const k = next.get(machine.id) ?? 0;
      next.set(machine.id, k + 1);
      const unit = own[k];
      return unit === undefined ? name : unit === 0 ? machine.name : `${machine.name} (${unit + 1})`;
    });
  });
}
