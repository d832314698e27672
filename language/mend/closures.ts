/**
 * What would save a closure, or make a job fit that does not: the least change on each lever, tried on the job as data and
 * scheduled again. Levers: a machine more, other bays, a higher speed within what the machines can do, longer hours of
 * the closure, more people in a crew, more closures. Only what was scheduled with success is listed.
 *
 * Bounded: so many trials, each with so many conflicts. A change that would need a longer search is left out.
 */
import { tracksOf, type WorkTracks } from '../exposure/fromTracks.ts';
import type { BoundMachine, Closure, Crew, Job, Machine, Plan, PlannedStep } from '../job/job.ts';
import { buildProblem, closuresOf, numberOf, windowOf } from '../schedule/build.ts';
import type { Schedule } from '../schedule/schedule.ts';
import { solveToEnd } from '../schedule/solver/solve.ts';
import type { Given } from '../vocabulary/given.ts';
import { withStep } from './whatIf.ts';

/** A change to the text, as data. */
export type Change =
  /** One machine more in the role of some works. */
  | { readonly kind: 'machine'; readonly machine: Machine; readonly bindings: readonly Binding[] }
  | { readonly kind: 'bays'; readonly plan: Plan; readonly count: number }
  | { readonly kind: 'speed'; readonly plan: Plan; readonly planned: PlannedStep; readonly speed: number }
  /** Minutes after local midnight. */
  | { readonly kind: 'hours'; readonly closure: Closure; readonly from: number; readonly to: number }
  | { readonly kind: 'crew'; readonly crew: Crew; readonly people: number }
  | { readonly kind: 'number'; readonly closure: Closure; readonly number: number };

/** Where a work binds the machines of a role. */
export interface Binding {
  readonly plan: Plan;
  readonly role: string;
  readonly bound: readonly BoundMachine[];
}

/** A change that works. */
export interface Saving {
  readonly change: Change;
  /** The job then takes at most so many closures. */
  readonly closures: number;
}

/** Conflicts of a trial, and how many trials there may be. */
const TRIAL = 600;
const MOST_TRIALS = 90;

/**
 * Changes that save a closure of a job that has a schedule, or make an impossible one possible; the least on each lever, in the
 * order of the levers above.
 */
export function savingsOf(job: Job, schedule: Schedule): readonly Saving[] {
  const now = schedule.proof?.closures;
  const target = now === undefined ? undefined : now - 1;
  if (schedule.state === 'impossible' ? now !== undefined : (target ?? 0) < 1) return [];
  const trials = new Trials(job, schedule, target);
  return [
    ...machines(job, trials),
    ...bays(job, trials),
    ...speeds(job, trials),
    ...hours(job, trials),
    ...crews(job, trials),
    ...(target === undefined ? numbers(job, trials) : []),
  ].map(change => ({ change, closures: trials.closures(change) }));
}

/** Whether a change makes the job fit; each is tried once. */
class Trials {
  private readonly job: Job;
  private readonly works: readonly WorkTracks[];
  private readonly target: number | undefined;
  private readonly used = new Map<Change, number>();
  private left = MOST_TRIALS;

  constructor(job: Job, schedule: Schedule, target: number | undefined) {
    this.job = job;
    this.works = schedule.built.works;
    this.target = target;
  }

  closures(change: Change): number {
    return this.used.get(change) ?? this.target ?? 0;
  }

  fits(change: Change): boolean {
    if (this.left-- <= 0) return false;
    const job = changed(this.job, change);
    const works = job.plans.map((plan, i): WorkTracks => {
      const before = this.works[i]!;
      return plan === before.plan ? before : tracksOf(plan, job, { start: before.start });
    });
    const built = buildProblem(job, works);
    if (built.nights.length === 0 || built.problem.activities.length === 0) return false;
    const last = this.target === undefined ? undefined : built.nights[this.target - 1];
    const answer = solveToEnd(built.problem, {
      conflicts: TRIAL,
      firstOnly: true,
      ...(last && { upperBound: windowOf(last, built.zero!).end }),
    });
    if (answer.makespan === undefined) return false;
    this.used.set(change, built.nights.findIndex(night => answer.makespan! <= windowOf(night, built.zero!).end) + 1);
    return true;
  }

  /** The first of several changes, least first, that fits. */
  first(changes: Iterable<Change>): Change[] {
    for (const change of changes) if (this.fits(change)) return [change];
    return [];
  }

