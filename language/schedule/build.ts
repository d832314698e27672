/**
 * From tracks and calendar to the scheduling problem: what has to be placed, what it needs, what holds it apart.
 *
 * One activity for each activity of the tracks, in whole seconds from the opening of the first closure (from the first
 * movement where there is none). Durations and least lags are rounded up, greatest lags down, so that a schedule of whole
 * seconds keeps the limits that the exact tracks ask for.
 *
 * - Machines are resources: those of one name are there once, or as often as a fleet says. Driving from one place of work
 *   to the next is a changeover.
 * - A crew is a resource of so many people; every machine takes its drivers.
 * - Stands (water points, stores, emptying points) are resources where more machines use them than fit.
 * - A bay lies in one closure, from its first movement to its inspection; washing down is not on the runway and may end later.
 * - Bays are done in the order of the work; a work that has to come before another ends before that one begins.
 */
import type { BayTracks, Lag, WorkTracks } from '../exposure/fromTracks.ts';
import { betweenThresholds } from '../job/frame.ts';
import type { Airport, Closure, Crew, Job, Machine, Plan, Runway } from '../job/job.ts';
import { type Keep, nothingKept } from '../job/memory.ts';
import { type Activity, airportOf, type StepDoes } from '../tracks/fromPlan.ts';
import type { Place as Spot } from '../tracks/track.ts';
import { type Calendar, calendarOf, type Night } from './calendar.ts';
import type { Problem, Resource, Lag as SolverLag, Together, Use, Window } from './solver/model.ts';

/** An activity of the problem, with all that the caller wants to know of it. */
export interface Task {
  readonly id: string;
  readonly plan: Plan;
  readonly bay: number;
  /** Name of the step, as it stands in the id. */
  readonly step: string;
  readonly does: StepDoes;
  readonly activity: Activity;
  readonly tracks: BayTracks;
  /** False for what need not be on the runway. */
  readonly onRunway: boolean;
  /** Whole seconds. */
  readonly duration: number;
}

/** A lag of the problem, as the published results name it. Seconds, start to start. */
export interface TaskLag {
  readonly from: string;
  readonly to: string;
  readonly least?: number;
  readonly greatest?: number;
  readonly why: Lag['why'] | 'order of the bays' | 'order of the works' | 'trip to fill or empty';
}

/** What a resource of the problem stands for. */
export type Holder =
  | { readonly kind: 'machine'; readonly machine: Machine; readonly capacity: number }
  | { readonly kind: 'crew'; readonly crew: Crew; readonly capacity: number }
  | { readonly kind: 'stand'; readonly name: string; readonly capacity: number };

/** What keeps a job from being scheduled as it stands, or makes its schedule doubtful. */
export type Shortcoming =
  | {
      readonly kind: 'machine missing';
      readonly task: Task;
      readonly machine: Machine;
      readonly needs: number;
      readonly has: number;
    }
  | { readonly kind: 'machine twice'; readonly task: Task; readonly machine: Machine }
  | {
      readonly kind: 'crew too small';
      readonly task: Task;
      readonly crew: Crew;
      readonly needs: number;
      readonly has: number;
    }
  | { readonly kind: 'no closure'; readonly plan: Plan }
  | { readonly kind: 'too many activities'; readonly number: number };

/** The problem and what its numbers mean. Lists stand beside those of the problem, index by index. */
export interface Built {
  readonly job: Job;
  readonly works: readonly WorkTracks[];
  readonly problem: Problem;
  readonly tasks: readonly Task[];
  readonly holders: readonly Holder[];
  readonly lags: readonly TaskLag[];
  /** Bays of `problem.together`. */
  readonly groups: readonly BayTracks[];
  /** Closures that the plan may use, by opening. Spare ones are not among them. */
  readonly nights: readonly Night[];
  readonly calendar: Calendar;
  /** Opening of the first closure, seconds since 1970; undefined where no closure says when. */
  readonly zero: number | undefined;
  readonly timeZone: string | undefined;
  readonly shortcomings: readonly Shortcoming[];
}

