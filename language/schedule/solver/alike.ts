/**
 * Parts of a problem that are alike: bays of the same size, say. Nothing but resources joins them, so whole parts can be
 * exchanged in any schedule, and asking them to start in the order of their numbers loses nothing. Without this the search
 * would refute the same schedule once for each way of naming the bays.
 */
import type { Problem } from './model.ts';
import type { Arc } from './network.ts';

/** Arcs that put parts that are alike in order: each part's first activity starts no later than that of the next one. */
export function orderAlikeParts(problem: Problem): Arc[] {
  const lastOfKind = new Map<string, number>();
  const arcs: Arc[] = [];
  for (const members of parts(problem)) {
    const kind = describe(problem, members);
    if (kind === undefined) continue;
    const first = members[0]!;
    const before = lastOfKind.get(kind);
    if (before !== undefined) arcs.push({ from: before, to: first, weight: 0 });
    lastOfKind.set(kind, first);
  }
  return arcs;
}

/** The activities by parts that lags and groups join, each in order of index. */
function parts(problem: Problem): number[][] {
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
  for (const { from, to } of problem.lags) join(from, to);
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

/** A text that is the same for parts that can be exchanged; undefined for parts that changeovers tell apart. */
function describe(problem: Problem, members: readonly number[]): string | undefined {
  const local = new Map(members.map((i, k) => [i, k]));
  const objective = problem.objective === undefined ? undefined : new Set(problem.objective);
  const uses: string[] = [];
  for (const [r, resource] of problem.resources.entries()) {
    for (const { activity, demand } of resource.uses) {
      const k = local.get(activity);
      if (k === undefined) continue;
      if (resource.changeover !== undefined) return undefined;
      uses.push(`${k}:${r}:${demand ?? 1}`);
    }
  }
  const lags = problem.lags
    .filter(lag => local.has(lag.from))
    .map(({ from, to, least, greatest }) => `${local.get(from)}>${local.get(to)}:${least}:${greatest}`);
  const groups = (problem.together ?? [])
    .filter(({ activities }) => activities.length > 0 && local.has(activities[0]!))
    .map(({ activities, windows }) => [activities.map(i => local.get(i)).sort(), windows]);
  const own = members.map(i => {
    const { duration, release, deadline, windows } = problem.activities[i]!;
    return [duration, release ?? 0, deadline, windows, objective === undefined || objective.has(i)];
  });
  return JSON.stringify([own, uses.sort(), lags.sort(), groups]);
}
