/**
 * What checks have in common: showing numbers as the author wrote them, finding blocks, and making fixes that touch only
 * literals and blocks of the job's own file.
 */

import type { FrictionBasis } from '../friction/levels.ts';
import type {
  BoundMachine,
  Broom,
  Closure,
  Deposit,
  Jet,
  Job,
  Machine,
  Magnet,
  Method,
  Plan,
  PlannedStep,
  Problem,
  Product,
  Runway,
  RunwayEnd,
  Sprayer,
  Step,
  Sweeper,
  WaterTruck,
} from '../job/job.ts';
import type { Mark, SourceId } from '../sources/sources.ts';
import { formatNumber, fromSi, KINDS, type KindName, parseUnit, show, showBeside, showIn } from '../units/index.ts';
import type { BlockHead, BlockRef, Given, Place } from '../vocabulary/given.ts';
import {
  type Check,
  check,
  type Edit,
  type Example,
  type Fix,
  type Report,
  type Results,
  type Severity,
} from './check.ts';

// ── showing numbers ──────────────────────────────────────────────────────────────────────────────────────────────

/** A value in SI in the author's unit, where there is one, else in the unit of the system. */
export function say(results: Results, si: number, kind: KindName, like?: Given<unknown>): string {
  const unit = like?.unit === undefined ? undefined : parseUnit(like.unit);
  return unit && KINDS[kind].dimension.key === unit.dimension.key
    ? showIn(si, unit)
    : show(si, KINDS[kind], results.system);
}

/** A value beside its limit, in the author's unit, with digits enough that they look different. */
export function sayBoth(
  results: Results,
  si: number,
  limit: number,
  kind: KindName,
  like?: Given<unknown>,
): readonly [string, string] {
  const unit = like?.unit === undefined ? undefined : parseUnit(like.unit);
  if (!unit || KINDS[kind].dimension.key !== unit.dimension.key) {
    return showBeside(si, limit, KINDS[kind], results.system);
  }
  for (let digits = 4; digits < 12; digits++) {
    const [a, b] = [showIn(si, unit, { digits }), showIn(limit, unit, { digits })];
    if (a !== b) return [a, b];
  }
  return [showIn(si, unit), showIn(limit, unit)];
}

/** A share as a percentage without needless digits. */
export function percent(share: number, digits = 2): string {
  return `${formatNumber(share * 100, digits)} %`;
}

