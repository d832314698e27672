/**
 * The `schedule` part of what `derive --format json` prints: a public contract. Times are ISO 8601 with the offset that
 * holds there and then; lags and slack in seconds. A job without closures has no dates: its times are seconds from the
 * first movement.
 */
import { z } from 'zod';
import { isoAt } from './calendar.ts';
import { waitedFor } from './reasons.ts';
import type { Schedule, ScheduledActivity } from './schedule.ts';

const moment = z.iso.datetime({ offset: true });
const momentOrSeconds = z
  .union([moment, z.number()])
  .describe('ISO 8601 with offset; seconds from the first movement where the job has no closure.');

const activityOf = <T extends z.ZodType>(time: T) =>
  z.object({
    id: z.string().describe('As in the tracks: North/1/Spray.'),
    work: z.string(),
    bay: z.number().int(),
    step: z.string(),
    machines: z.array(z.string()),
    start: time,
    end: time,
    waitsFor: z.array(z.string()).describe('Activities that keep it from starting earlier.'),
    slack: z.number().describe('How late it can be before the last closure ends later, s.'),
  });

export const scheduleResult = z.object({
  state: z
    .enum(['scheduled', 'provisional', 'impossible', 'open', 'nothing'])
    .describe(
      'scheduled: there is a schedule; provisional: the search goes on; impossible: proved that there is none; open: none found within the budget; nothing: nothing to schedule, or no closure for it.',
    ),
  closures: z
    .array(
      z.object({
        start: moment,
        end: moment,
        handBack: moment.describe('By when the runway has to be clear and inspected.'),
        clear: moment.describe('When it is, by the plan.'),
        activities: z.array(activityOf(moment)).describe('By start. Washing down may end after the closure.'),
      }),
    )
    .describe('Closures that the schedule uses, in order.'),
  withoutClosure: z
    .array(activityOf(z.number()))
    .optional()
    .describe('The activities of a job without closures; seconds from the first movement.'),
  lags: z
    .array(
      z.object({
        from: z.string(),
        to: z.string(),
        least: z.number().optional(),
        greatest: z.number().optional(),
        why: z.string(),
      }),
    )
    .describe('From start to start, s.'),
  proof: z
    .object({
      closures: z.number().int(),
      provedLeast: z.boolean().describe('Fewer closures are proved impossible.'),
      leastClosures: z.number().int().describe('Fewer than this are proved impossible.'),
      end: momentOrSeconds,
      provedEarliest: z.boolean().describe('An earlier end of the last closure is proved impossible.'),
      bound: momentOrSeconds.describe('No schedule ends before this.'),
    })
    .nullable(),
});

export type ScheduleResult = z.infer<typeof scheduleResult>;

/** The schedule as the contract prints it. */
export function scheduleResultOf(schedule: Schedule): ScheduleResult {
  const { state, activities, nights, lags, proof, zero, timeZone } = schedule;
  const at = (seconds: number, zone: string): string => isoAt((zero ?? 0) + seconds, zone);
  const either = (seconds: number): string | number =>
    zero === undefined || timeZone === undefined ? seconds : at(seconds, timeZone);
  return {
    state,
    closures: nights.map(({ night, start, end, handBack, clear }, k) => {
      const time = (seconds: number): string => at(seconds, night.timeZone);
      return {
        start: time(start),
        end: time(end),
        handBack: time(handBack),
        clear: time(clear),
        activities: activities.filter(each => each.night === k).map(each => resultOf(each, time)),
      };
    }),
    ...(zero === undefined &&
      activities.length > 0 && { withoutClosure: activities.map(each => resultOf(each, seconds => seconds)) }),
    lags: lags.map(lag => ({ ...lag })),
    proof: proof
      ? {
          closures: proof.closures,
          provedLeast: proof.provedLeast,
          leastClosures: proof.leastClosures,
          end: either(proof.end),
          provedEarliest: proof.provedEarliest,
          bound: either(proof.bound),
        }
      : null,
  };
}

function resultOf<T>(activity: ScheduledActivity, time: (seconds: number) => T) {
  const { id, work, bay, step, machines, start, end, waits, slack } = activity;
  return {
    id,
    work,
    bay,
    step,
    machines: [...machines],
    start: time(start),
    end: time(end),
    waitsFor: [...waitedFor(waits)],
    slack,
  };
}
