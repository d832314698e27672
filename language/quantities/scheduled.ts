/**
 * Quantities that come from the schedule: closures, starts and ends of works, when each closure is clear, recall, hours of
 * plant and crew, and what they cost. None without a schedule.
 *
 * Times of works count from the opening of the first closure, those of a closure from its own opening. Hours of plant and crew
 * count from the opening of each closure in which they are used to their last activity in it: they are on site and paid
 * for, at work or waiting.
 */
import type { Explained } from '../explain/explain.ts';
import type { Crew, Machine, Plan } from '../job/job.ts';
import { numberOf } from '../schedule/build.ts';
import type { Review } from '../schedule/review.ts';
import type { Schedule } from '../schedule/schedule.ts';
import { KINDS, show } from '../units/index.ts';
import { plantKinds } from '../vocabulary/plant.ts';
import { type Context, isMissing, leaf, missing, type Quantity, quantity, sum } from './quantity.ts';
import type { Engine } from './tracked.ts';

interface Scheduled {
  readonly ctx: Context;
  readonly schedule: Schedule;
  readonly review: Review | undefined;
}

function scheduled(ctx: Context, engine: Engine | undefined): Scheduled | undefined {
  const { schedule, review } = engine ?? {};
  return schedule?.starts ? { ctx, schedule, review } : undefined;
}

/** W.start, W.end: seconds from the opening of the first closure. */
export function workSchedule(ctx: Context, plan: Plan, engine: Engine | undefined): readonly Quantity[] {
  const of = scheduled(ctx, engine);
  const name = ctx.nameOf(plan.work);
  const own = of?.schedule.activities.filter(each => each.work === plan.work.name && each.does !== 'wash-down') ?? [];
  if (!of || own.length === 0) return [];
  const from = of.schedule.zero === undefined ? 'the first movement' : 'the opening of the first closure';
  const make = (which: 'start' | 'end', symbol: string, value: number): Quantity => {
    const path = `${name}.${which}`;
    return ctx.once(path, () =>
      quantity({
        path,
        label: `${which} of ${name} on the runway, after ${from}`,
        symbol,
        kind: 'time',
        formula: `${symbol} = ${which === 'start' ? 'least start' : 'greatest end'} of its activities in the schedule`,
        inputs: scheduleInputs(of, plan),
        compute: () => value,
        source: 'definition',
        place: plan.work.heading,
        note: proofNote(of.schedule),
        monotone: false,
      }),
    );
  };
  return [
    make('start', 't_s', Math.min(...own.map(each => each.start))),
    make('end', 't_e', Math.max(...own.map(each => each.end))),
  ];
}

/** For a closure: C.used, C.clear and C.margin, the last two of the closure that is clear with least to spare. */
export function closureSchedule(
  ctx: Context,
  closure: Context['job']['blocks']['closures'][number],
  engine: Engine | undefined,
): readonly Quantity[] {
  const of = scheduled(ctx, engine);
  const nights = of?.schedule.nights.filter(each => each.night.closure.id === closure.id) ?? [];
  if (!of || nights.length === 0) return [];
  const name = ctx.nameOf(closure);
  const owner = { path: name, block: closure };
  const plans = ctx.job.plans.filter(plan => of.schedule.activities.some(each => each.work === plan.work.name));
  const inputs = plans.flatMap(plan => scheduleInputs(of, plan));
  const worst = nights.reduce((a, b) => (b.handBack - b.clear < a.handBack - a.clear ? b : a));
  const clear = ctx.once(`${name}.clear`, () =>
    quantity({
      path: `${name}.clear`,
      label: `runway clear and inspected, after the opening, in the fullest closure of ${name}`,
      symbol: 't_c',
      kind: 'time',
      formula: 't_c = greatest end of the activities in the closure',
      inputs: unique(inputs),
      compute: () => worst.clear - worst.start,
      source: 'definition',
      place: closure.heading,
      note: proofNote(of.schedule),
      monotone: false,
    }),
  );
  return [
    ctx.once(`${name}.used`, () =>
      quantity({
        path: `${name}.used`,
        label: `closures of ${name} that the schedule uses`,
        symbol: 'n_c',
        kind: 'count',
        formula: 'n_c = closures in which anything is done',
        inputs: unique(inputs),
        compute: () => nights.length,
        source: 'definition',
        place: closure.heading,
        note: proofNote(of.schedule),
        monotone: false,
      }),
    ),
    clear,
    ctx.once(`${name}.margin`, () =>
      quantity({
        path: `${name}.margin`,
        label: `time between clear and hand-back in the fullest closure of ${name}`,
        symbol: 't_m',
        kind: 'time',
        formula: `t_m = t_l − t_b − t_c`,
        inputs: [lengthOf(of, closure, worst.end - worst.start), leaf(owner, 'handBack', 't_b'), clear],
        compute: (length, reserve, end) => length! - reserve! - end!,
        source: 'definition',
        place: closure.heading,
      }),
    ),
  ];
}

