/**
 * The schedule of a job: who does what when, in as few closures as there can be, and what is proved of it.
 *
 * Aims in order: the fewest closures, then the earliest end of the last one, then the earliest end of each of the others.
 * After that product is sprayed as late as nothing else is held up by it, so that no more of the runway is wet than has
 * to be. Budgets count conflicts of the search, not seconds: the same job has the same schedule, byte for byte, on every
 * machine, in one go or in slices.
 */
import equal from 'fast-deep-equal';
import { type BayTracks, placedAt, type WorkTracks } from '../exposure/fromTracks.ts';
import type { Job, Plan } from '../job/job.ts';
import { type Keeper, withoutMemory } from '../job/memory.ts';
import type { StepDoes } from '../tracks/fromPlan.ts';
import { type Built, buildProblem, type Shortcoming, type Task, type TaskLag, windowOf } from './build.ts';
import type { Calendar, Night } from './calendar.ts';
import { shortenWetting, unitsOf } from './finish.ts';
import { alikeNights, areEqual, nightProblem, withNights } from './nights.ts';
import { type Reason, reasonsOf } from './reasons.ts';
import { keepsAll } from './solver/keeps.ts';
import type { Answer, Cycle, Problem } from './solver/model.ts';
import { slack } from './solver/order.ts';
import { createSearch, DEFAULT_CONFLICTS } from './solver/solve.ts';

/** One activity in its place. Times are whole seconds from the opening of the first closure (or the first movement). */
export interface ScheduledActivity {
  /** `North/1/Spray`, as in the tracks. */
  readonly id: string;
  readonly work: string;
  readonly bay: number;
  readonly step: string;
  readonly does: StepDoes;
  /** `Broom1`, or `Tanker (2)` where several go by one name; no machine is in two places. */
  readonly machines: readonly string[];
  readonly start: number;
  readonly end: number;
  /** Index in `nights` of the schedule; undefined where no closure holds it. */
  readonly night: number | undefined;
  /** What keeps it from starting earlier. */
  readonly waits: readonly Reason[];
  /** Seconds it can be late, the others moving with it, before the last closure of the job ends later. */
  readonly slack: number;
  /** Seconds it can be late while everything else stays as planned. */
  readonly free: number;
}

/** A closure that the schedule uses. Times as in {@link ScheduledActivity}. */
export interface ScheduledNight {
  readonly night: Night;
  readonly start: number;
  readonly end: number;
  /** From when machines may work, and by when the runway has to be clear. */
  readonly from: number;
  readonly handBack: number;
  /** When the runway is clear and inspected by the plan. */
  readonly clear: number;
  /** Ids of what is done in it, by start; washing down may end after it. */
  readonly activities: readonly string[];
}

/** What is proved. Bounds of time in seconds as above. */
export interface Proof {
  readonly closures: number;
  /** The least number of closures that is not proved impossible. */
  readonly leastClosures: number;
  readonly provedLeast: boolean;
  readonly end: number;
  readonly provedEarliest: boolean;
  /** No schedule ends before this. */
  readonly bound: number;
  /** Conflicts of the search: the measure of work. */
  readonly conflicts: number;
}

/**
 * - `scheduled`: there is a schedule; `proof` says how good it is.
 * - `provisional`: there is a schedule, and the search goes on.
 * - `impossible`: proved that none exists; `why` names the limits that contradict each other where lags alone do.
 * - `open`: the budget ran out (or has not begun) before a schedule was found or excluded, or the job is too large to try.
 * - `nothing`: there is nothing to schedule, no closure in which to do it, or a number is missing that it takes.
 */
export type ScheduleState = 'scheduled' | 'provisional' | 'impossible' | 'open' | 'nothing';

export interface Schedule {
  readonly state: ScheduleState;
  /** By start, then in the order of the job. Empty unless `scheduled` or `provisional`. */
  readonly activities: readonly ScheduledActivity[];
  readonly nights: readonly ScheduledNight[];
  readonly lags: readonly TaskLag[];
  readonly proof: Proof | undefined;
  /** Opening of the first closure in use, seconds since 1970; undefined for a job without closures. */
  readonly zero: number | undefined;
  readonly timeZone: string | undefined;
  readonly calendar: Calendar;
  readonly shortcomings: readonly Shortcoming[];
  /** Lags that ask an activity to start after itself: the whole reason why a job is impossible. */
  readonly cycle: Cycle | undefined;
  /** The problem that was solved and the starts in it, for whoever asks further (recall, odds, levers). */
  readonly built: Built;
  readonly starts: readonly number[] | undefined;
}

export interface ScheduleOptions {
  /** Conflicts the search may meet before it settles for what it has. */
  readonly conflicts?: number;
}