/** `a, b and c`. */
export function listed(words: readonly string[], and = 'and'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${and} ${words.at(-1)}`;
}

/** `2 brooms`, `1 broom`. */
export function counted(count: number, noun: string): string {
  return `${formatNumber(count, 6)} ${noun}${count === 1 ? '' : 's'}`;
}

/** Relative slack of comparisons: a limit typed in other units must not be broken by its rounding. */
const slack = 1e-9;

export function below(value: number, limit: number): boolean {
  return value < limit - slack * Math.max(Math.abs(limit), Math.abs(value), 1e-12);
}

export function above(value: number, limit: number): boolean {
  return below(limit, value);
}

/** Which limit of a range a value breaks, if it breaks one. */
export function broken(
  value: number,
  range: { readonly least?: number | undefined; readonly most?: number | undefined },
): { readonly side: 'below' | 'above'; readonly limit: number } | undefined {
  if (range.least !== undefined && below(value, range.least)) return { side: 'below', limit: range.least };
  if (range.most !== undefined && above(value, range.most)) return { side: 'above', limit: range.most };
  return undefined;
}

// ── places ───────────────────────────────────────────────────────────────────────────────────────────────────────

/** Where a finding about a value stands: where an argument gave it, at the call. */
export function placeOf(given: Given<unknown>): Place {
  return given.origin.by === 'argument' ? given.origin.place : given.place;
}

export function refOf(block: BlockHead): BlockRef {
  return { kind: block.kind, id: block.id, name: block.name };
}

/** The step as a work does it: `North.Agitate`. */
export function stepRef(plan: Plan, step: Step): BlockRef {
  return { kind: 'step', id: step.id, name: `${plan.work.name}.${step.name}` };
}

/** Where a finding about a step stands: at one of its values, else at its heading. */
export function stepPlace(step: Step, ...values: readonly (Given<unknown> | undefined)[]): Place {
  const own = values.find(value => value !== undefined && value.origin.by !== 'default');
  return own ? placeOf(own) : step.heading;
}

/** The related place of a value with what it says, for messages with two sides. */
export function see(given: Given<unknown>, message: string): { readonly place: Place; readonly message: string }[] {
  return given.origin.by === 'default' ? [] : [{ place: given.place, message }];
}

// ── the job ──────────────────────────────────────────────────────────────────────────────────────────────────────

type Does = NonNullable<Step['does']>['value'];

/** Steps of a plan that do one of these, in order. */
export function stepsOf(plan: Plan, ...does: readonly Does[]): readonly PlannedStep[] {
  return plan.steps.filter(({ step }) => step.does && does.includes(step.does.value));
}

/** Every planned step of the job of these kinds, with its plan. */
export function* allSteps(job: Job, ...does: readonly Does[]): Generator<PlannedStep & { readonly plan: Plan }> {
  for (const plan of job.plans) for (const step of stepsOf(plan, ...does)) yield { ...step, plan };
}

interface MachineKinds {
  readonly sprayer: Sprayer;
  readonly broom: Broom;
  readonly 'water-truck': WaterTruck;
  readonly sweeper: Sweeper;
  readonly magnet: Magnet;
  readonly jet: Jet;
}

export function isKind<K extends keyof MachineKinds>(machine: Machine, kind: K): machine is MachineKinds[K] & Machine {
  return machine.kind === kind;
}

/** Machines of one kind that do a step, convoy included. */
export function machinesOf<K extends keyof MachineKinds>(planned: PlannedStep, kind: K): readonly MachineKinds[K][] {
  return allMachines(planned)
    .map(bound => bound.machine)
    .filter(machine => isKind(machine, kind)) as unknown as MachineKinds[K][];
}

export function allMachines(planned: PlannedStep): readonly BoundMachine[] {
  return [...planned.machines, ...planned.with];
}

/** Whether the work puts a product on. */
export function isChemical(plan: Plan): boolean {
  return stepsOf(plan, 'apply').length > 0;
}

/** Plans whose method is known, so that what is missing in it is missing indeed. */
export function* fullPlans(job: Job): Generator<Plan & { readonly method: Method }> {
  for (const plan of job.plans)
    if (plan.method && plan.steps.length > 0) yield plan as Plan & { readonly method: Method };
}

const DRIVES: readonly Does[] = ['sweep', 'pre-wet', 'apply', 'keep-wet', 'agitate', 'rinse', 'jet', 'pick-up'];

/** Steps in which a machine drives over the pavement. */
export function drivingSteps(plan: Plan): readonly PlannedStep[] {
  return stepsOf(plan, ...DRIVES);
}

export function runwayOf(job: Job, on: Given<{ runway: BlockRef; end: string }> | undefined): Runway | undefined {
  return on && job.blocks.runways.find(runway => runway.id === on.value.runway.id);
}

export function endOf(runway: Runway | undefined, designator: string | undefined): RunwayEnd | undefined {
  return runway?.ends.find(end => end.name === designator);
}

/** Chainages that lie on the pavement, counted from the landing threshold of an end. */
export function chainageRange(runway: Runway, end: RunwayEnd | undefined): readonly [number, number] | undefined {
  if (!runway.length) return undefined;
  const displaced = end?.displaced?.value ?? 0;
  return [-displaced, runway.length.value - displaced];
}

/** Stations as slabs want them. */
export function stationsOf(deposit: Deposit): readonly { s: number; left: number; right: number }[] {
  return (deposit.stations?.value ?? []).map(({ chainage, left, right }) => ({ s: chainage, left, right }));
}

/**
 * A computed quantity of a step, such as `North.Spray.flow`; undefined where it could not be computed. Where several
 * machines do the step, that of one of them.
 */
export function stepQuantity(
  results: Results,
  plan: Plan,
  step: Step,
  name: string,
  machine?: Machine,
): number | undefined {
  const path = `${plan.work.name}.${step.name}`;
  const own = machine && results.quantities.get(`${path}.${machine.name}.${name}`);
  return (own ?? results.quantities.get(`${path}.${name}`))?.value;
}

/** The date that ages are counted to. */
export function today(results: Results): string | undefined {
  return results.asOf ?? results.job.date;
}

const dayLength = 86_400_000;

/** Whole days from one ISO date to another; undefined when one is no date. */
export function daysBetween(from: string, to: string): number | undefined {
  const days = (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / dayLength;
  return Number.isFinite(days) ? Math.round(days) : undefined;
}

/** Length of a closure by the clock, s; a night with a clock change is really an hour shorter or longer. */
export function closureLength(closure: Closure): number | undefined {
  const { from, to } = closure.hours?.value ?? {};
  if (from === undefined || to === undefined) return undefined;
  return (to > from ? to - from : to - from + 24 * 60) * 60;
}

/** Dates on which a closure may begin, where the last one is given; not more than ten years of them. */
export function closureDates(closure: Closure): readonly string[] | undefined {
  const { from, to, hours, except } = closure;
  if (!from || !to || !hours) return undefined;
  const last = Math.min(daysBetween(from.value, to.value) ?? -1, 3660);
  const first = Date.parse(`${from.value}T00:00:00Z`);
  const dates: string[] = [];
  for (let i = 0; i <= last; i++) {
    const day = new Date(first + i * dayLength);
    const date = day.toISOString().slice(0, 10);
    const weekday = day.getUTCDay() || 7;
    if (hours.value.days.includes(weekday) && !except?.value.includes(date)) dates.push(date);
  }
  return dates;
}

/** Whose friction levels the job goes by: those of its surveys, else ICAO's. TP 312 has no rows for devices. */
export function frictionBasis(job: Job): FrictionBasis | undefined {
  const basis = job.blocks.surveys.find(survey => survey.basis && survey.basis.origin.by !== 'default')?.basis?.value;
  return basis === 'TP 312' ? undefined : (basis ?? 'ICAO');
}

/** How well a level was verified, for a message. */
export function markOf(mark: Mark): string {
  return mark;
}

// ── liquids and brooms ───────────────────────────────────────────────────────────────────────────────────────────

/** Rate of the mix, m, for a rate of mix or of product; undefined where the dilution is missing. */
export function mixRateOf(
  rate: { readonly rate: number; readonly of: 'mix' | 'product' | 'water' },
  product: Product | undefined,
): number | undefined {
  if (rate.of !== 'product') return rate.rate;
  return product?.dilution && rate.rate / product.dilution.value.share;
}

/** Whether a step with `when` is done at the temperature the job is planned for; done, where none is given. */
export function isDone(job: Job, step: Step): boolean {
  const conditions = job.blocks.conditions[0];
  const surface = conditions?.surface?.value ?? conditions?.air?.value;
  return step.when === undefined || surface === undefined || broken(surface, step.when.value) === undefined;
}

/** Apply steps whose film is dry before the shortest soak is over; life and soak in s. */
export function dries(
  results: Results,
  plan: Plan,
): readonly { readonly step: Step; readonly life: number; readonly soak: number }[] {
  const needed = stepsOf(plan, 'soak')[0]?.step.atLeast?.value ?? plan.product?.dwellLeast?.value;
  return stepsOf(plan, 'apply').flatMap(({ step }) => {
    const life = stepQuantity(results, plan, step, 'filmLife');
    return life !== undefined && needed !== undefined && below(life, needed) ? [{ step, life, soak: needed }] : [];
  });
}

/** A time in whole minutes, for estimates. */
export function minutes(time: number): string {
  return time < 60 ? `${Math.round(time)} s` : `${Math.round(time / 60)} min`;
}

// ── fixes ────────────────────────────────────────────────────────────────────────────────────────────────────────

export function fix(title: string, edits: readonly Edit[], safe = false): readonly Fix[] {
  return edits.length > 0 ? [{ title, edits, safe }] : [];
}

/** Where a value can be changed by an edit: a literal in the job's own file, or the argument that gave it. */
export function editable(results: Results, given: Given<unknown> | undefined): Place | undefined {
  if (!given) return undefined;
  const place = placeOf(given);
  if (place.file !== results.job.file || given.origin.by === 'default') return undefined;
  if (given.origin.by !== 'argument') return given.literal ? place : undefined;
  const text = results.textOf(place.file).slice(place.start, place.end);
  return /^-?[0-9.]+\s*\S*$/.test(text) || /^[a-z -]+$/.test(text) ? place : undefined;
}

/** Replaces a value by other text, if it is the author's own literal. */
export function replaceValue(
  results: Results,
  given: Given<unknown> | undefined,
  text: string,
  title: string,
  safe = false,
): readonly Fix[] {
  const place = editable(results, given);
  return place ? fix(title, [{ place, text }], safe) : [];
}

/**
 * Sets a number to a limit, in the author's own unit. Where the limit has no short form in that unit it is rounded to
 * the safe side: `towards` says on which side of the limit the value has to lie.
 */
export function setNumber(
  results: Results,
  given: Given<number> | undefined,
  limit: number,
  kind: KindName,
  towards: 'up' | 'down',
  what: string,
): readonly Fix[] {
  if (!given || !Number.isFinite(limit)) return [];
  const written = write(limit, given.unit ?? KINDS[kind][results.system === 'us' ? 'us' : 'metric']?.symbol, towards);
  return written === undefined ? [] : replaceValue(results, given, written, `Set ${what} to ${written}`);
}

/** A value as a literal: exact where that is short, else rounded to the given side at four digits. */
export function write(si: number, symbol: string | undefined, towards: 'up' | 'down'): string | undefined {
  const unit = symbol === undefined ? undefined : parseUnit(symbol);
  if (symbol !== undefined && !unit) return undefined;
  const value = unit ? fromSi(si, unit) : si;
  if (!Number.isFinite(value)) return undefined;
  const short = Number(value.toPrecision(6));
  const exact = Math.abs(short - value) <= 1e-9 * Math.abs(value);
  const number = exact ? short : roundTo(value, 4, towards);
  const digits = String(number);
  if (digits.includes('e')) return undefined;
  return unit ? `${digits} ${unit.symbol}` : digits;
}

function roundTo(value: number, digits: number, towards: 'up' | 'down'): number {
  if (value === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - digits + 1);
  const steps = towards === 'up' ? Math.ceil(value / step) : Math.floor(value / step);
  return Number((steps * step).toPrecision(digits + 1));
}

/** Adds a line to a block of the job's own file. */
export function addLine(results: Results, block: BlockHead | undefined, line: string, title: string): readonly Fix[] {
  if (!block || block.place.file !== results.job.file) return [];
  const text = results.textOf(block.place.file);
  const whole = text.slice(block.place.start, block.place.end);
  const at = (offset: number): Place => ({
    file: block.place.file,
    start: block.place.start + offset,
    end: block.place.start + offset,
  });
  const margin = marginAt(text, block.place.start);
  if (!whole.endsWith('}'))
    return fix(title, [{ place: at(whole.length), text: ` {\n${margin}    ${line}\n${margin}}` }]);
  const inside = whole.slice(0, -1).trimEnd().length;
  return fix(title, [
    { place: at(inside), text: `\n${margin}    ${line.replaceAll('\n', `\n${margin}    `)}\n${margin}` },
  ]).map(each => ({
    ...each,
    // What stood between the last entry and the brace goes: the new line brings its own.
    edits: each.edits.map(edit => ({ ...edit, place: { ...edit.place, end: block.place.start + whole.length - 1 } })),
  }));
}

/** Adds a block of its own before or after another one (a step in a method), in the job's own file. */
export function addBlock(
  results: Results,
  beside: BlockHead | undefined,
  side: 'before' | 'after',
  block: string,
  title: string,
): readonly Fix[] {
  if (!beside || beside.place.file !== results.job.file) return [];
  const text = results.textOf(beside.place.file);
  const margin = marginAt(text, beside.place.start);
  const indented = block.replaceAll('\n', `\n${margin}`);
  const offset = side === 'before' ? beside.place.start : beside.place.end;
  const place = { file: beside.place.file, start: offset, end: offset };
  return fix(title, [{ place, text: side === 'before' ? `${indented}\n${margin}` : `\n${margin}${indented}` }]);
}

/** Adds a block at the end of the job's file. */
export function appendBlock(results: Results, block: string, title: string): readonly Fix[] {
  const { length } = results.textOf(results.job.file);
  return fix(title, [{ place: { file: results.job.file, start: length, end: length }, text: `\n${block}\n` }]);
}

/** Removes whole lines, with the line break that follows. */
export function removeLines(results: Results, place: Place, title: string): readonly Fix[] {
  if (place.file !== results.job.file) return [];
  const text = results.textOf(place.file);
  let { start, end } = place;
  while (start > 0 && /[ \t]/.test(text[start - 1]!)) start--;
  while (end < text.length && /[ \t]/.test(text[end]!)) end++;
  const wholeLines = (start === 0 || text[start - 1] === '\n') && (end === text.length || /[\r\n]/.test(text[end]!));
  if (!wholeLines) return fix(title, [{ place, text: '' }]);
  if (text[end] === '\r') end++;
  if (text[end] === '\n') end++;
  return fix(title, [{ place: { file: place.file, start, end }, text: '' }]);
}

function marginAt(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))![0];
}

// ── checks that report what a stage found ────────────────────────────────────────────────────────────────────────

interface ProblemCheck {
  readonly code: string;
  readonly title: string;
  readonly why: string;
  readonly source?: SourceId;
  readonly severity?: Severity;
  readonly bad: Example;
  readonly good?: Example;
  readonly alongside?: readonly string[];
  /** In place of what `data` of the problem offers. */
  readonly fixes?: (problem: Problem, results: Results) => readonly Fix[];
  /** Problems that another check speaks of. */
  readonly except?: (problem: Problem) => boolean;
}

/** The check of a code that the stages before emit. Errors of the language can't be waived. */
export function problemCheck({ fixes = offered, except, ...rest }: ProblemCheck): Check {
  return check({
    source: 'tool-policy',
    severity: 'error',
    waivable: false,
    ofText: true,
    ...rest,
    *find(results) {
      for (const problem of results.job.problems) {
        if (problem.code === rest.code && !except?.(problem)) yield reportOf(problem, fixes(problem, results));
      }
    },
  });
}

export function reportOf(problem: Problem, fixes: readonly Fix[]): Report {
  const { message, place, related, about } = problem;
  return { message, place, fixes, ...(related && { related }), ...(about && { about }) };
}

/** Fixes that a problem's `data` offers: words meant, text to put in, to put instead, or to take out. */
export function offered(problem: Problem, results: Results): readonly Fix[] {
  const { data, place } = problem;
  if (!data || place.file !== results.job.file) return [];
  const { meant, replace, insert, remove, at } = data;
  if (meant !== undefined) {
    const words = typeof meant === 'object' ? meant : [String(meant)];
    return words.flatMap(word => fix(`Write \`${word}\``, [{ place, text: word }]));
  }
  if (replace !== undefined) return fix(`Write \`${replace}\``, [{ place, text: String(replace) }], true);
  if (insert !== undefined) {
    const offset = typeof at === 'number' ? at : place.end;
    const shown = String(insert).trim();
    return fix(`Add \`${shown}\``, [{ place: { ...place, start: offset, end: offset }, text: String(insert) }], true);
  }
  if (remove === undefined) return [];
  const text = results.textOf(place.file).slice(place.start, place.end);
  const start = place.start + text.lastIndexOf(String(remove));
  const end = start + String(remove).length;
  return start < place.start ? [] : fix('Remove it', [{ place: { ...place, start, end }, text: '' }], true);
}