/** Length of the fullest closure as it really is, clock change and all. */
function lengthOf(
  { ctx }: Scheduled,
  closure: Context['job']['blocks']['closures'][number],
  seconds: number,
): Quantity {
  const path = `${ctx.nameOf(closure)}.length`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `length of the closure ${ctx.nameOf(closure)}`,
      symbol: 't_l',
      kind: 'time',
      formula: 't_l = end − opening, in real time',
      inputs: [],
      compute: () => seconds,
      source: 'definition',
      place: (closure.hours ?? { place: closure.heading }).place,
    }),
  );
}

/** M.hours and M.cost of a machine: all of its name together. */
export function machineSchedule(ctx: Context, machine: Machine, engine: Engine | undefined): readonly Quantity[] {
  const of = scheduled(ctx, engine);
  if (!of) return [];
  const { built, activities, nights } = of.schedule;
  const users = new Set(
    built.tasks.filter(task => task.activity.machines.some(run => run.machine.id === machine.id)).map(task => task.id),
  );
  const own = activities.filter(each => users.has(each.id));
  if (own.length === 0) return [];
  const name = ctx.nameOf(machine);
  const units = new Set(own.flatMap(each => each.machines.filter(unit => isUnit(unit, machine.name))));
  const perUnit = [...units].map(unit => {
    const mine = own.filter(each => each.machines.includes(unit));
    if (nights.length === 0) return Math.max(...mine.map(each => each.end)) - Math.min(...mine.map(each => each.start));
    return nights.reduce((total, night, k) => {
      const ends = mine.filter(each => each.night === k).map(each => each.end);
      return ends.length === 0 ? total : total + Math.max(...ends) - night.start;
    }, 0);
  });
  const total = perUnit.reduce((a, b) => a + b, 0);
  const closures = closuresQuantity(of);
  const hours = ctx.once(`${name}.hours`, () =>
    quantity({
      path: `${name}.hours`,
      label: `hours of ${name} on site`,
      symbol: 't_M',
      kind: 'time',
      formula: 't_M = Σ (end of its last activity − opening) of the closures',
      inputs: closures ? [closures] : [],
      compute: () => total,
      source: 'common-practice',
      place: machine.heading,
      note: `${units.size > 1 || numberOf(ctx.job, machine) > 1 ? `${units.size} of it; ` : ''}at work or waiting, from the opening of each closure in which it is used`,
      monotone: false,
    }),
  );
  if (!machine.hourlyRate) return [hours];
  return [
    hours,
    ctx.once(`${name}.cost`, () =>
      quantity({
        path: `${name}.cost`,
        label: `cost of ${name}`,
        symbol: 'K',
        kind: 'money',
        formula: 'K = t_M · k',
        inputs: [hours, leaf({ path: name, block: machine }, 'hourlyRate', 'k')],
        compute: (time, rate) => time! * rate!,
        source: 'definition',
        place: machine.heading,
      }),
    ),
  ];
}

function isUnit(unit: string, name: string): boolean {
  return unit === name || (unit.startsWith(`${name} (`) && unit.endsWith(')'));
}

