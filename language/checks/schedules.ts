/** What the checks of the schedule have in common: times of the clock, and where an activity stands in the text. */
import type { Plan, Step } from '../job/job.ts';
import { clockAt, dayAt } from '../schedule/calendar.ts';
import type { ScheduledNight } from '../schedule/schedule.ts';
import type { Place } from '../vocabulary/given.ts';
import type { Results } from './check.ts';

/** `01:48` on the clock of the airport; seconds left out. */
export function clockTime(results: Results, seconds: number, night: ScheduledNight): string {
  return clockAt(Math.floor(((results.schedule.zero ?? 0) + seconds) / 60) * 60, night.night.timeZone);
}

/** `Mon 7 Apr`. */
export function dayOf(night: ScheduledNight): string {
  return dayAt(night.night.date);
}

/** The work and step of an activity. */
export function stepOf(results: Results, id: string): { readonly plan: Plan; readonly step: Step } | undefined {
  const task = results.schedule.built.tasks.find(each => each.id === id);
  return task && { plan: task.plan, step: task.activity.planned.step };
}

/** Links to the steps of some activities, each once, with what is said of it. */
export function linksTo(
  results: Results,
  said: readonly { readonly activity: string; readonly message: string }[],
): readonly { readonly place: Place; readonly message: string }[] {
  const seen = new Set<string>();
  return said.flatMap(({ activity, message }) => {
    const step = stepOf(results, activity)?.step;
    if (!step || seen.has(step.id)) return [];
    seen.add(step.id);
    return [{ place: step.heading, message }];
  });
}

/** `Jet` of `North/1/Jet`. */
export function stepNameOf(id: string): string {
  return id.split('/').slice(2).join('/');
}
