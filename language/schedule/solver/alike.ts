/**
 * Parts of a problem that are alike: bays of the same size, say. Without care the search would refute the same schedule once for
 * each way of naming the bays. Of all ways the one is kept in which every step of an earlier part starts no later than the
 * same step of a later part.
 *
 * Nothing is lost by that. Take any schedule and, step by step, hand the starts of that step to the parts in rising order.
 * - Lags within a part: if y ≥ x + l holds pair by pair, it holds for x and y sorted; so do greatest lags.
 * - Lags to an activity outside, the same for all parts, see the same starts.
 * - Resources see the same pieces of work at the same times, only under other names.
 * - Windows: as many parts lie in each window as before, for each step, and sorting fills the windows in order.
 */

import type { Problem } from './model.ts';
import type { Arc } from './network.ts';

/** Most activities that may be taken to lie outside all parts as they are tied to many (a wash-down after all bays). */
const MOST_HUBS = 6;

/** Arcs that put alike parts in order. */
export function orderAlikeParts(problem: Problem): readonly Arc[] {
  const neighbours = problem.activities.map(() => new Set<number>());
  for (const { from, to } of problem.lags) {
    neighbours[from]!.add(to);
    neighbours[to]!.add(from);
  }
  const byDegree = problem.activities
    .map((_, i) => i)
    .sort((a, b) => neighbours[b]!.size - neighbours[a]!.size || a - b);
  const context = describeUses(problem);
  let best: readonly Arc[] = [];
  for (let hubs = 0; hubs <= Math.min(MOST_HUBS, problem.activities.length); hubs++) {
    const arcs = orderWithout(problem, new Set(byDegree.slice(0, hubs)), context);
    if (arcs.length > best.length) best = arcs;
  }
  return best;
}

/** The arcs when the hubs are taken to lie outside all parts. */
function orderWithout(problem: Problem, hubs: ReadonlySet<number>, uses: readonly string[]): Arc[] {
  const lagsOf: number[][] = problem.activities.map(() => []);
  problem.lags.forEach(({ from, to }, k) => {
    lagsOf[from]!.push(k);
    if (to !== from) lagsOf[to]!.push(k);
  });
  const groupsOf: number[][] = problem.activities.map(() => []);
  problem.together?.forEach(({ activities }, g) => {
    for (const i of new Set(activities)) groupsOf[i]!.push(g);
  });
  const lastOfKind = new Map<string, readonly number[]>();
  const arcs: Arc[] = [];
  for (const members of parts(problem, hubs)) {
    if (hubs.has(members[0]!)) continue;
    const kind = describe(problem, members, lagsOf, groupsOf, uses);
    const before = lastOfKind.get(kind);
    before?.forEach((from, k) => {
      arcs.push({ from, to: members[k]!, weight: 0 });
    });
    lastOfKind.set(kind, members);
  }
  return arcs;
}

/** The activities by parts that lags and groups join, hubs apart, each in order of index. */
function parts(problem: Problem, hubs: ReadonlySet<number>): number[][] {
  const parent = problem.activities.map((_, i) => i);
  const root = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at] = parent[parent[at]!]!;
    return at;
  };
  const join = (i: number, j: number): void => {
    const [a, b] = [root(i), root(j)];
    parent[Math.max(a, b)] = Math.min(a, b);
  };
  for (const { from, to } of problem.lags) if (!hubs.has(from) && !hubs.has(to)) join(from, to);
  for (const { activities } of problem.together ?? []) {
    for (const i of activities) join(i, activities[0]!);
  }
  const byRoot = new Map<number, number[]>();
  problem.activities.forEach((_, i) => {
    const members = byRoot.get(root(i));
    if (members === undefined) byRoot.set(root(i), [i]);
    else members.push(i);
  });
  return [...byRoot.values()];
}

/** A text that is the same for parts whose activities, taken in order of index, play the same parts in everything. */
function describe(
  problem: Problem,
  members: readonly number[],
  lagsOf: readonly (readonly number[])[],
  groupsOf: readonly (readonly number[])[],
  uses: readonly string[],
): string {
  const local = new Map(members.map((i, k) => [i, k]));
  const name = (i: number): string => (local.has(i) ? `${local.get(i)}` : `outside ${i}`);
  const lags = new Set(members.flatMap(i => lagsOf[i]!));
  const groups = new Set(members.flatMap(i => groupsOf[i]!));
  const counted = problem.objective === undefined ? undefined : new Set(problem.objective);
  return JSON.stringify([
    members.map(i => {
      const { duration, release, deadline, windows } = problem.activities[i]!;
      return [duration, release ?? 0, deadline, windows, counted === undefined || counted.has(i), uses[i]];
    }),
    [...lags]
      .map(k => {
        const { from, to, least, greatest } = problem.lags[k]!;
        return `${name(from)} to ${name(to)}: ${least} to ${greatest}`;
      })
      .sort(),
    [...groups].map(g => {
      const { activities, windows } = problem.together![g]!;
      return [activities.map(name).sort(), windows];
    }),
  ]);
}

/** For each activity what it takes of each resource, and how it is changed over from and to. */
function describeUses(problem: Problem): readonly string[] {
  const texts: string[] = problem.activities.map(() => '');
  problem.resources.forEach(({ uses, changeover }, r) => {
    uses.forEach(({ activity, demand }, u) => {
      const row = changeover?.[u]?.join();
      const column = changeover?.map(each => each[u]).join();
      texts[activity] += `${r}: ${demand ?? 1} (${row}) (${column}); `;
    });
  });
  return texts;
}