/** Work on a schedule that can be interrupted. */
export interface Scheduling {
  readonly done: boolean;
  /** Whether its search is the one of another scheduling, begun for an earlier text. */
  goesOnFrom(other: Scheduling | undefined): boolean;
  /** Works on for about this many conflicts. Returns `done`. */
  step(conflicts: number): boolean;
  /** What is known so far. */
  schedule(): Schedule;
}

/** Starts on the schedule of a job. Nothing is searched until `step` is called. Never throws on any job. */
export function createScheduling(job: Job, works: readonly WorkTracks[], options: ScheduleOptions = {}): Scheduling {
  return schedulingOf(buildProblem(job, works), undefined, options);
}

/**
 * Starts on the schedule of a problem.
 * @param before scheduling of an earlier text: where the problem is the same, its search goes on instead of a new one
 */
export function schedulingOf(built: Built, before?: Scheduling, options: ScheduleOptions = {}): Scheduling {
  const known = before as InProgress | undefined;
  return new InProgress(built, known && isSameSearch(known.built, built) ? known.run : startOf(built, options));
}

/** A search and what it has found; the same for all texts that ask for the same schedule. */
interface Run {
  readonly found: Found;
  readonly phases: Phase | undefined;
  /** The first call only runs up to the first pause. */
  begun: boolean;
  done: boolean;
}

function startOf(built: Built, options: ScheduleOptions): Run {
  const found: Found = { conflicts: 0, searched: false };
  const phases = isWorthwhile(built) ? search(built, found, options.conflicts ?? DEFAULT_CONFLICTS) : undefined;
  return { found, phases, begun: false, done: phases === undefined };
}

class InProgress implements Scheduling {
  readonly built: Built;
  readonly run: Run;
  private last: { readonly at: string; readonly schedule: Schedule } | undefined;

  constructor(built: Built, run: Run) {
    this.built = built;
    this.run = run;
  }

  goesOnFrom(other: Scheduling | undefined): boolean {
    return this.run === (other as InProgress | undefined)?.run;
  }

  get done(): boolean {
    return this.run.done;
  }

  step(conflicts: number): boolean {
    const { run } = this;
    if (!run.done && run.phases) {
      if (!run.begun) run.done = run.phases.next(0).done === true;
      run.begun = true;
      if (!run.done) run.done = run.phases.next(Math.max(1, conflicts)).done === true;
    }
    return run.done;
  }

  schedule(): Schedule {
    const { found, done } = this.run;
    const at = `${done} ${found.conflicts} ${found.starts?.join()}`;
    if (this.last?.at !== at) this.last = { at, schedule: scheduleOf(this.built, found, done) };
    return this.last.schedule;
  }
}

/** Whether the search for both has the same answer: all that it reads is the same, whatever the texts say besides. */
function isSameSearch(a: Built, b: Built): boolean {
  return (
    a.zero === b.zero &&
    a.tasks.length === b.tasks.length &&
    a.tasks.every((task, i) => isSameTask(task, b.tasks[i]!)) &&
    isWorthwhile(a) === isWorthwhile(b) &&
    equal(a.nights.map(searched), b.nights.map(searched)) &&
    equal(a.problem, b.problem)
  );
}

function isSameTask(a: Task, b: Task): boolean {
  const closures = ({ plan }: Task) => plan.work.closure?.value.map(each => each.id).join('\n');
  return (
    a.id === b.id &&
    a.bay === b.bay &&
    a.step === b.step &&
    a.does === b.does &&
    a.onRunway === b.onRunway &&
    a.duration === b.duration &&
    a.plan.runway?.id === b.plan.runway?.id &&
    closures(a) === closures(b)
  );
}

function searched({ closure, ...night }: Night) {
  return { ...night, closure: closure.id, on: closure.on?.value.map(each => each.id) };
}

/** The schedule of a job, to proof or to the end of the budget. */
export function scheduleToEnd(job: Job, works: readonly WorkTracks[], options: ScheduleOptions = {}): Schedule {
  const scheduling = createScheduling(job, works, options);
  while (!scheduling.step(1_000_000)) {
    // Each step goes on where the last one stopped.
  }
  return scheduling.schedule();
}

/** The tracks with every activity where the schedule has it; undefined where there is no schedule. */
export function placedTracks(
  schedule: Schedule,
  { keep }: Pick<Keeper, 'keep'> = withoutMemory(schedule.built.job),
): readonly WorkTracks[] | undefined {
  const { starts, built } = schedule;
  if (!starts) return undefined;
  const at = new Map(built.tasks.map((task, i) => [task.id, starts[i]!] as const));
  const machines = new Map(schedule.activities.map(each => [each.id, each.machines] as const));
  return built.works.map((work, i) => {
    if (work.bays.length === 0) return work;
    const ids = work.bays.flatMap(bay => bay.activities.map(each => each.id));
    const inputs = [work, ...ids.flatMap(id => [at.get(id), machines.get(id)?.join('\n')])];
    return keep(`placed ${i} ${work.plan.work.id}`, inputs, () => {
      const bays = work.bays.map(bay => named(placedAt(bay, at), machines));
      return {
        ...work,
        bays,
        start: Math.min(...bays.map(each => each.start)),
        end: Math.max(...bays.map(each => each.end)),
      };
    });
  });
}