/** Removes the line of a property or a `use`, where it is all that stands on it. */
export function removeLine(results: Results, place: Place): readonly Fix[] {
  const text = results.textOf(place.file);
  const start = text.lastIndexOf('\n', place.start - 1) + 1;
  const end = lineEnd(text, place.start);
  const line = text.slice(start, end);
  // What goes on in the next line can't be taken out by lines.
  if (/[{},]|\btable\b|[-+*/=<>]\s*$/.test(line.replace(/"[^"]*"/g, ''))) return [];
  return removeLines(results, { file: place.file, start, end }, 'Remove the line');
}

/** Adds text at the end of the line in which a place begins. */
export function addAtLineEnd(results: Results, place: Place, text: string): readonly Fix[] {
  if (place.file !== results.job.file) return [];
  const end = lineEnd(results.textOf(place.file), place.start);
  return fix(`Add \`${text.trim()}\` at the end of the line`, [{ place: { ...place, start: end, end }, text }]);
}

function lineEnd(text: string, offset: number): number {
  const end = text.indexOf('\n', offset);
  return end < 0 ? text.length : text[end - 1] === '\r' ? end - 1 : end;
}

/** Binds a role of the method to a machine of its kind that the job's own file has. */
export function bindRole({ about, data }: Problem, results: Results): readonly Fix[] {
  const plan = results.job.plans.find(({ work }) => work.id === about?.id);
  const role = plan?.method?.roles.find(each => each.name === data?.property);
  const { blocks } = results.job;
  const machines = [
    blocks.sprayers,
    blocks.brooms,
    blocks.waterTrucks,
    blocks.sweepers,
    blocks.magnets,
    blocks.jets,
  ].flat();
  return machines
    .filter(machine => !machine.fromLibrary && machine.kind === role?.machine?.value)
    .flatMap(machine =>
      addLine(results, plan?.work, `${role!.name}: ${machine.name}`, `Let ${machine.name} be the ${role!.name}`),
    );
}

/**
 * What trying changes came to. It takes longer than all checks together, so it is kept for the next text.
 * @param inputs all that it is made from besides the job
 */
export function tried<T>(
  { job, keep }: Results,
  name: string,
  inputs: readonly unknown[],
  make: (job: Results['job']) => T,
): T {
  return keep ? keep(`tried ${name}`, inputs, make) : make(job);
}
