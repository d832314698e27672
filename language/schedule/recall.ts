/**
 * Recall: if the runway is called back now, how long until it is clear?
 *
 * Everything stops at once. What is wet is rinsed, bay by bay in the order in which it was sprayed, by the machines that
 * rinse it; each bay is then picked up and inspected; at last everybody leaves. A bay that is sprayed only in part counts
 * as a whole one, and a rinse or pick-up under way has its remainder still to do. Common practice, no source; the operator
 * decides what is enough.
 */
import { tracksOf } from '../exposure/fromTracks.ts';
import type { Job, Plan, PlannedStep } from '../job/job.ts';
import { airportOf } from '../tracks/fromPlan.ts';
import { type Built, buildProblem, type Task, windowOf } from './build.ts';
import { nightProblem, type Part, partOf } from './nights.ts';
import type { Schedule } from './schedule.ts';
import { latestInOrder } from './solver/order.ts';
import { solveToEnd } from './solver/solve.ts';

/** Time that a recall takes, at a moment. Seconds as in the schedule. */
export interface RecallAt {
  readonly at: number;
  readonly seconds: number;
}

/** Of one closure. */
export interface NightRecall {
  /** Index in the schedule's `nights`. */
  readonly night: number;
  /** Minute by minute from when machines may work until the runway is clear, and wherever an activity starts. */
  readonly course: readonly RecallAt[];
  readonly peak: RecallAt;
  /** The limit of the closure, where it gives one. */
  readonly limit: number | undefined;
  /** Stretches in which a recall takes longer than the limit. */
  readonly over: readonly { readonly from: number; readonly to: number }[];
}

/** The latest start of spraying from which a bay, and all that were begun before it, can be finished by the hand-back. */
export interface LastSafeStart {
  readonly activity: string;
  readonly work: string;
  readonly bay: number;
  readonly night: number;
  readonly planned: number;
  /** Undefined where the bay can't be finished in its closure at all. */
  readonly latest: number | undefined;
}

export interface Recall {
  readonly nights: readonly NightRecall[];
  /** The greatest of all closures. */
  readonly peak: (RecallAt & { readonly night: number }) | undefined;
  readonly lastSafe: readonly LastSafeStart[];
  /** Seconds from the last inspection until everybody has left. */
  readonly clearing: number;
}

/** The recall of a schedule; no nights where there is no schedule or no closure. */
export function recallOf(schedule: Schedule): Recall {
  const { built, starts, nights } = schedule;
  const clearing = clearingOf(built);
  if (!starts) return { nights: [], peak: undefined, lastSafe: [], clearing };
  const recalls = nights.map((night, k): NightRecall => {
    const ids = new Set(night.activities);
    const tasks = built.tasks.flatMap((task, i) =>
      task.onRunway && ids.has(task.id) ? [{ task, start: starts[i]! }] : [],
    );
    const bays = baysOf(tasks);
    const moments = new Set(tasks.map(({ start }) => start));
    for (let at = night.from; at < night.clear; at += 60) moments.add(at);
    moments.add(night.clear);
    const course = [...moments].sort((a, b) => a - b).map(at => ({ at, seconds: recallAt(bays, at, clearing) }));
    const limit = night.night.closure.recall?.value;
    return {
      night: k,
      course,
      peak: course.reduce((a, b) => (b.seconds > a.seconds ? b : a), { at: night.from, seconds: 0 }),
      limit,
      over: limit === undefined ? [] : stretchesOver(course, limit),
    };
  });
  const peak = recalls.reduce<Recall['peak']>(
    (a, b) => (a && a.seconds >= b.peak.seconds ? a : { ...b.peak, night: b.night }),
    undefined,
  );
  return { nights: recalls, peak, lastSafe: lastSafeStarts(schedule), clearing };
}

/** A bay in a closure, with what a recall would still have to do in it. */
interface BayState {
  readonly starts: number;
  readonly ends: number;
  /** When product is first put on, and when anything is done that has to be picked up. */
  readonly wetFrom: number;
  readonly touchedFrom: number;
  readonly rinses: readonly Chore[];
  readonly pickUps: readonly Chore[];
  readonly inspections: readonly Chore[];
}

interface Chore {
  readonly start: number;
  readonly duration: number;
  /** Machines, or people who work by hand. */
  readonly who: readonly string[];
}

