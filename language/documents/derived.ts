/**
 * What was computed, as other programs read it: what `broomline derive --format json` prints. A public contract with a
 * version of its own; each stage contributes its part.
 */
import { z } from 'zod';
import type { Explained } from '../explain/explain.ts';
import type { Job } from '../job/job.ts';
import { quantitiesContract, quantitiesResult } from '../quantities/contract.ts';

export const derivedDocument = z
  .object({
    format: z.literal(1).describe('Version of this contract.'),
    job: z.string().describe('Name of the job block; empty for a library.'),
    quantities: quantitiesContract.describe('In the order of the job.'),
  })
  .describe('What broomline derive prints with --format json.');

export type DerivedDocument = z.infer<typeof derivedDocument>;

export function derivedAsDocument(job: Job, quantities: ReadonlyMap<string, Explained>): DerivedDocument {
  const head = job.blocks.jobs[0];
  return {
    format: 1,
    job: head?.name ?? '',
    quantities: quantitiesResult(quantities, job.system, currencyOf(job)),
  };
}

/** The currency of a job, for kinds of money. */
export function currencyOf(job: Job): string | undefined {
  return job.blocks.jobs[0]?.currency?.value;
}
