/**
 * The `tracks` part of what `derive --format json` prints: a public contract. Chainage s and offset t in m, in the frame of
 * the work; times in s from the opening of the first closure, or from the first movement where the job has none; depth of
 * what a pass lays down in mm.
 */
import { z } from 'zod';
import type { Activity } from './fromPlan.ts';
import { allDoes, type Pass } from './track.ts';

const place = z.object({
  s: z.number().describe('Chainage, m.'),
  t: z.number().describe('Offset, m, right positive.'),
});

export const passResult = z.object({
  from: place,
  to: place,
  band: z.tuple([z.number(), z.number()]).describe('Offsets of the strip it works on, m.'),
  start: z.number().describe('s'),
  end: z.number().describe('s'),
  depth: z.number().optional().describe('What an applying pass lays down, mm (1 mm = 1 L/m2).'),
});

export const trackResult = z.object({
  work: z.string(),
  bay: z.number().int().describe('Counted from 1 in the order of the work.'),
  step: z.string(),
  does: z.enum(allDoes as [(typeof allDoes)[number], ...(typeof allDoes)[number][]]),
  machine: z.string(),
  activity: z.string().describe('The activity it belongs to, as in the schedule: North/1/Spray.'),
  passes: z.array(passResult),
});

export const tracksContract = z.array(trackResult);

export type TrackResult = z.infer<typeof trackResult>;

/** Tracks as the contract prints them: by work, bay, activity and machine, in the order of the work. */
export function trackResults(
  bays: readonly { readonly activities: readonly Activity[]; readonly work: string }[],
): TrackResult[] {
  return bays.flatMap(({ work, activities }) =>
    activities.flatMap(activity =>
      activity.machines.flatMap(({ name, tracks }) =>
        tracks.map(({ does, passes }) => ({
          work,
          bay: activity.bay,
          step: activity.planned.step.name || activity.does,
          does,
          machine: name,
          activity: activity.id,
          passes: passes.map(passOf),
        })),
      ),
    ),
  );
}

function passOf({ from, to, band, start, end, depth }: Pass): z.infer<typeof passResult> {
  return {
    from: { s: rounded(from.s), t: rounded(from.t) },
    to: { s: rounded(to.s), t: rounded(to.t) },
    band: [rounded(band[0]), rounded(band[1])],
    start: rounded(start),
    end: rounded(end),
    ...(depth !== undefined && { depth: rounded(depth) }),
  };
}

/** To a micrometre, a microsecond: what is beyond is rounding, and 9.8 m must not read 9.799999999999999. */
export function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0;
}
