/**
 * The `exposure` part of what `derive --format json` prints: a public contract. Least and greatest of the three clocks and
 * of the contacts, each with the place where it occurs. Seconds, metres, millimetres; a clock that runs nowhere is null.
 */
import { z } from 'zod';
import { rounded } from '../tracks/contract.ts';
import type { CountAt, Exposure, TimeAt } from './exposure.ts';
import type { BayExposure } from './fromTracks.ts';

const timeAt = z.object({ seconds: z.number(), s: z.number(), t: z.number() });
const countAt = z.object({ count: z.number().int(), s: z.number(), t: z.number() });
const range = z.tuple([z.number(), z.number()]);

export const gapKinds = [
  'not swept',
  'not wetted',
  'not applied',
  'under rate',
  'not contacted',
  'not jetted',
  'not rinsed',
  'not picked up',
] as const;

export const exposureResult = z.object({
  work: z.string(),
  bay: z.number().int(),
  area: z.object({ s: range, t: range }),
  rate: z.number().nullable().describe('What every point has to get, mm (1 mm = 1 L/m2).'),
  soak: z
    .object({ least: timeAt, greatest: timeAt })
    .nullable()
    .describe('From the full rate at a point to the first tool there.'),
  wetGap: z
    .object({ greatest: timeAt })
    .nullable()
    .describe('Longest time since any wetting, until the last agitation.'),
  residence: z.object({ greatest: timeAt }).nullable().describe('From the first product to the last rinse.'),
  contacts: z.object({ least: countAt, most: countAt }),
  gaps: z
    .array(
      z.object({
        kind: z.enum(gapKinds),
        area: z.number().describe('m2'),
        where: z.array(z.object({ s: range, t: range })),
      }),
    )
    .describe('Ground that did not get something that the method does.'),
});

export const exposureContract = z.array(exposureResult);

export type ExposureResult = z.infer<typeof exposureResult>;

/** The exposure of each bay as the contract prints it. */
export function exposureResults(bays: readonly BayExposure[]): ExposureResult[] {
  return bays.map(({ tracks, exposure }) => ({
    work: tracks.plan.work.name,
    bay: tracks.bay.number,
    area: { s: pair(exposure.area.s), t: pair(exposure.area.t) },
    rate: exposure.rate === null ? null : rounded(exposure.rate),
    soak: exposure.soak && { least: timeOf(exposure.soak.least), greatest: timeOf(exposure.soak.greatest) },
    wetGap: exposure.wetGap && { greatest: timeOf(exposure.wetGap.greatest) },
    residence: exposure.residence && { greatest: timeOf(exposure.residence.greatest) },
    contacts: { least: countOf(exposure.contacts.least), most: countOf(exposure.contacts.most) },
    gaps: gapsOf(exposure),
  }));
}

function gapsOf(exposure: Exposure): ExposureResult['gaps'] {
  return exposure.gaps.map(({ kind, area, where }) => ({
    kind,
    area: rounded(area),
    where: where.map(({ s, t }) => ({ s: pair(s), t: pair(t) })),
  }));
}

function timeOf({ seconds, s, t }: TimeAt): z.infer<typeof timeAt> {
  return { seconds: rounded(seconds), s: rounded(s), t: rounded(t) };
}

function countOf({ count, s, t }: CountAt): z.infer<typeof countAt> {
  return { count, s: rounded(s), t: rounded(t) };
}

function pair([a, b]: readonly [number, number]): [number, number] {
  return [rounded(a), rounded(b)];
}