/** Machines under the names the schedule gives them. */
function named(bay: BayTracks, machines: ReadonlyMap<string, readonly string[]>): BayTracks {
  const activities = bay.activities.map(activity => {
    const names = machines.get(activity.id);
    return {
      ...activity,
      machines: activity.machines.map((each, k) => ({ ...each, name: names?.[k] ?? each.name })),
    };
  });
  return { ...bay, activities };
}

// ── searching ────────────────────────────────────────────────────────────────────────────────────────────────────

interface Found {
  conflicts: number;
  searched: boolean;
  starts?: readonly number[];
  /** Proved: no schedule ends earlier. */
  bound?: number;
  earliest?: boolean;
  impossible?: boolean;
  /** Numbers of the text are missing or no numbers, so that there is nothing to search. */
  invalid?: boolean;
  cycle?: Cycle;
  /** Least number of closures not excluded, where more is known than the bound of the end says. */
  leastClosures?: number;
}

function isWorthwhile({ tasks, nights, job }: Built): boolean {
  if (tasks.length === 0) return false;
  return nights.length > 0 || job.blocks.closures.length === 0;
}

function isTooLarge({ shortcomings }: Built): boolean {
  return shortcomings.some(each => each.kind === 'too many activities');
}

/** A slice of work: how many conflicts until the next pause. */
type Phase = Generator<void, void, number>;

function* search(built: Built, found: Found, budget: number): Phase {
  const left = (): number => Math.max(0, budget - found.conflicts);
  const whole = yield* solved(built.problem, {}, left(), found, answer => {
    if (answer.starts) found.starts = answer.starts;
    found.bound = answer.bound;
    found.earliest = answer.status === 'optimal';
  });
  found.searched = true;
  found.impossible = whole.status === 'infeasible';
  found.invalid = whole.status === 'invalid';
  if (whole.cycle) found.cycle = whole.cycle;
  if (!found.starts) return;
  if (built.nights.length > 0) {
    yield* fewerClosures(built, found, left);
    yield* endEachEarly(built, found, left);
  }
  found.starts = shortenWetting(built, found.starts);
}

/** Runs one search in slices; `note` hears of everything it finds. */
function* solved(
  problem: Problem,
  options: { readonly hint?: readonly number[]; readonly firstOnly?: boolean; readonly upperBound?: number },
  budget: number,
  found: Found,
  note: (answer: Answer) => void,
): Generator<void, Answer, number> {
  const solving = createSearch(problem, { ...options, conflicts: budget });
  const before = found.conflicts;
  let slice = yield;
  while (!solving.step(slice)) {
    const answer = solving.answer();
    found.conflicts = before + answer.conflicts;
    note(answer);
    slice = yield;
  }
  const answer = solving.answer();
  found.conflicts = before + answer.conflicts;
  note(answer);
  return answer;
}

/**
 * The least end is in the earliest last closure that can be, which is the fewest closures where all are equally long.
 * Where they are not, fewer long ones may do what more short ones do.
 */
function* fewerClosures(built: Built, found: Found, left: () => number): Phase {
  const used = usedNights(built, found.starts!);
  if (used.length < 2) return;
  // An easier problem: one closure less, all as long as the longest. If not even that is possible, the number is the least.
  const relaxed = alikeNights(built, used.length - 1);
  if (!relaxed) return;
  if (areEqual(built)) {
    if (found.earliest) found.leastClosures = used.length;
    return;
  }
  const bound = yield* solved(relaxed.problem, {}, Math.min(left(), 4000), found, () => {});
  if (bound.status === 'infeasible') {
    found.leastClosures = used.length;
    return;
  }
  const longest = built.nights
    .map((night, i) => ({ i, length: night.handBack - night.from }))
    .toSorted((a, b) => b.length - a.length || a.i - b.i)
    .slice(0, used.length - 1)
    .map(each => each.i);
  const fewer = yield* solved(withNights(built, longest), {}, Math.min(left(), 4000), found, () => {});
  if (!fewer.starts) return;
  found.starts = fewer.starts;
  found.bound = 0;
  found.earliest = false;
  yield* fewerClosures(built, found, left);
}