/** C.hours and C.cost of a crew: people times time on duty. */
export function crewSchedule(ctx: Context, crew: Crew, engine: Engine | undefined): readonly Quantity[] {
  const of = scheduled(ctx, engine);
  const duties = of?.review?.duties.filter(each => each.crew.id === crew.id) ?? [];
  if (!of || duties.length === 0) return [];
  const name = ctx.nameOf(crew);
  const owner = { path: name, block: crew };
  const onDuty = duties.reduce((total, each) => total + each.to - each.from, 0);
  const time = ctx.once(`${name}.duty`, () =>
    quantity({
      path: `${name}.duty`,
      label: `time of ${name} on duty`,
      symbol: 't_D',
      kind: 'time',
      formula: 't_D = Σ (end of the last activity − opening) of the closures',
      inputs: [closuresQuantity(of)].filter(each => each !== undefined),
      compute: () => onDuty,
      source: 'common-practice',
      place: crew.heading,
      note: 'washing down included; the way to and from the airport is not',
      monotone: false,
    }),
  );
  const hours = ctx.once(`${name}.hours`, () =>
    quantity({
      path: `${name}.hours`,
      label: `hours of all people of ${name}`,
      symbol: 't_C',
      kind: 'time',
      formula: 't_C = n · t_D',
      inputs: [leaf(owner, 'people', 'n'), time],
      compute: (people, each) => people! * each!,
      source: 'definition',
      place: crew.heading,
    }),
  );
  if (!crew.hourlyRate) return [time, hours];
  return [
    time,
    hours,
    ctx.once(`${name}.cost`, () =>
      quantity({
        path: `${name}.cost`,
        label: `cost of ${name}`,
        symbol: 'K',
        kind: 'money',
        formula: 'K = t_C · k',
        inputs: [hours, leaf(owner, 'hourlyRate', 'k')],
        compute: (all, rate) => all! * rate!,
        source: 'definition',
        place: crew.heading,
      }),
    ),
  ];
}

/** Job.closures, Job.recall.peak, Job.onTime, Job.machineHours, Job.crewHours, and the costs that hang on time. */
export function jobSchedule(
  ctx: Context,
  engine: Engine | undefined,
  ofBlocks: readonly Quantity[],
): readonly Quantity[] {
  const of = scheduled(ctx, engine);
  if (!of) return [];
  const place = ctx.job.blocks.jobs[0]?.heading;
  const named = { ...(place && { place }) };
  const kinds = new Set<string>(plantKinds);
  const machines = blocksNamed(ctx, kinds);
  const crews = blocksNamed(ctx, new Set(['crew']));
  const pick = (names: ReadonlySet<string>, what: string): readonly Quantity[] =>
    ofBlocks.filter(each => each.path.endsWith(`.${what}`) && names.has(each.path.slice(0, -what.length - 1)));
  const total = (name: string, label: string, symbol: string, kind: 'time' | 'money', inputs: readonly Quantity[]) =>
    inputs.length === 0
      ? []
      : [
          ctx.once(`Job.${name}`, () =>
            sum({ path: `Job.${name}`, label, symbol, of: `${symbol} of each`, kind, inputs, ...named }),
          ),
        ];
  const closures = closuresQuantity(of);
  const cost = ctx.job.blocks.costs[0];
  const plant = total('cost.plant', 'cost of plant for the job', 'K', 'money', pick(machines, 'cost'));
  const people = total('cost.crew', 'cost of crews for the job', 'K', 'money', pick(crews, 'cost'));
  const ofClosures =
    closures && cost?.closure
      ? [
          ctx.once('Job.cost.closures', () =>
            quantity({
              path: 'Job.cost.closures',
              label: 'cost of the closures',
              symbol: 'K',
              kind: 'money',
              formula: 'K = n_c · k',
              inputs: [closures, leaf({ path: ctx.nameOf(cost), block: cost }, 'closure', 'k')],
              compute: (n, rate) => n! * rate!,
              source: 'definition',
              ...named,
            }),
          ),
        ]
      : [];
  return [
    ...(closures ? [closures] : []),
    ...recall(of, named),
    ...odds(of, named),
    ...total('machineHours', 'hours of plant on site', 't_M', 'time', pick(machines, 'hours')),
    ...total('crewHours', 'hours of people', 't_C', 'time', pick(crews, 'hours')),
    ...plant,
    ...people,
    ...ofClosures,
  ];
}

function closuresQuantity(of: Scheduled): Quantity | undefined {
  const { ctx, schedule } = of;
  if (schedule.nights.length === 0) return undefined;
  const place = ctx.job.blocks.jobs[0]?.heading;
  const plans = ctx.job.plans.filter(plan => schedule.activities.some(each => each.work === plan.work.name));
  return ctx.once('Job.closures', () =>
    quantity({
      path: 'Job.closures',
      label: 'closures that the job takes',
      symbol: 'n_c',
      kind: 'count',
      formula: 'n_c = closures in which anything is done',
      inputs: unique(plans.flatMap(plan => scheduleInputs(of, plan))),
      compute: () => schedule.nights.length,
      source: 'definition',
      ...(place && { place }),
      note: proofNote(schedule),
      monotone: false,
    }),
  );
}

