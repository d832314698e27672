/**
 * Finds what makes a problem unfit to be solved: indices out of range, times that are not whole or too large, windows out of
 * order, changeovers of the wrong shape. A problem without faults can be solved without further checks.
 */
import type { Fault, Options, Problem, Window } from './model.ts';
import { TIME_LIMIT } from './model.ts';

/** Most faults reported at once; a generated problem that is wrong is wrong in the same way a thousand times. */
const MOST_FAULTS = 50;

/**
 * The faults of a problem, in the order of its parts; empty when it is well formed. Also accepts data that the compiler
 * could not check, such as parsed JSON, and never throws.
 */
export function validate(problem: Problem, options: Options = {}): readonly Fault[] {
  const faults: Fault[] = [];
  const fault = (where: string, message: string): void => {
    if (faults.length < MOST_FAULTS) faults.push({ where, message });
  };
  const whole = (value: unknown, where: string, least = -TIME_LIMIT): value is number => {
    if (typeof value !== 'number' || !Number.isInteger(value)) fault(where, 'is not a whole number');
    else if (value < least) fault(where, `is less than ${least}`);
    else if (value > TIME_LIMIT) fault(where, `is more than ${TIME_LIMIT}`);
    else return true;
    return false;
  };
  const list = (value: unknown, where: string): value is readonly unknown[] => {
    if (Array.isArray(value)) return true;
    fault(where, 'is not a list');
    return false;
  };
  const record = (value: unknown, where: string): boolean => {
    if (typeof value === 'object' && value !== null) return true;
    fault(where, 'is missing');
    return false;
  };
  const windows = (value: readonly Window[], where: string): void => {
    if (!list(value, where)) return;
    let last = -TIME_LIMIT;
    value.forEach((window, k) => {
      const at = `${where}[${k}]`;
      if (!record(window, at)) return;
      if (!whole(window.start, `${at}.start`) || !whole(window.end, `${at}.end`)) return;
      if (window.end < window.start) fault(at, 'ends before it starts');
      if (window.start < last) fault(at, 'starts before the one in front of it ends');
      last = window.end;
    });
  };

  if (!record(problem, 'problem')) return faults;
  const { activities, lags, resources, together, objective } = problem;
  if (!list(activities, 'activities') || !list(lags, 'lags') || !list(resources, 'resources')) return faults;
  const count = activities.length;
  const activity = (value: unknown, where: string): value is number => {
    const good = typeof value === 'number' && Number.isInteger(value) && value >= 0 && value < count;
    if (!good) fault(where, `is not the index of one of the ${count} activities`);
    return good;
  };

  activities.forEach((each, i) => {
    const at = `activities[${i}]`;
    if (!record(each, at)) return;
    whole(each.duration, `${at}.duration`, 0);
    if (each.release !== undefined) whole(each.release, `${at}.release`);
    if (each.deadline !== undefined) whole(each.deadline, `${at}.deadline`);
    if (each.windows !== undefined) windows(each.windows, `${at}.windows`);
  });
  lags.forEach((lag, k) => {
    const at = `lags[${k}]`;
    if (!record(lag, at)) return;
    activity(lag.from, `${at}.from`);
    activity(lag.to, `${at}.to`);
    if (lag.least !== undefined) whole(lag.least, `${at}.least`);
    if (lag.greatest !== undefined) whole(lag.greatest, `${at}.greatest`);
  });
  resources.forEach((resource, k) => {
    const at = `resources[${k}]`;
    if (!record(resource, at)) return;
    const capacityGood = whole(resource.capacity, `${at}.capacity`, 0);
    if (!list(resource.uses, `${at}.uses`)) return;
    const used = new Set<number>();
    let least = Infinity;
    let second = Infinity;
    resource.uses.forEach((use, u) => {
      if (!record(use, `${at}.uses[${u}]`) || !activity(use.activity, `${at}.uses[${u}].activity`)) return;
      if (used.has(use.activity)) fault(`${at}.uses[${u}].activity`, 'uses this resource twice');
      used.add(use.activity);
      const demand = use.demand ?? 1;
      if (!whole(demand, `${at}.uses[${u}].demand`, 0)) return;
      if (demand < least) [least, second] = [demand, least];
      else if (demand < second) second = demand;
    });
    const table = resource.changeover;
    if (table === undefined || !list(table, `${at}.changeover`)) return;
    if (capacityGood && second < Infinity && least + second <= resource.capacity) {
      fault(`${at}.changeover`, 'is given for a resource on which two uses fit at once');
    }
    if (table.length !== resource.uses.length) fault(`${at}.changeover`, 'does not have a row for each use');
    table.forEach((row, a) => {
      if (!list(row, `${at}.changeover[${a}]`)) return;
      if (row.length !== resource.uses.length) fault(`${at}.changeover[${a}]`, 'does not have a column for each use');
      row.forEach((time, b) => {
        whole(time, `${at}.changeover[${a}][${b}]`, 0);
      });
    });
  });
  if (together !== undefined && list(together, 'together')) {
    together.forEach((group, k) => {
      const at = `together[${k}]`;
      if (!record(group, at)) return;
      windows(group.windows, `${at}.windows`);
      if (list(group.activities, `${at}.activities`)) {
        group.activities.forEach((i, x) => {
          activity(i, `${at}.activities[${x}]`);
        });
      }
    });
  }
  if (objective !== undefined && list(objective, 'objective')) {
    objective.forEach((i, x) => {
      activity(i, `objective[${x}]`);
    });
  }
  const { conflicts } = options;
  if (conflicts !== undefined && !(typeof conflicts === 'number' && conflicts >= 0)) {
    fault('options.conflicts', 'is not a number of conflicts');
  }
  if (options.upperBound !== undefined) whole(options.upperBound, 'options.upperBound');
  if (faults.length === 0 && span(problem) > TIME_LIMIT * 2) fault('problem', 'spans too long a time');
  return faults;
}

/** More than any useful schedule can last: every activity and lag one after the other, after the last fixed time. */
export function span(problem: Problem): number {
  const most = problem.activities.map(each => each.duration);
  for (const { from, to, least, greatest } of problem.lags) {
    if (least !== undefined && least > most[from]!) most[from] = least;
    if (greatest !== undefined && -greatest > most[to]!) most[to] = -greatest;
  }
  for (const { uses, changeover } of problem.resources) {
    changeover?.forEach((row, a) => {
      const i = uses[a]!.activity;
      most[i] = Math.max(most[i]!, problem.activities[i]!.duration + Math.max(0, ...row));
    });
  }
  let latest = 0;
  for (const { release, windows } of problem.activities) {
    latest = Math.max(latest, release ?? 0, windows?.at(-1)?.end ?? 0);
  }
  for (const { windows } of problem.together ?? []) latest = Math.max(latest, windows.at(-1)?.end ?? 0);
  return most.reduce((sum, each) => sum + each, latest);
}