/**
 * More activities than this are a slip of the pen, and no one would read their schedule: it is not searched for. Some 300
 * take a second to prove, 800 half a minute, and 1,100 minutes and gigabytes (bays of 5 m in the tender among the examples).
 */
export const mostActivities = 900;

/**
 * Builds the problem of a job. Total; the same job gives the same problem.
 *
 * @param keep keeps the calendar from one text to the next
 */
export function buildProblem(job: Job, works: readonly WorkTracks[], keep: Keep = nothingKept(job)): Built {
  const closures = new Map(works.map(({ plan }) => [plan, closuresOf(job, plan)] as const));
  const used = job.blocks.closures.filter(each => [...closures.values()].some(list => list.includes(each)));
  const calendar = keep('calendar', used, known => calendarOf(known, used));
  const nights = calendar.nights.filter(night => !night.spare);
  const zero = nights[0]?.start;
  const build = new Builder(job, works, nights, zero ?? 0);
  const number = works.flatMap(work => work.bays).reduce((sum, bay) => sum + bay.activities.length, 0);
  if (number > mostActivities) build.shortcomings.push({ kind: 'too many activities', number });
  else for (const work of works) build.work(work, closures.get(work.plan) ?? []);
  build.orderOfWorks();
  build.machines();
  build.crews();
  build.stands();
  return {
    job,
    works,
    problem: build.problem(),
    tasks: build.tasks,
    holders: build.holders,
    lags: build.taskLags,
    groups: build.groups,
    nights,
    calendar,
    zero,
    timeZone: nights[0]?.timeZone,
    shortcomings: build.shortcomings,
  };
}

/** The closures in which a work may be done: those it names, else all of its runway. */
export function closuresOf(job: Job, { work, runway }: Plan): readonly Closure[] {
  const named = work.closure?.value;
  if (named) return job.blocks.closures.filter(each => named.some(ref => ref.id === each.id));
  return job.blocks.closures.filter(each => each.on?.value.some(ref => ref.id === runway?.id));
}

/** How many machines of a block there are: what a fleet says, else one. */
export function numberOf(job: Job, machine: Machine): number {
  for (const fleet of job.blocks.fleets) {
    const row = fleet.available?.value.find(each => each.machine.split('.').at(-1) === machine.name);
    if (row) return row.number;
  }
  return 1;
}

/** Start and end of a night's windows, seconds from zero. */
export function windowOf(night: Night, zero: number): Window {
  return { start: night.from - zero, end: night.handBack - zero };
}

class Builder {
  readonly tasks: Task[] = [];
  readonly holders: Holder[] = [];
  readonly taskLags: TaskLag[] = [];
  readonly groups: BayTracks[] = [];
  readonly shortcomings: Shortcoming[] = [];
  private readonly job: Job;
  private readonly works: readonly WorkTracks[];
  private readonly nights: readonly Night[];
  private readonly zero: number;
  private readonly indexOf = new Map<string, number>();
  private readonly windows: (readonly Window[] | undefined)[] = [];
  private readonly lags: SolverLag[] = [];
  private readonly together: Together[] = [];
  private readonly resources: Resource[] = [];
  /** Trips to a stand as activities of their own, fixed to the activity they belong to. */
  private readonly visits: { readonly duration: number }[] = [];

  constructor(job: Job, works: readonly WorkTracks[], nights: readonly Night[], zero: number) {
    this.job = job;
    this.works = works;
    this.nights = nights;
    this.zero = zero;
  }

  problem(): Problem {
    const activities = this.tasks.map(({ id, duration }, i) => {
      const windows = this.windows[i];
      return { duration, tag: id, ...(windows && { windows }) };
    });
    const objective = this.tasks.flatMap(({ onRunway }, i) => (onRunway ? [i] : []));
    return {
      activities: [...activities, ...this.visits],
      lags: this.lags,
      resources: this.resources,
      together: this.together,
      objective,
    };
  }

