/**
 * What was computed, as other programs read it: what `broomline derive --format json` prints. A public contract with a
 * version of its own. Values are SI with two exceptions that every entry states by its UCUM unit: volumes count litres,
 * because the trade does, and angles count degrees.
 */
import { z } from 'zod';
import type { Explained } from '../explain/explain.ts';
import type { Job } from '../job/job.ts';
import { citation } from '../sources/sources.ts';
import { fromSi, KINDS, type KindName, parseUnit, type System, show, ucumOf } from '../units/index.ts';

const quantity = z.object({
  path: z.string().describe('How an author refers to it, unique in the job: North.product.'),
  label: z.string().describe('What it is, in a few words.'),
  value: z.number(),
  interval: z
    .tuple([z.number(), z.number()])
    .optional()
    .describe('Least and greatest value that the tolerances allow.'),
  unit: z.string().describe('UCUM code of the unit of value and interval; 1 for a plain number.'),
  shown: z.string().describe("The value in the job's own system of units, as the text output shows it."),
  formula: z.string().optional().describe('In the symbols of the trade; absent where the text itself says the value.'),
  inputs: z
    .array(z.string())
    .describe('Paths of what it was computed from; inputs of the text are not listed as quantities.'),
  source: z.string().describe('The publication behind the formula and how well it is verified.'),
  note: z.string().optional(),
});

export const derivedDocument = z
  .object({
    format: z.literal(1).describe('Version of this contract.'),
    job: z.string().describe('Name of the job block; empty for a library.'),
    quantities: z.array(quantity).describe('In the order of the job.'),
  })
  .describe('What broomline derive prints with --format json.');

export type DerivedDocument = z.infer<typeof derivedDocument>;

export function derivedAsDocument(job: Job, quantities: Iterable<Explained>): DerivedDocument {
  const currency = currencyOf(job);
  return {
    format: 1,
    job: job.blocks.jobs[0]?.name ?? '',
    quantities: Array.from(quantities, each => ({
      path: each.path,
      label: each.label,
      value: outside(each.value, each.kind),
      ...(each.interval && {
        interval: [outside(each.interval[0], each.kind), outside(each.interval[1], each.kind)] as [number, number],
      }),
      unit: outsideUnit(each.kind, currency),
      shown: shownValue(each, job.system, currency),
      ...(each.formula !== undefined && { formula: each.formula }),
      inputs: each.inputs.map(input => input.path),
      source: sourceText(each),
      ...(each.note !== undefined && { note: each.note }),
    })),
  };
}

/** The currency of a job, for kinds of money. */
export function currencyOf(job: Job): string | undefined {
  return job.blocks.jobs[0]?.currency?.value;
}

/** A value as a person reads it, in the job's system. */
export function shownValue(
  { value, kind }: Pick<Explained, 'value' | 'kind'>,
  system: System,
  currency: string | undefined,
): string {
  return show(value, KINDS[kind], system, currency === undefined ? {} : { currency });
}

/** One line on where a formula or a value comes from. */
export function sourceText({ source }: Pick<Explained, 'source'>): string {
  return source === 'the author' ? 'the text of the job' : citation(source);
}

/** Kinds whose outside unit is not the SI unit they are counted in inside. */
const OUTSIDE: Partial<Record<KindName, string>> = {
  volume: 'L',
  'application rate': 'L/m2',
  coverage: 'm2/L',
  flow: 'L/s',
  angle: '°',
};

function outside(si: number, kind: KindName): number {
  const unit = OUTSIDE[kind] === undefined ? undefined : parseUnit(OUTSIDE[kind]);
  return unit ? fromSi(si, unit) : si;
}

function outsideUnit(kind: KindName, currency: string | undefined): string {
  const unit = OUTSIDE[kind] === undefined ? undefined : parseUnit(OUTSIDE[kind]);
  return unit ? ucumOf(unit) : KINDS[kind].si.replace('{money}', `{${currency ?? 'money'}}`);
}