function recall(of: Scheduled, named: { readonly place?: Explained['place'] & object }): readonly Quantity[] {
  const { ctx, review, schedule } = of;
  const peak = review?.recall.peak;
  if (!peak) return [];
  const plans = ctx.job.plans.filter(plan => schedule.activities.some(each => each.work === plan.work.name));
  return [
    ctx.once('Job.recall.peak', () =>
      quantity({
        path: 'Job.recall.peak',
        label: 'longest time in which the runway can be cleared when it is called back',
        symbol: 't_r',
        kind: 'time',
        formula: 't_r = greatest of (rinse what is wet + pick up + inspect + leave) at any minute',
        inputs: unique(plans.flatMap(plan => scheduleInputs(of, plan, ['rinse', 'jet', 'pick-up', 'inspect']))),
        compute: () => peak.seconds,
        source: 'common-practice',
        ...named,
        note: 'a bay sprayed in part counts as a whole one; the operator decides what is enough',
        monotone: false,
      }),
    ),
  ];
}

function odds(
  { ctx, review }: Scheduled,
  named: { readonly place?: Explained['place'] & object },
): readonly Quantity[] {
  const found = review?.odds;
  if (!found) return [];
  const inputs = ctx.job.plans.flatMap(plan =>
    plan.steps.flatMap(({ step }): readonly Quantity[] => {
      const owner = { path: `${ctx.nameOf(plan.work)}.${step.name || step.does?.value}`, block: step };
      return [
        ...(step.speed?.interval ? [leaf(owner, 'speed', 'v')] : []),
        ...(step.takes?.interval ? [leaf(owner, 'takes', 't')] : []),
      ];
    }),
  );
  return [
    ctx.once('Job.onTime', () =>
      quantity({
        path: 'Job.onTime',
        label: 'share of runs in which every closure is handed back on time',
        symbol: 'P',
        kind: 'share',
        formula: 'P = runs on time / runs, durations triangular between their tolerances',
        inputs: unique(inputs),
        compute: () => found.onTime,
        source: 'common-practice',
        ...named,
        note: `${found.runs} runs, the order of the schedule kept, always the same random numbers`,
        monotone: false,
      }),
    ),
  ];
}

/** What a schedule hangs on: the times of the steps of a work, or those of some of them. */
function scheduleInputs({ ctx }: Scheduled, plan: Plan, only?: readonly string[]): readonly Quantity[] {
  const work = ctx.nameOf(plan.work);
  return plan.steps.flatMap(({ step }): readonly Quantity[] => {
    const does = step.does?.value;
    if (does === undefined || (only && !only.includes(does))) return [];
    const path = `${work}.${step.name || does}`;
    const owner = { path, block: step };
    if (step.takes && (does === 'inspect' || does === 'hand-clean')) return [leaf(owner, 'takes', 't')];
    const time = ctx.once(`${path}.time`, () => missing(`${path}.time`, `time of ${path}`));
    if (!isMissing(time)) return [time];
    return step.atLeast && does === 'soak' ? [leaf(owner, 'atLeast', 't_s')] : [];
  });
}

function unique(list: readonly Quantity[]): readonly Quantity[] {
  return [...new Map(list.map(each => [each.path, each])).values()];
}

function blocksNamed({ job, nameOf }: Context, kinds: ReadonlySet<string>): ReadonlySet<string> {
  const blocks = Object.values(job.blocks).flat() as { kind: string }[];
  return new Set(blocks.filter(each => kinds.has(each.kind)).map(each => nameOf(each as never)));
}

/** What is proved, as a clause. */
export function proofNote({ proof, state }: Schedule): string {
  if (!proof) return 'not scheduled';
  if (state === 'provisional') return 'provisional: the search for a better schedule goes on';
  const closures =
    proof.closures === 0
      ? ''
      : proof.provedLeast
        ? proof.closures === 1
          ? 'no fewer are possible; '
          : `${proof.closures - 1} proved impossible; `
        : `at least ${proof.leastClosures}; `;
  if (proof.provedEarliest) return `${closures}the end proved earliest`;
  return `${closures}no schedule ends more than ${show(proof.end - proof.bound, KINDS.time, 'metric')} earlier`;
}