  work(work: WorkTracks, closures: readonly Closure[]): void {
    if (closures.length === 0 && this.job.blocks.closures.length > 0) {
      this.shortcomings.push({ kind: 'no closure', plan: work.plan });
    }
    for (const tracks of work.bays) {
      const nights = this.nightsFor(closures, tracks);
      const first = this.tasks.length;
      for (const activity of tracks.activities) this.task(tracks, activity, closures.length > 0 ? nights : undefined);
      const members = this.tasks.slice(first).flatMap(({ onRunway }, i) => (onRunway ? [first + i] : []));
      if (closures.length > 0 && members.length > 0) {
        this.together.push({ activities: members, windows: nights.map(night => windowOf(night, this.zero)) });
        this.groups.push(tracks);
      }
      for (const lag of tracks.lags) this.lag(lag);
    }
    this.orderOfBays(work);
  }

  /** Nights in which a bay may be done. Of closures at the same time the longer one counts. */
  private nightsFor(closures: readonly Closure[], tracks: BayTracks): readonly Night[] {
    const list: Night[] = [];
    for (const night of this.nights) {
      if (!closures.includes(night.closure) || !covers(this.job, night.closure, tracks)) continue;
      const before = list.at(-1);
      if (!before || night.from >= before.handBack) list.push(night);
      else if (night.handBack - night.from > before.handBack - before.from) list[list.length - 1] = night;
    }
    return list;
  }

  private task(tracks: BayTracks, activity: Activity, nights: readonly Night[] | undefined): void {
    const onRunway = activity.does !== 'wash-down';
    const step = activity.id.split('/').slice(2).join('/');
    const task: Task = {
      id: activity.id,
      plan: tracks.plan,
      bay: tracks.bay.number,
      step,
      does: activity.does,
      activity,
      tracks,
      onRunway,
      duration: roundedUp(activity.end - activity.start),
    };
    this.indexOf.set(task.id, this.tasks.length);
    this.tasks.push(task);
    // A machine that has to be made ready can't be at work before that, in any closure.
    const ready = roundedUp(Math.max(0, ...activity.machines.map(({ machine }) => machine.setUp?.value ?? 0)));
    this.windows.push(
      nights && onRunway && ready > 0
        ? nights.flatMap(night => {
            const { start, end } = windowOf(night, this.zero);
            return end > start + ready ? [{ start: start + ready, end }] : [];
          })
        : undefined,
    );
  }

  private lag(lag: TaskLag): void {
    const from = this.indexOf.get(lag.from);
    const to = this.indexOf.get(lag.to);
    if (from === undefined || to === undefined) return;
    const least = lag.least === undefined ? undefined : roundedUp(lag.least);
    // Where both bounds are the same, rounding must not turn them round.
    const greatest =
      lag.greatest === undefined
        ? undefined
        : lag.least !== undefined && lag.greatest >= lag.least
          ? Math.max(roundedDown(lag.greatest), least!)
          : roundedDown(lag.greatest);
    this.lags.push({
      from,
      to,
      ...(least !== undefined && { least }),
      ...(greatest !== undefined && { greatest }),
      tag: lag.why,
    });
    this.taskLags.push({
      from: lag.from,
      to: lag.to,
      ...(least !== undefined && { least }),
      ...(greatest !== undefined && { greatest }),
      why: lag.why,
    });
  }

  /** No step of a bay starts before the same step of the bay before it. */
  private orderOfBays({ bays }: WorkTracks): void {
    for (let k = 1; k < bays.length; k++) {
      const before = new Map(bays[k - 1]!.activities.map(each => [stepOf(each.id), each.id]));
      for (const { id, does } of bays[k]!.activities) {
        const earlier = before.get(stepOf(id));
        if (earlier !== undefined && does !== 'wash-down') {
          this.lag({ from: earlier, to: id, least: 0, why: 'order of the bays' });
        }
      }
    }
  }

  /** A work that names others in `before` ends before they begin. */
  orderOfWorks(): void {
    for (const first of this.works) {
      for (const ref of first.plan.work.before?.value ?? []) {
        const next = this.works.find(each => each.plan.work.id === ref.id);
        const start = next?.bays[0]?.activities.find(each => each.does !== 'wash-down');
        if (!next || next === first || !start) continue;
        for (const bay of first.bays) {
          const last = bay.activities.findLast(each => each.does !== 'wash-down');
          if (last) this.lag({ from: last.id, to: start.id, least: last.end - last.start, why: 'order of the works' });
        }
      }
    }
  }

