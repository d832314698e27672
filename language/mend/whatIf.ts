/**
 * What a job would do if one thing in it were different: tracks and exposure of a work with one value changed. Nothing of the
 * job is touched; plans are plain data, and a changed plan shares all that stays.
 */
import type { Exposure } from '../exposure/exposure.ts';
import { exposureOf, type TrackOptions, tracksOf, type WorkTracks } from '../exposure/fromTracks.ts';
import type { BoundMachine, Job, Plan, PlannedStep, Step } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';

/** A work with a change, computed. */
export interface Outcome {
  readonly work: WorkTracks;
  readonly exposures: readonly Exposure[];
}

export function outcomeOf(job: Job, plan: Plan, options: TrackOptions = {}): Outcome {
  const work = tracksOf(plan, job, options);
  return { work, exposures: work.bays.map(bay => exposureOf(bay).exposure) };
}

/** The plan with other values for some properties of one step; a property that the step lacks is added. */
export function withStep(
  plan: Plan,
  planned: PlannedStep,
  values: Readonly<Partial<Record<keyof Step, unknown>>>,
): Plan {
  const step: Record<string, unknown> = { ...planned.step };
  for (const [key, value] of Object.entries(values)) {
    const given = step[key] as Given<unknown> | undefined;
    step[key] = given
      ? { ...given, value }
      : { value, text: '', place: planned.step.heading, literal: false, origin: { by: 'own line' } };
  }
  return withPlanned(plan, planned, { ...planned, step: step as unknown as Step });
}

/** The plan with further machines doing a step. */
export function withMachine(plan: Plan, planned: PlannedStep, machine: BoundMachine): Plan {
  return withPlanned(plan, planned, { ...planned, machines: [...planned.machines, machine] });
}

function withPlanned(plan: Plan, from: PlannedStep, to: PlannedStep): Plan {
  return { ...plan, steps: plan.steps.map(each => (each === from ? to : each)) };
}

/** Longest time from first product to last rinse over all bays, s. */
export function longestStand({ exposures }: Outcome): number {
  return Math.max(...exposures.map(each => each.residence?.greatest.seconds ?? 0));
}

/** Fewest contacts of any point over all bays. */
export function fewestContacts({ exposures }: Outcome): number {
  return Math.min(...exposures.map(each => each.contacts.least.count));
}
