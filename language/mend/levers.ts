/**
 * Solving for the least change that clears a finding, lever by lever. Each solver tries changes on the job as data, in the
 * order of their size, and gives the least one that works with what it then comes to; undefined where none does.
 *
 * Speeds are found by bisection (a faster machine shortens every clock of the bay), counts by counting up.
 */
import { everyBay, fewestBays } from '../exposure/fromTracks.ts';
import type { Broom, Job, Plan, PlannedStep } from '../job/job.ts';
import { fewestContacts, longestStand, type Outcome, outcomeOf, withMachine, withStep } from './whatIf.ts';

/** The least change of one lever and the value that the finding is about, after it. */
export interface Cure<T = number> {
  readonly to: T;
  readonly after: number;
}

/**
 * Fewest equal bays with which no point stands longer than its limit.
 * @param now the number of equal bays that the work has and with which a point does; 0 where its bays are not equal
 */
export function baysForStand(job: Job, plan: Plan, now: number): Cure | undefined {
  const to = fewestBays(plan, job, undefined, now);
  return to === undefined ? undefined : { to, after: longestStand(outcomeOf(job, plan, { bays: to })) };
}

/** Fewest equal bays with which no tank runs dry inside a pass of a step. */
export function baysForTank(job: Job, plan: Plan, planned: PlannedStep, from: number): Cure | undefined {
  const dry = (bays: number): number => runsDry(outcomeOf(job, plan, { bays }), planned);
  for (let to = from + 1; to <= from + 60; to++) {
    if (dry(to) === 0) return { to, after: 0 };
  }
  return undefined;
}

/** How often a tank runs dry inside a pass of a step. */
export function runsDry({ work }: Outcome, planned: PlannedStep): number {
  return work.bays
    .flatMap(bay => bay.activities.filter(each => each.planned.step.id === planned.step.id))
    .reduce((sum, each) => sum + each.machines.reduce((of, { run }) => of + run.ranOut.length, 0), 0);
}

/**
 * Least speed of a step, up to what its machines can work at, with which no point stands longer than a limit.
 *
 * @param grid the speed is a multiple of this, m/s, so that it can be written in the author's unit
 */
export function speedForStand(
  job: Job,
  plan: Plan,
  planned: PlannedStep,
  limit: number,
  grid: number,
): Cure | undefined {
  const now = planned.step.speed?.value;
  if (now === undefined || !(grid > 0)) return undefined;
  const machines = [...planned.machines, ...planned.with].map(({ machine }) => machine.workingSpeed?.value.most);
  const most = Math.min(...machines.map(each => each ?? Number.NaN));
  if (!(most > now)) return undefined;
  const at = (steps: number): Plan => withStep(plan, planned, { speed: steps * grid });
  const keeps = (steps: number): boolean =>
    everyBay(at(steps), job, bay => (bay.exposure.residence?.greatest.seconds ?? 0) <= limit);
  let low = Math.floor(now / grid + 1e-9);
  let high = Math.floor(most / grid + 1e-9);
  if (high <= low || !keeps(high)) return undefined;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (keeps(middle)) high = middle;
    else low = middle;
  }
  return { to: high * grid, after: longestStand(outcomeOf(job, at(high))) };
}

/** Least number of further circuits that gives every point its contacts. */
export function circuitsForContacts(job: Job, plan: Plan, planned: PlannedStep, contacts: number): Cure | undefined {
  const now = planned.step.extraCircuits?.value ?? 0;
  return counted(now + 1, now + 4, contacts, to => withStep(plan, planned, { extraCircuits: to }), job);
}

/** Fewest cycles that give every point its contacts. */
export function cyclesForContacts(job: Job, plan: Plan, planned: PlannedStep, contacts: number): Cure | undefined {
  const now = planned.step.cycles?.value ?? 1;
  return counted(now + 1, now + 4, contacts, to => withStep(plan, planned, { cycles: to }), job);
}

/** Greatest advance, a multiple of `grid` in m, that gives every point its contacts. */
export function advanceForContacts(
  job: Job,
  plan: Plan,
  planned: PlannedStep,
  contacts: number,
  now: number,
  grid: number,
): Cure | undefined {
  for (
    let steps = Math.ceil(now / grid - 1e-9) - 1, tries = 0;
    steps * grid > now / 4 && tries < 60;
    steps--, tries++
  ) {
    const to = steps * grid;
    const after = reached(job, withStep(plan, planned, { advance: { of: 'length', length: to } }), contacts);
    if (after !== undefined) return { to, after };
  }
  return undefined;
}

/** A further broom in the same lane that gives every point its contacts: the first of those that the work does not use. */
export function broomForContacts(
  job: Job,
  plan: Plan,
  planned: PlannedStep,
  contacts: number,
): Cure<Broom> | undefined {
  if (planned.step.tandem?.value.lane === 'next') return undefined;
  const used = new Set(plan.steps.flatMap(each => [...each.machines, ...each.with].map(({ machine }) => machine.id)));
  const swept = planned.machines[0]?.machine.width?.value;
  for (const broom of job.blocks.brooms) {
    if (used.has(broom.id) || broom.width?.value !== swept) continue;
    const bound = { count: 1, machine: broom, place: planned.step.heading };
    const after = reached(job, withMachine(plan, planned, bound), contacts);
    if (after !== undefined) return { to: broom, after };
  }
  return undefined;
}

function counted(from: number, to: number, contacts: number, change: (to: number) => Plan, job: Job): Cure | undefined {
  for (let count = from; count <= to; count++) {
    const after = reached(job, change(count), contacts);
    if (after !== undefined) return { to: count, after };
  }
  return undefined;
}

/** The fewest contacts of any point, where every point gets as many as are wanted. */
function reached(job: Job, plan: Plan, contacts: number): number | undefined {
  // The tools by themselves touch the same points, and most of what is tried fails by that.
  if (plan.work.bays?.value.by !== 'auto') {
    const tools = { ...plan, steps: plan.steps.filter(({ step }) => step.does?.value === 'agitate') };
    if (fewestContacts(outcomeOf(job, tools)) < contacts) return undefined;
  }
  const after = fewestContacts(outcomeOf(job, plan));
  return after >= contacts ? after : undefined;
}
