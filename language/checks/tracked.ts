/** What checks on tracks and exposure have in common: finding bays and places, and putting cures into the job's own text. */

import type { BayExposure, BayTracks, WorkTracks } from '../exposure/fromTracks.ts';
import { longestResidence } from '../exposure/fromTracks.ts';
import type { Plan, PlannedStep, Step } from '../job/job.ts';
import { placeText } from '../quantities/tracked.ts';
import { KINDS, parseUnit, show, toSi } from '../units/index.ts';
import type { Given } from '../vocabulary/given.ts';
import type { Fix, Results } from './check.ts';
import { addLine, fix, replaceValue, say, setNumber, stepsOf } from './help.ts';

/** Works that have tracks. */
export function* trackedWorks(results: Results): Generator<WorkTracks & { readonly plan: Plan }> {
  for (const work of results.works) if (work.bays.length > 0) yield work;
}

export function exposuresOf(results: Results, plan: Plan): readonly BayExposure[] {
  return results.exposures.filter(each => each.tracks.plan === plan);
}

/** `chainage 350 m, 5.5 m left, bay 2`. */
export function at(results: Results, place: { readonly s: number; readonly t: number }, bay: BayTracks): string {
  return placeText(place, results.system, bay.bay.number);
}

/** Mix of the job, m³: what the passes lay and what rate and area alone ask for. */
export function mixOfJob(results: Results): { readonly laid: number; readonly byArea: number } {
  let [laid, byArea] = [0, 0];
  for (const { plan } of trackedWorks(results)) {
    for (const { step } of plan.steps) {
      laid += results.quantities.get(`${plan.work.name}.${step.name}.laid`)?.value ?? 0;
    }
    byArea += results.quantities.get(`${plan.work.name}.mix`)?.value ?? 0;
  }
  return { laid, byArea };
}

/** A time with its unit, to the second where that matters. */
export function time(results: Results, seconds: number): string {
  return show(seconds, KINDS.time, results.system);
}

/** The limit on how long product may stand, with the property that says it. */
export function standLimit(plan: Plan): { readonly seconds: number; readonly given: Given<number> } | undefined {
  const seconds = longestResidence(plan);
  const soak = stepsOf(plan, 'soak')[0]?.step;
  const given = [soak?.atMost, plan.product?.dwellMost].find(each => each?.value === seconds);
  return seconds !== undefined && given ? { seconds, given } : undefined;
}

/** The step of a plan that does something, the first of its kind. */
export function firstStep(plan: Plan, ...does: Parameters<typeof stepsOf>[1][]): PlannedStep | undefined {
  return stepsOf(plan, ...does)[0];
}

/** Writes the number of bays into the work. */
export function setBays(results: Results, plan: Plan, count: number, effect: string): readonly Fix[] {
  const { bays } = plan.work;
  const title = `Divide ${plan.work.name} into ${count} bays${effect}`;
  return bays && bays.origin.by !== 'default'
    ? replaceValue(results, bays, String(count), title)
    : addLine(results, plan.work, `bays: ${count}`, title);
}

/**
 * Sets a property of a step: where it stands as the job's own literal or argument, else as a new line of the job's own step;
 * where the method is a library's, in a method of the job's own that starts from it and changes this one line.
 */
export function setStep(
  results: Results,
  plan: Plan,
  step: Step,
  given: Given<unknown> | undefined,
  word: string,
  text: string,
  title: string,
): readonly Fix[] {
  const said = given && given.origin.by !== 'default';
  const own = said ? replaceValue(results, given, text, title) : addLine(results, step, `${word}: ${text}`, title);
  return own.length > 0 ? own : override(results, plan, step, `${word}: ${text}`, title);
}

/** A method of the job's own, like the library's but for one line of one step, and the work's call of it. */
function override(results: Results, plan: Plan, step: Step, line: string, title: string): readonly Fix[] {
  const { method } = plan.work;
  const { file } = results.job;
  if (!method || method.place.file !== file || step.place.file === file || !step.name) return [];
  const text = results.textOf(file);
  const [name] = /^[\w.-]+/.exec(text.slice(method.place.start, method.place.end)) ?? [];
  const fresh = `${plan.work.name}Method`;
  if (name === undefined || text.includes(fresh)) return [];
  const { start } = method.place;
  const block = `\nmethod ${fresh} like ${name} {\n  step ${step.name} {\n    ${line}\n  }\n}\n`;
  return fix(title, [
    { place: { file, start, end: start + name.length }, text: fresh },
    { place: { file, start: text.length, end: text.length }, text: block },
  ]);
}

/** A tenth of the author's own unit of speed, m/s: the steps in which a speed is written. */
export function speedGrid(results: Results, speed: Given<number> | undefined): number {
  const unit = parseUnit(speed?.unit ?? (results.system === 'us' ? 'mph' : 'km/h'));
  return unit ? toSi('0.1', unit) : Number.NaN;
}

export { addLine, fix, say, setNumber };