/** The bays of some tasks, in the order in which they are sprayed or begun. */
function baysOf(tasks: readonly { readonly task: Task; readonly start: number }[]): readonly BayState[] {
  const bays = [...Map.groupBy(tasks, ({ task }) => task.tracks).values()].map((bay): BayState & { order: number } => {
    const chores = (...does: readonly Task['does'][]): readonly Chore[] =>
      bay
        .filter(({ task }) => does.includes(task.does))
        .map(({ task, start }) => ({
          start,
          duration: task.duration,
          who: task.activity.machines.length > 0 ? task.activity.machines.map(each => each.name) : [task.does],
        }));
    const first = (list: typeof bay): number => Math.min(Infinity, ...list.map(each => each.start));
    const wetFrom = first(bay.filter(({ task }) => task.does === 'apply'));
    const starts = first(bay);
    // What takes the product off again: the rinses of the method, else its jets.
    const rinses = chores('rinse');
    return {
      starts,
      ends: Math.max(...bay.map(({ task, start }) => start + task.duration)),
      wetFrom,
      touchedFrom: first(bay.filter(({ task }) => task.activity.machines.length > 0 && task.does !== 'sweep')),
      rinses: rinses.length > 0 ? rinses : chores('jet'),
      pickUps: chores('pick-up'),
      inspections: chores('inspect'),
      order: Number.isFinite(wetFrom) ? wetFrom : starts,
    };
  });
  return bays.toSorted((a, b) => a.order - b.order);
}

/** Seconds from a moment until the runway is clear, if everything stops then. */
function recallAt(bays: readonly BayState[], at: number, clearing: number): number {
  const freeAt = new Map<string, number>();
  let clear = 0;
  for (const bay of bays) {
    if (bay.starts > at || bay.ends <= at) continue;
    let ready = 0;
    if (bay.wetFrom <= at) ready = doNext(bay.rinses, at, ready, freeAt);
    if (bay.touchedFrom <= at) ready = doNext(bay.pickUps, at, ready, freeAt);
    clear = Math.max(clear, doNext(bay.inspections, at, ready, freeAt));
  }
  return clear > 0 ? clear + clearing : 0;
}

/** Does what is left of some chores one after another, as their machines come free. Seconds from the recall. */
function doNext(chores: readonly Chore[], at: number, ready: number, freeAt: Map<string, number>): number {
  let done = ready;
  for (const { start, duration, who } of chores) {
    const left = start > at ? duration : Math.max(0, start + duration - at);
    if (left === 0) continue;
    let begin = done;
    for (const name of who) begin = Math.max(begin, freeAt.get(name) ?? 0);
    done = begin + left;
    for (const name of who) freeAt.set(name, done);
  }
  return done;
}

function stretchesOver(course: readonly RecallAt[], limit: number): readonly { from: number; to: number }[] {
  const over: { from: number; to: number }[] = [];
  course.forEach(({ at, seconds }, k) => {
    if (seconds <= limit) return;
    const to = course[k + 1]?.at ?? at;
    const last = over.at(-1);
    if (last && last.to === at) over[over.length - 1] = { from: last.from, to };
    else over.push({ from: at, to });
  });
  return over;
}

/** Driving off: to the nearest stand of the airport, at the slowest travel speed of the plant. 0 where none is known. */
function clearingOf({ job, tasks }: Built): number {
  const airport = airportOf(job);
  const stands = airport
    ? [...airport.waterPoints, ...airport.emptyingPoints, ...airport.washPads, ...airport.productStores]
    : [];
  const ways = stands.flatMap(each => (each.distance ? [each.distance.value] : []));
  const speeds = tasks.flatMap(task =>
    task.activity.machines.flatMap(({ machine }) => (machine.travelSpeed ? [machine.travelSpeed.value] : [])),
  );
  return ways.length > 0 && speeds.length > 0 ? Math.ceil(Math.min(...ways) / Math.min(...speeds)) : 0;
}

// ── the last safe start of spraying ──────────────────────────────────────────────────────────────────────────────

function lastSafeStarts({ built, starts, nights, activities }: Schedule): readonly LastSafeStart[] {
  const applied = built.tasks.flatMap((task, i) => (task.does === 'apply' ? [{ task, at: starts![i]! }] : []));
  return nights.flatMap((each, night) => {
    const whole = nightProblem(built, starts!, built.nights.indexOf(each.night));
    if (!whole) return [];
    const sprays = activities.filter(({ does, night: own }) => does === 'apply' && own === night);
    const bays = tracksOfMembers(built, whole);
    return sprays.map(({ id, work, bay, start }): LastSafeStart => {
      // The bays of which spraying begins no later, without those that come after.
      const later = new Set(applied.flatMap(({ task, at }) => (at > start ? [task.tracks] : [])));
      const members = bays.flatMap((tracks, k) => (later.has(tracks) ? [] : [k]));
      const window = { start: each.from, end: each.handBack };
      const part = partOf(whole.problem, whole.starts, members, window);
      const latest = latestInOrder(part.problem, part.starts, each.handBack);
      const own = members.findIndex(k => built.tasks[whole.members[k]!]?.id === id);
      return { activity: id, work, bay, night, planned: start, latest: latest[own] };
    });
  });
}