  machines(): void {
    const uses = new Map<
      string,
      { machine: Machine; uses: { task: number; demand: number; from?: Spot; to?: Spot }[] }
    >();
    this.tasks.forEach((task, i) => {
      const own = new Map<string, { machine: Machine; demand: number; from?: Spot; to?: Spot }>();
      for (const run of task.activity.machines) {
        const { machine } = run;
        const passes = run.run.passes;
        const known = own.get(machine.id);
        const [from, to] = [passes[0]?.from, passes.at(-1)?.to];
        own.set(machine.id, {
          machine,
          demand: (known?.demand ?? 0) + 1,
          ...(from && { from: this.onRunway(task, from) }),
          ...(to && { to: this.onRunway(task, to) }),
        });
        if (known && passes.length > 0 && bindsTwice(task, machine)) {
          if (
            !this.shortcomings.some(
              each =>
                each.kind === 'machine twice' &&
                each.task.plan === task.plan &&
                each.task.step === task.step &&
                each.machine === machine,
            )
          )
            this.shortcomings.push({ kind: 'machine twice', task, machine });
        }
      }
      for (const { machine, ...use } of own.values()) {
        const found = uses.get(machine.id) ?? { machine, uses: [] };
        uses.set(machine.id, found);
        found.uses.push({ task: i, ...use });
      }
    });
    for (const { machine, uses: list } of uses.values()) {
      const capacity = numberOf(this.job, machine);
      const worst = list.reduce((a, b) => (b.demand > a.demand ? b : a));
      if (worst.demand > capacity) {
        const task = this.tasks[worst.task]!;
        this.shortcomings.push({ kind: 'machine missing', task, machine, needs: worst.demand, has: capacity });
      }
      const speed = machine.travelSpeed?.value;
      const drives = capacity === 1 && speed !== undefined && speed > 0;
      this.resources.push({
        capacity,
        // A machine that is not there twice is taken whole: that it is asked for twice is a finding of its own.
        uses: list.map(({ task, demand }) => ({ activity: task, demand: Math.min(demand, capacity) })),
        ...(drives && {
          changeover: list.map(a =>
            list.map(b => (a.to && b.from ? roundedUp(Math.hypot(b.from.s - a.to.s, b.from.t - a.to.t) / speed) : 0)),
          ),
        }),
        tag: machine.name,
      });
      this.holders.push({ kind: 'machine', machine, capacity });
    }
  }

  /** A place in the frame of the runway's first end, so that zones at both ends can be compared. */
  private onRunway({ tracks, plan }: Task, { s, t }: Spot): Spot {
    const runway = plan.runway;
    if (!runway || !plan.end || plan.end === runway.ends[0]) return { s, t };
    const length = betweenThresholds(this.job, { kind: 'runway', id: runway.id, name: runway.name });
    return length === undefined ? { s: tracks.bay.s[0], t } : { s: length - s, t: -t };
  }

  crews(): void {
    for (const crew of this.job.blocks.crews) {
      const people = crew.people?.value;
      if (people === undefined) continue;
      const uses: Use[] = [];
      let short: { task: Task; needs: number } | undefined;
      this.tasks.forEach((task, i) => {
        if (task.plan.work.crew?.value.id !== crew.id || !task.onRunway) return;
        const needs = driversOf(task);
        if (needs === 0) return;
        if (needs > people && needs > (short?.needs ?? 0)) short = { task, needs };
        uses.push({ activity: i, demand: Math.min(needs, people) });
      });
      if (uses.length === 0) continue;
      if (short) this.shortcomings.push({ kind: 'crew too small', crew, has: people, ...short });
      this.resources.push({ capacity: people, uses, tag: crew.name });
      this.holders.push({ kind: 'crew', crew, capacity: people });
    }
  }