  /** The least of changes in rising order, the greatest of which fits; by halving. */
  least(changes: readonly Change[]): Change[] {
    const last = changes.at(-1);
    if (!last || !this.fits(last)) return [];
    let [low, high] = [-1, changes.length - 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.fits(changes[middle]!)) high = middle;
      else low = middle;
    }
    return [changes[high]!];
  }
}

/** The job with a change made. */
export function changed(job: Job, change: Change): Job {
  const plans = (change: (plan: Plan) => Plan): Job => ({ ...job, plans: job.plans.map(change) });
  switch (change.kind) {
    case 'machine':
      return plans(plan => {
        const binding = change.bindings.find(each => each.plan === plan);
        return binding ? withBound(plan, binding, change.machine) : plan;
      });
    case 'bays':
      return plans(plan =>
        plan !== change.plan
          ? plan
          : { ...plan, work: { ...plan.work, bays: withValue(plan.work.bays, { by: 'count', count: change.count }) } },
      );
    case 'speed':
      return plans(plan => (plan === change.plan ? withStep(plan, change.planned, { speed: change.speed }) : plan));
    case 'hours': {
      const { closure, from, to } = change;
      const hours = closure.hours && withValue(closure.hours, { ...closure.hours.value, from, to });
      return withClosure(job, closure, { ...closure, hours });
    }
    case 'number':
      return withClosure(job, change.closure, {
        ...change.closure,
        number: withValue(change.closure.number, change.number),
      });
    case 'crew': {
      const crew = { ...change.crew, people: withValue(change.crew.people, change.people) };
      const crews = job.blocks.crews.map(each => (each === change.crew ? crew : each));
      return { ...job, blocks: { ...job.blocks, crews } };
    }
  }
}

// ── levers ───────────────────────────────────────────────────────────────────────────────────────────────────────

/** Kinds of machine of which one more shortens the work. */
const SHARED = ['broom', 'jet', 'sweeper', 'water-truck', 'sprayer'];

function machines(job: Job, trials: Trials): Change[] {
  const bindings = job.plans.flatMap(plan =>
    [...plan.bindings].map(([role, bound]): Binding => ({ plan, role, bound })),
  );
  const kinds = SHARED.filter(kind => bindings.some(each => each.bound[0]?.machine.kind === kind));
  return kinds.flatMap(kind => {
    const own = bindings.filter(
      each => each.bound[0]?.machine.kind === kind && each.bound.every(({ place }) => place.file === job.file),
    );
    const changes = own.flatMap((binding): Change[] => {
      const machine = another(job, binding);
      return machine ? [{ kind: 'machine', machine, bindings: [binding] }] : [];
    });
    // In one work first; then in every work that has the role.
    const together = [...Map.groupBy(own, each => each.role).values()].flatMap((list): Change[] => {
      const machine = list.length > 1 ? another(job, list[0]!) : undefined;
      return machine ? [{ kind: 'machine', machine, bindings: list }] : [];
    });
    return trials.first([...changes, ...together]);
  });
}

/** A machine like those bound that no work uses, or one more of the same where the fleet has it. */
function another(job: Job, { bound }: Binding): Machine | undefined {
  const like = bound[0]!.machine;
  const used = new Set(job.plans.flatMap(plan => [...plan.bindings.values()].flat().map(each => each.machine.id)));
  const spare = machinesOfKind(job, like.kind).find(
    each => !used.has(each.id) && each.width?.value === like.width?.value && each.place.file === like.place.file,
  );
  if (spare) return spare;
  return bound.find(each => numberOf(job, each.machine) > each.count)?.machine;
}

function machinesOfKind({ blocks }: Job, kind: string): readonly Machine[] {
  const all: readonly Machine[] = [
    ...blocks.brooms,
    ...blocks.jets,
    ...blocks.sweepers,
    ...blocks.waterTrucks,
    ...blocks.sprayers,
  ];
  return all.filter(each => each.kind === kind);
}

function withBound(plan: Plan, { bound }: Binding, machine: Machine): Plan {
  const more = (list: readonly BoundMachine[]): readonly BoundMachine[] => {
    if (!bound.every(each => list.includes(each))) return list;
    const same = bound.find(each => each.machine === machine);
    if (same) return list.map(each => (each === same ? { ...each, count: each.count + 1 } : each));
    return [...list, { count: 1, machine, place: bound[0]!.place }];
  };
  return {
    ...plan,
    steps: plan.steps.map(planned => ({ ...planned, machines: more(planned.machines), with: more(planned.with) })),
  };
}

