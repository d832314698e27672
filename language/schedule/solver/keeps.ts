/** Whether given starts keep all constraints of a problem: used on schedules that come from outside, such as hints. */
import type { Problem } from './model.ts';

/** True when the starts are whole numbers, one for each activity, and keep every constraint. */
export function keepsAll(problem: Problem, starts: readonly number[]): boolean {
  const { activities, lags, resources, together } = problem;
  if (starts.length !== activities.length || !starts.every(Number.isInteger)) return false;
  const end = (i: number): number => starts[i]! + activities[i]!.duration;
  return (
    activities.every(
      ({ release, deadline, windows }, i) =>
        starts[i]! >= (release ?? 0) &&
        end(i) <= (deadline ?? Infinity) &&
        (windows === undefined || windows.some(w => w.start <= starts[i]! && end(i) <= w.end)),
    ) &&
    lags.every(({ from, to, least, greatest }) => {
      const apart = starts[to]! - starts[from]!;
      return apart >= (least ?? -Infinity) && apart <= (greatest ?? Infinity);
    }) &&
    (together ?? []).every(
      ({ activities: members, windows }) =>
        members.length === 0 || windows.some(w => members.every(i => w.start <= starts[i]! && end(i) <= w.end)),
    ) &&
    resources.every(({ capacity, uses, changeover }) =>
      uses.every(({ activity: i, demand }, a) => {
        if (activities[i]!.duration === 0 || demand === 0) return true;
        let used = demand ?? 1;
        for (const [b, { activity: j, demand: other }] of uses.entries()) {
          if (b === a || activities[j]!.duration === 0 || other === 0) continue;
          if (starts[j]! <= starts[i]! && starts[i]! < end(j)) used += other ?? 1;
          const leads = starts[i]! < starts[j]!;
          if (leads && changeover !== undefined && end(i) + (changeover[a]?.[b] ?? 0) > starts[j]!) return false;
        }
        return used <= capacity;
      }),
    )
  );
}
