/**
 * What was computed, as other programs read it: what `broomline derive --format json` prints. A public contract with a
 * version of its own; each stage contributes its part.
 */
import { z } from 'zod';
import type { Explained } from '../explain/explain.ts';
import { exposureContract, exposureResults } from '../exposure/contract.ts';
import type { BayExposure, WorkTracks } from '../exposure/fromTracks.ts';
import type { Job } from '../job/job.ts';
import { quantitiesContract, quantitiesResult } from '../quantities/contract.ts';
import { scheduleResult, scheduleResultOf } from '../schedule/contract.ts';
import type { Schedule } from '../schedule/schedule.ts';
import { trackResults, tracksContract } from '../tracks/contract.ts';

export const derivedDocument = z
  .object({
    format: z.literal(1).describe('Version of this contract.'),
    job: z.string().describe('Name of the job block; empty for a library.'),
    quantities: quantitiesContract.describe('In the order of the job.'),
    tracks: tracksContract.describe('Where each machine is, when.'),
    exposure: exposureContract.describe('What each bay went through.'),
    schedule: scheduleResult.describe('Who does what when.'),
  })
  .describe('What broomline derive prints with --format json.');

export type DerivedDocument = z.infer<typeof derivedDocument>;

/** Everything that was computed of a job. */
export interface Computed {
  readonly job: Job;
  readonly quantities: ReadonlyMap<string, Explained>;
  readonly works: readonly WorkTracks[];
  readonly exposures: readonly BayExposure[];
  readonly schedule: Schedule;
}

export function derivedAsDocument({ job, quantities, works, exposures, schedule }: Computed): DerivedDocument {
  const head = job.blocks.jobs[0];
  const bays = works.flatMap(({ plan, bays }) => bays.map(({ activities }) => ({ work: plan.work.name, activities })));
  return {
    format: 1,
    job: head?.name ?? '',
    quantities: quantitiesResult(quantities, job.system, currencyOf(job)),
    tracks: trackResults(bays),
    exposure: exposureResults(exposures),
    schedule: scheduleResultOf(schedule),
  };
}

/** The currency of a job, for kinds of money. */
export function currencyOf(job: Job): string | undefined {
  return job.blocks.jobs[0]?.currency?.value;
}