  /** Stands where more machines fill or empty than fit at a time: each visit takes a place there. */
  stands(): void {
    const airport = airportOf(this.job);
    if (!airport) return;
    const visits = this.tasks.flatMap((task, i) => visitsOf(task, airport).map(visit => ({ ...visit, task: i })));
    const byStand = Map.groupBy(visits, each => each.stand);
    for (const [stand, list] of byStand) {
      const places = stand.bays?.value ?? 1;
      const machines = new Set(list.map(each => each.machine));
      if (machines.size <= places || this.tasks.length + this.visits.length + list.length > mostActivities) continue;
      const uses = list.map(({ task, from, to }): Use => {
        const activity = this.tasks.length + this.visits.length;
        const offset = roundedDown(from);
        this.visits.push({ duration: Math.max(1, roundedUp(to) - offset) });
        this.lags.push({ from: task, to: activity, least: offset, greatest: offset, tag: 'trip to fill or empty' });
        return { activity };
      });
      this.resources.push({ capacity: places, uses, tag: stand.name });
      this.holders.push({ kind: 'stand', name: stand.name, capacity: places });
    }
  }
}

/** People that an activity keeps busy: the drivers of its machines, or one who inspects or cleans by hand. */
export function driversOf({ activity, does }: Pick<Task, 'activity' | 'does'>): number {
  if (activity.machines.length === 0) return does === 'inspect' || does === 'hand-clean' ? 1 : 0;
  return activity.machines.reduce((sum, { machine }) => sum + (machine.crew?.value ?? 1), 0);
}

/** The same machine bound both as leader and in the convoy, or listed twice. */
function bindsTwice({ activity }: Task, machine: Machine): boolean {
  const { machines, with: others } = activity.planned;
  return [...machines, ...others].filter(each => each.machine.id === machine.id).length > 1;
}

type Stand = Airport['waterPoints'][number] | Airport['emptyingPoints'][number] | Airport['productStores'][number];

interface Visit {
  readonly stand: Stand;
  readonly machine: string;
  /** Seconds from the start of the activity. */
  readonly from: number;
  readonly to: number;
}

/** When the machines of an activity stand at a water point, store or emptying point. */
function visitsOf({ activity, plan, does }: Task, airport: Airport): readonly Visit[] {
  const point = airport.waterPoints.find(each => each.name === plan.work.waterPoint?.value) ?? airport.waterPoints[0];
  const filling = does === 'apply' ? (airport.productStores[0] ?? point) : point;
  return activity.machines.flatMap(({ machine, name, run }) =>
    run.trips.flatMap((trip): readonly Visit[] => {
      const stand = trip.why === 'refill' ? filling : trip.why === 'empty' ? airport.emptyingPoints[0] : undefined;
      if (!stand) return [];
      const speed = Math.min(stand.speed?.value ?? Infinity, machine.travelSpeed?.value ?? Infinity);
      const way = (stand.distance?.value ?? 0) / speed;
      const [from, to] = [trip.start - activity.start + way, trip.end - activity.start - way];
      return to > from ? [{ stand, machine: name, from, to }] : [];
    }),
  );
}

/** Whether a closure covers a bay: all of the runway, or a part that holds the bay. */
function covers(job: Job, closure: Closure, tracks: BayTracks): boolean {
  const parts = closure.part?.value;
  const runway: Runway | undefined = tracks.plan.runway;
  if (!parts || parts.length === 0 || !runway) return true;
  const first = runway.ends[0];
  let [from, to] = tracks.bay.s;
  if (tracks.plan.end && tracks.plan.end !== first) {
    const length = betweenThresholds(job, { kind: 'runway', id: runway.id, name: runway.name });
    if (length === undefined) return true;
    [from, to] = [length - to, length - from];
  }
  return parts.some(part => Math.min(part.from, part.to) <= from + 1e-6 && Math.max(part.from, part.to) >= to - 1e-6);
}

function stepOf(id: string): string {
  return id.split('/').slice(2).join('/');
}

/** Up to whole seconds; a rounding of the last bit does not make a second. */
export function roundedUp(seconds: number): number {
  return Math.ceil(seconds - 1e-6);
}

function roundedDown(seconds: number): number {
  return Math.floor(seconds + 1e-6);
}