/** The bay of each member of a part; a visit to a stand belongs to the bay whose machine drives there. */
function tracksOfMembers({ tasks, problem }: Built, { members }: Part): readonly Task['tracks'][] {
  const visitors = new Map(problem.lags.filter(({ to }) => to >= tasks.length).map(({ from, to }) => [to, from]));
  return members.map(i => (tasks[i] ?? tasks[visitors.get(i)!]!).tracks);
}

/** What a lost broom would do to a schedule. */
export interface BroomLost {
  /** The machine that is taken away, one of it. */
  readonly broom: string;
  readonly lastSafe: readonly LastSafeStart[];
  /** Closures (indices) whose bays can't all be finished by the hand-back without it. */
  readonly nightsLost: readonly number[];
  readonly peak: (RecallAt & { readonly night: number }) | undefined;
}

/**
 * The same with one broom lost: the bays stay in their closures, the brooms that are left take longer. Undefined where no
 * step has a broom to lose.
 */
export function withBroomLost(job: Job, schedule: Schedule, conflicts = 300): BroomLost | undefined {
  const { built, starts, nights } = schedule;
  if (!starts) return undefined;
  let broom: string | undefined;
  const plans = new Map<Plan, Plan>();
  for (const plan of job.plans) {
    const fewer = plan.steps.map(planned => withoutOne(planned));
    broom ??= fewer.find(each => each.lost)?.lost;
    plans.set(plan, { ...plan, steps: fewer.map(each => each.planned) });
  }
  if (broom === undefined) return undefined;
  const works = built.works.map(work =>
    tracksOf(plans.get(work.plan) ?? work.plan, job, { start: work.start, bays: work.bays.length }),
  );
  const reduced = buildProblem({ ...job, plans: job.plans.map(plan => plans.get(plan) ?? plan) }, works);
  if (reduced.tasks.some((task, i) => task.id !== built.tasks[i]?.id)) return undefined;
  const moved = [...starts.slice(0, reduced.tasks.length)];
  const nightsLost: number[] = [];
  const lastSafe: LastSafeStart[] = [];
  nights.forEach((each, night) => {
    const window = windowOf(each.night, built.zero!);
    const members = reduced.tasks.flatMap((task, i) =>
      task.onRunway && starts[i]! >= window.start && starts[i]! < window.end ? [i] : [],
    );
    const sprays = members
      .filter(i => reduced.tasks[i]!.does === 'apply')
      .toSorted((a, b) => starts[a]! - starts[b]! || a - b);
    for (const [k, spray] of sprays.entries()) {
      const later = new Set(sprays.slice(k + 1).map(i => reduced.tasks[i]!.tracks));
      const own = partOf(
        reduced.problem,
        starts,
        members.filter(i => !later.has(reduced.tasks[i]!.tracks)),
        window,
      );
      const answer = solveToEnd(own.problem, { conflicts });
      const at = own.members.indexOf(spray);
      const { id, plan, bay } = reduced.tasks[spray]!;
      const latest = answer.starts && latestInOrder(own.problem, answer.starts, window.end)[at];
      lastSafe.push({ activity: id, work: plan.work.name, bay, night, planned: starts[spray]!, latest });
      if (k < sprays.length - 1) continue;
      if (!answer.starts) nightsLost.push(night);
      else
        own.members.forEach((i, m) => {
          moved[i] = answer.starts![m]!;
        });
    }
  });
  const peak = peakOf(schedule, reduced, moved);
  return { broom, lastSafe, nightsLost, peak };
}

function peakOf(schedule: Schedule, reduced: Built, starts: readonly number[]): BroomLost['peak'] {
  const clearing = clearingOf(reduced);
  let peak: BroomLost['peak'];
  schedule.nights.forEach((each, night) => {
    const ids = new Set(each.activities);
    const tasks = reduced.tasks.flatMap((task, i) =>
      task.onRunway && ids.has(task.id) ? [{ task, start: starts[i]! }] : [],
    );
    const bays = baysOf(tasks);
    for (let at = each.from; at < each.handBack; at += 60) {
      const seconds = recallAt(bays, at, clearing);
      if (!peak || seconds > peak.seconds) peak = { at, seconds, night };
    }
  });
  return peak;
}

/** A step with one broom fewer, where it has more than one. */
function withoutOne(planned: PlannedStep): { readonly planned: PlannedStep; readonly lost?: string } {
  const brooms = [...planned.machines, ...planned.with].filter(({ machine }) => machine.kind === 'broom');
  if (brooms.reduce((sum, each) => sum + each.count, 0) < 2) return { planned };
  const gone = brooms.at(-1)!;
  const less = (list: PlannedStep['machines']) =>
    list.flatMap(each => (each !== gone ? [each] : each.count > 1 ? [{ ...each, count: each.count - 1 }] : []));
  return {
    planned: { ...planned, machines: less(planned.machines), with: less(planned.with) },
    lost: gone.machine.name,
  };
}
