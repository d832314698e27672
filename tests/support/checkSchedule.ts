/**
 * Checks a schedule against a problem, moment by moment. It shares no code with the solver: it walks over the times at which
 * anything starts or ends and counts, and names what is broken.
 */
import type { Problem } from '../../language/schedule/solver/model.ts';

/** What a schedule breaks; empty when it keeps all constraints. */
export function checkSchedule(problem: Problem, starts: readonly number[]): string[] {
  const broken: string[] = [];
  const { activities } = problem;
  if (starts.length !== activities.length) return [`${starts.length} starts for ${activities.length} activities`];
  const begin = (i: number): number => starts[i] as number;
  const end = (i: number): number => begin(i) + (activities[i]?.duration ?? Number.NaN);

  for (const [i, activity] of activities.entries()) {
    if (!Number.isInteger(begin(i))) broken.push(`activity ${i} starts at ${begin(i)}`);
    if (begin(i) < (activity.release ?? 0)) broken.push(`activity ${i} starts before its release`);
    if (activity.deadline !== undefined && end(i) > activity.deadline)
      broken.push(`activity ${i} ends after its deadline`);
    if (activity.windows !== undefined) {
      let inside = 0;
      for (const window of activity.windows) if (window.start <= begin(i) && end(i) <= window.end) inside++;
      if (inside === 0) broken.push(`activity ${i} lies in none of its windows`);
    }
  }
  for (const [k, lag] of problem.lags.entries()) {
    const apart = begin(lag.to) - begin(lag.from);
    if (lag.least !== undefined && apart < lag.least) broken.push(`lag ${k}: ${apart} is less than ${lag.least}`);
    if (lag.greatest !== undefined && apart > lag.greatest)
      broken.push(`lag ${k}: ${apart} is more than ${lag.greatest}`);
  }
  for (const [g, group] of (problem.together ?? []).entries()) {
    const holding = group.windows.filter(
      window => group.activities.filter(i => begin(i) < window.start || end(i) > window.end).length === 0,
    );
    if (holding.length === 0) broken.push(`group ${g} lies in no single window`);
  }
  for (const [r, resource] of problem.resources.entries()) {
    const active = resource.uses.filter(use => end(use.activity) > begin(use.activity) && (use.demand ?? 1) > 0);
    const moments = new Set(active.map(use => begin(use.activity)));
    for (const t of moments) {
      let used = 0;
      for (const use of active) if (begin(use.activity) <= t && end(use.activity) > t) used += use.demand ?? 1;
      if (used > resource.capacity) broken.push(`resource ${r}: ${used} of ${resource.capacity} used at ${t}`);
    }
    const table = resource.changeover;
    if (table === undefined) continue;
    for (const [a, first] of resource.uses.entries()) {
      for (const [b, second] of resource.uses.entries()) {
        if (!active.includes(first) || !active.includes(second)) continue;
        if (begin(first.activity) >= begin(second.activity)) continue;
        const gap = begin(second.activity) - end(first.activity);
        if (gap < (table[a]?.[b] ?? 0))
          broken.push(`resource ${r}: changeover from ${a} to ${b} takes longer than ${gap}`);
      }
    }
  }
  return broken;
}

/** Latest end among the activities that count. */
export function latestEnd(problem: Problem, starts: readonly number[]): number {
  const counted = problem.objective ?? problem.activities.map((_, i) => i);
  return Math.max(...counted.map(i => (starts[i] ?? Number.NaN) + (problem.activities[i]?.duration ?? Number.NaN)));
}