/** What is done in each closure, done as early as it can be. The last one is as early as it can be already. */
function* endEachEarly(built: Built, found: Found, left: () => number): Phase {
  const used = usedNights(built, found.starts!);
  for (const night of used.slice(0, -1)) {
    const part = nightProblem(built, found.starts!, night);
    if (!part) continue;
    const answer = yield* solved(part.problem, { hint: part.starts }, Math.min(left(), 1000), found, () => {});
    if (!answer.starts) continue;
    const starts = [...found.starts!];
    part.members.forEach((i, k) => {
      starts[i] = answer.starts![k]!;
    });
    if (keepsAll(built.problem, starts)) found.starts = starts;
  }
}

/** Indices of the nights in which anything is done on the runway, in order. */
function usedNights(built: Built, starts: readonly number[]): readonly number[] {
  const { nights, tasks, zero } = built;
  return nights.flatMap((night, i) => {
    const { start, end } = windowOf(night, zero!);
    return tasks.some((task, k) => task.onRunway && inNight(built, k, night) && starts[k]! >= start && starts[k]! < end)
      ? [i]
      : [];
  });
}

function inNight(built: Built, task: number, night: Night): boolean {
  const { plan } = built.tasks[task]!;
  const named = plan.work.closure?.value;
  return named ? named.some(ref => ref.id === night.closure.id) : isOn(plan, night);
}

function isOn({ runway }: Plan, { closure }: Night): boolean {
  return closure.on?.value.some(ref => ref.id === runway?.id) ?? false;
}

// ── the result ───────────────────────────────────────────────────────────────────────────────────────────────────

function scheduleOf(built: Built, found: Found, done: boolean): Schedule {
  const { tasks, problem, nights, zero } = built;
  const { starts } = found;
  const base = {
    lags: built.lags,
    zero,
    timeZone: built.timeZone,
    calendar: built.calendar,
    shortcomings: built.shortcomings,
    built,
    cycle: found.cycle,
  };
  if (!starts) {
    const state: ScheduleState = found.impossible
      ? 'impossible'
      : !found.invalid && (isWorthwhile(built) || isTooLarge(built))
        ? 'open'
        : 'nothing';
    return { ...base, state, activities: [], nights: [], proof: undefined, starts: undefined };
  }
  const used = usedNights(built, starts);
  const ends = (i: number): number => starts[i]! + tasks[i]!.duration;
  const lastBefore = (start: number): number =>
    Math.max(
      0,
      used.findLastIndex(k => windowOf(nights[k]!, zero!).start <= start),
    );
  const nightOf = tasks.map((task, i): number | undefined => {
    // What need not be on the runway goes with the closure in or after which it is done.
    if (!task.onRunway) return used.length === 0 ? undefined : lastBefore(starts[i]!);
    const at = used.findIndex(k => {
      const { start, end } = windowOf(nights[k]!, zero!);
      return starts[i]! >= start && ends(i) <= end && inNight(built, i, nights[k]!);
    });
    return at < 0 ? undefined : at;
  });
  const units = unitsOf(built, starts);
  const slacks = slack(problem, starts);
  const reasons = reasonsOf(built, starts);
  const order = tasks.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  const activities = order.map((i): ScheduledActivity => {
    const { id, plan, bay, step, does } = tasks[i]!;
    return {
      id,
      work: plan.work.name,
      bay,
      step,
      does,
      machines: units[i]!,
      start: starts[i]!,
      end: ends(i),
      night: nightOf[i],
      waits: reasons[i]!,
      slack: slacks[i]!.total,
      free: slacks[i]!.free,
    };
  });
  const scheduledNights = used.map((k, at): ScheduledNight => {
    const night = nights[k]!;
    const { start, end } = windowOf(night, zero!);
    const own = order.filter(i => nightOf[i] === at);
    return {
      night,
      start: night.start - zero!,
      end: night.end - zero!,
      from: start,
      handBack: end,
      clear: Math.max(...own.filter(i => tasks[i]!.onRunway).map(ends)),
      activities: own.map(i => tasks[i]!.id),
    };
  });
  return {
    ...base,
    state: done ? 'scheduled' : 'provisional',
    activities,
    nights: scheduledNights,
    proof: proofOf(built, found, scheduledNights.length),
    starts,
  };
}

function proofOf(built: Built, found: Found, closures: number): Proof {
  const { tasks, nights, zero } = built;
  const end = Math.max(...tasks.flatMap((task, i) => (task.onRunway ? [found.starts![i]! + task.duration] : [])));
  const bound = found.earliest ? end : Math.min(end, found.bound ?? 0);
  // Where all closures are equally long, an end in the k-th takes k of them.
  const byBound = areEqual(built) ? nights.findIndex(night => windowOf(night, zero!).end >= bound) + 1 : 1;
  const leastClosures = nights.length === 0 ? 0 : Math.min(closures, Math.max(found.leastClosures ?? 1, byBound, 1));
  return {
    closures,
    leastClosures,
    provedLeast: leastClosures === closures,
    end,
    provedEarliest: bound === end,
    bound,
    conflicts: found.conflicts,
  };
}