/** Bays near what the work says, nearest first. */
function bays(job: Job, trials: Trials): Change[] {
  return job.plans.flatMap(plan => {
    const said = plan.work.bays?.value;
    if (said?.by !== 'count' || !isOwn(job, plan.work.bays)) return [];
    const counts = [1, 2, 3, 4, 5, 6].flatMap(by => [said.count - by, said.count + by]).filter(count => count >= 1);
    return trials.first(counts.map((count): Change => ({ kind: 'bays', plan, count })));
  });
}

const PACED = ['agitate', 'jet', 'pick-up', 'sweep', 'rinse'];

function speeds(job: Job, trials: Trials): Change[] {
  return job.plans.flatMap(plan =>
    plan.steps.flatMap((planned): Change[] => {
      const { speed, does } = planned.step;
      const most = fastest(planned);
      if (!speed || !does || !PACED.includes(does.value) || most === undefined || !isOwn(job, speed)) return [];
      const grid = gridOf(speed);
      const changes: Change[] = [];
      for (let k = Math.floor(speed.value / grid + 1e-9) + 1; k * grid <= most + 1e-9 && changes.length < 64; k++) {
        changes.push({ kind: 'speed', plan, planned, speed: k * grid });
      }
      return trials.least(changes);
    }),
  );
}

/** Greatest speed at which all machines of a step can work; undefined where it is not given or hangs on a flow. */
function fastest({ machines, with: others }: PlannedStep): number | undefined {
  const all = [...machines, ...others].map(each => each.machine);
  if (all.some(machine => machine.kind === 'water-truck' && 'flow' in machine && machine.flow)) return undefined;
  const speeds = all.map(machine => machine.workingSpeed?.value.most);
  return speeds.some(each => each === undefined) ? undefined : Math.min(...speeds.map(each => each!));
}

/** Half a unit of what the author writes, m/s. */
function gridOf({ unit }: Given<number>): number {
  if (unit === 'm/s') return 0.1;
  return unit === 'mph' ? 0.5 * 0.44704 : 0.5 / 3.6;
}

const QUARTER = 15;

/** Earlier openings and later ends, a quarter of an hour at a time, two hours at most. */
function hours(job: Job, trials: Trials): Change[] {
  const used = job.blocks.closures.filter(each => job.plans.some(plan => closuresOf(job, plan).includes(each)));
  return used.flatMap(closure => {
    const { hours: given } = closure;
    if (!given || !isOwn(job, given)) return [];
    const { from, to } = given.value;
    const length = to > from ? to - from : to - from + 1440;
    const steps = [1, 2, 3, 4, 5, 6, 7, 8].filter(k => length + k * QUARTER < 1440);
    const wrapped = (minutes: number): number => ((minutes % 1440) + 1440) % 1440;
    const earlier = steps.map((k): Change => ({ kind: 'hours', closure, from: wrapped(from - k * QUARTER), to }));
    const later = steps.map((k): Change => ({ kind: 'hours', closure, from, to: wrapped(to + k * QUARTER) }));
    return [...trials.least(earlier), ...trials.least(later)];
  });
}

function crews(job: Job, trials: Trials): Change[] {
  return job.blocks.crews.flatMap(crew => {
    const { people } = crew;
    if (!people || !isOwn(job, people)) return [];
    const more = [1, 2, 3, 4, 5, 6].map((by): Change => ({ kind: 'crew', crew, people: people.value + by }));
    return trials.least(more);
  });
}

function numbers(job: Job, trials: Trials): Change[] {
  return job.blocks.closures.flatMap(closure => {
    const { number } = closure;
    if (!number || !isOwn(job, number)) return [];
    const more = Array.from(
      { length: 16 },
      (_, k): Change => ({ kind: 'number', closure, number: number.value + k + 1 }),
    );
    return trials.least(more);
  });
}

// ── common ───────────────────────────────────────────────────────────────────────────────────────────────────────

/** A value that the job's own text gives, by a literal or by an argument: only such a one can be changed there. */
function isOwn(job: Job, given: Given<unknown> | undefined): boolean {
  if (!given) return false;
  if (given.origin.by === 'argument') return given.origin.place.file === job.file;
  return given.literal && given.place.file === job.file;
}

function withValue<T>(given: Given<T> | undefined, value: T): Given<T> | undefined {
  return given && { ...given, value };
}

/** Works refer to closures by id, so that the changed one takes the place of the other. */
function withClosure(job: Job, closure: Closure, by: Closure): Job {
  return {
    ...job,
    blocks: { ...job.blocks, closures: job.blocks.closures.map(each => (each === closure ? by : each)) },
  };
}
