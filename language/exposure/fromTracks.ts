/**
 * From a job to the exposure of every bay: bays laid out, the activities of each placed one after another as soon as the
 * limits of the method allow, and what each point of the pavement then went through.
 *
 * This is the job without a schedule: works and bays follow each other, steps too, and only the soak and the intervals of
 * the method make anyone wait. Every lag that was used is listed (start to start), for the scheduler places the same
 * activities with the same lags against machines and closures, and asks for the exposure again with {@link placedAt}.
 */
import type { Job, Plan } from '../job/job.ts';
import { type Keep, nothingKept } from '../job/memory.ts';
import type { Activity, Bay, EngineProblem, StepDoes } from '../tracks/fromPlan.ts';
import { activitiesOf, leastSoak, mixDepth } from '../tracks/fromPlan.ts';
import type { Run } from '../tracks/timing.ts';
import type { Does, Pass, Range, Track } from '../tracks/track.ts';
import { areaOf, extentOf, type Slab } from './deposit.ts';
import { type Exposure, type ExposureInput, exposure } from './exposure.ts';
import { slabsIn, type WorkGround, workGround } from './ground.ts';
import { greatestLag, type Limits, leastLag } from './lags.ts';

/** A bound on the starts of two activities, seconds, start to start. */
export interface Lag {
  readonly from: string;
  readonly to: string;
  readonly least?: number;
  readonly greatest?: number;
  readonly why: 'order of the steps' | 'dwell at every point' | 'longest residence' | 'kept wet';
}

/** A bay with its activities in time and what its points have to keep. */
export interface BayTracks {
  readonly plan: Plan;
  readonly bay: Bay;
  readonly slabs: readonly Slab[];
  readonly activities: readonly Activity[];
  readonly lags: readonly Lag[];
  readonly limits: Limits;
  /** What every point has to get. */
  readonly needs: readonly Does[];
  /** What each point went through. */
  readonly exposure: Exposure;
  readonly start: number;
  readonly end: number;
}

export interface WorkTracks {
  readonly plan: Plan;
  readonly ground: WorkGround | undefined;
  readonly bays: readonly BayTracks[];
  /** How the number of bays came about. */
  readonly by: 'count' | 'length' | 'auto';
  readonly problems: readonly EngineProblem[];
  readonly start: number;
  readonly end: number;
}

/** A bay and its exposure. */
export interface BayExposure {
  readonly tracks: BayTracks;
  readonly exposure: Exposure;
}

/** What can be changed from outside, to ask what would be if. */
export interface TrackOptions {
  /** Seconds at which the first movement of the work starts. */
  readonly start?: number;
  /** Number of bays in place of what the work says. */
  readonly bays?: number;
  /** Keeps parts of the tracks from one text to the next. */
  readonly keep?: Keep;
}

/** More bays than this in one work is a slip of the pen. */
export const mostBays = 500;

/** Most bays that `auto` tries. */
const mostAutoBays = 120;

/** The tracks of all works of a job, one work after another from 0. Total and deterministic. */
export function tracksOfJob(job: Job): readonly WorkTracks[] {
  return inSequence(job.plans.map(plan => tracksOf(plan, job)));
}

/** Works that each begin at 0, put one after another. */
export function inSequence(works: readonly WorkTracks[]): readonly WorkTracks[] {
  let start = 0;
  return works.map(work => {
    const by = start;
    start += work.end;
    if (by === 0) return work;
    const bays = work.bays.map(bay => placedAt(bay, new Map(bay.activities.map(each => [each.id, each.start + by]))));
    return { ...work, bays, start: by, end: start };
  });
}

/** The tracks of a work: its bays in order, each with its activities placed. */
export function tracksOf(plan: Plan, job: Job, options: TrackOptions = {}): WorkTracks {
  const { start = 0, keep = nothingKept(job) } = options;
  const ground = workGround(job, plan, keep);
  const { by, count, pitch } = divisionOf(plan, ground, options.bays);
  const none: WorkTracks = { plan, ground, bays: [], by, problems: [], start, end: start };
  if (!ground || plan.steps.length === 0) return none;
  if (count !== undefined && !(count <= mostBays)) {
    return { ...none, problems: [{ kind: 'too many bays', value: count, work: plan.work.name }] };
  }
  if (count !== undefined) return laidOut(plan, job, ground, count, pitch, start, by, keep);
  const fitting = fewestBays(plan, job, ground);
  const laid = laidOut(plan, job, ground, fitting ?? 1, undefined, start, 'auto', keep);
  if (fitting !== undefined) return laid;
  return { ...laid, problems: [...laid.problems, { kind: 'no bay fits', value: mostAutoBays, work: plan.work.name }] };
}

/** How a work says that its ground is divided: into so many bays, into bays of a length; without a number, as few as can be. */
function divisionOf(
  { work }: Plan,
  ground: WorkGround | undefined,
  bays?: number,
): { readonly by: WorkTracks['by']; readonly count?: number; readonly pitch?: number } {
  const said = work.bays?.value ?? { by: 'count' as const, count: 1 };
  if (bays !== undefined) return { by: 'count', count: bays };
  if (said.by === 'count') return { by: 'count', count: said.count };
  if (said.by === 'auto' || !ground) return { by: said.by };
  const length = ground.extent.s[1] - ground.extent.s[0];
  return { by: 'length', count: Math.ceil(length / said.length - 1e-9), pitch: said.length };
}

/** Whether something holds for every bay of a work; the first for which it does not is enough to know. */
export function everyBay(plan: Plan, job: Job, holds: (bay: BayTracks) => boolean): boolean {
  const ground = workGround(job, plan);
  const { count, pitch } = divisionOf(plan, ground);
  if (!ground || count === undefined || !(count <= mostBays) || plan.steps.length === 0)
    return tracksOf(plan, job).bays.every(holds);
  return eachBay(plan, job, ground, count, pitch, holds);
}

function eachBay(
  plan: Plan,
  job: Job,
  ground: WorkGround,
  count: number,
  pitch: number | undefined,
  holds: (bay: BayTracks) => boolean,
): boolean {
  const stretches = baysOf(ground, count, pitch, runsBackwards(plan));
  return stretches.every(({ bay, slabs }, i) =>
    holds(placeBay(job, plan, bay, slabs, { start: 0, last: i === stretches.length - 1 })),
  );
}

/**
 * The fewest equal bays whose points keep the longest residence, one less of which does not; undefined where not even the
 * shortest bays do.
 *
 * @param tooFew a number that is known not to do
 */
export function fewestBays(plan: Plan, job: Job, ground = workGround(job, plan), tooFew = 0): number | undefined {
  if (!ground || tooFew >= mostAutoBays) return undefined;
  const fits = (count: number): boolean =>
    eachBay(plan, job, ground, count, undefined, ({ limits, exposure: gone }) => {
      const most = limits.residence;
      return most === undefined || !gone.residence || gone.residence.greatest.seconds <= most * (1 + 1e-12);
    });
  // Shorter bays stand shorter, but for the odd refill: double until it fits, then halve between.
  let low = tooFew;
  let fitting = Math.min(mostAutoBays, Math.max(1, 2 * low));
  while (!fits(fitting)) {
    if (fitting >= mostAutoBays) return undefined;
    low = fitting;
    fitting = Math.min(mostAutoBays, fitting * 2);
  }
  while (fitting - low > 1) {
    const middle = Math.floor((low + fitting) / 2);
    if (fits(middle)) fitting = middle;
    else low = middle;
  }
  return fitting;
}

function laidOut(
  plan: Plan,
  job: Job,
  ground: WorkGround,
  count: number,
  pitch: number | undefined,
  start: number,
  by: WorkTracks['by'],
  keep: Keep,
): WorkTracks {
  const bays: BayTracks[] = [];
  let clock = start;
  const backwards = runsBackwards(plan);
  const stretches = keep('bays', [ground, count, pitch, backwards], () => baysOf(ground, count, pitch, backwards));
  stretches.forEach(({ bay, slabs }, i) => {
    const placed = placeBay(job, plan, bay, slabs, { start: clock, last: i === stretches.length - 1, keep });
    bays.push(placed);
    clock = placed.end;
  });
  const problems = bays.flatMap(each => each.activities.flatMap(activity => activity.problem ?? []));
  return { plan, ground, bays, by, problems: distinct(problems), start, end: clock };
}

function distinct(problems: readonly EngineProblem[]): readonly EngineProblem[] {
  return problems.filter(
    (each, i) => problems.findIndex(other => other.kind === each.kind && other.step?.id === each.step?.id) === i,
  );
}

/** Bays in the order of the work; stretches without deposits are left out. */
function baysOf(
  ground: WorkGround,
  count: number,
  pitch: number | undefined,
  backwards: boolean,
): readonly { readonly bay: Bay; readonly slabs: readonly Slab[] }[] {
  const [s0, s1] = ground.extent.s;
  const each = pitch ?? (s1 - s0) / count;
  const stretches = Array.from({ length: count }, (_, k): Range => {
    // The last one gets what is left; none ends a rounding before the deposit does.
    const from = backwards && pitch !== undefined ? Math.max(s0, s1 - (k + 1) * each) : s0 + k * each;
    const to = backwards && pitch !== undefined ? s1 - k * each : k === count - 1 ? s1 : s0 + (k + 1) * each;
    return [from, to];
  });
  const ordered = backwards && pitch === undefined ? stretches.toReversed() : stretches;
  return ordered
    .map(s => ({ s, slabs: slabsIn(ground, s) }))
    .filter(({ slabs }) => slabs.length > 0)
    .map(({ s, slabs }, i) => {
      const extent = extentOf(slabs)!;
      const classes = ground.deposits.filter(each => each.s[0] < s[1] && each.s[1] > s[0]).map(each => each.buildUp);
      return {
        bay: {
          number: i + 1,
          heading: backwards ? -1 : 1,
          s: extent.s,
          t: extent.t,
          area: areaOf(slabs),
          classes: [...new Set(classes)],
        },
        slabs,
      };
    });
}

/** Whether the bays are done from the far end towards the threshold. Downhill: the highest one first. */
function runsBackwards({ work, end }: Plan): boolean {
  const order = work.order?.value;
  return order === 'towards threshold' || (order === 'downhill' && (end?.slope?.value ?? 0) > 0);
}

// ── placing the activities of a bay ──────────────────────────────────────────────────────────────────────────────

interface Placing {
  readonly start: number;
  /** The last bay of its work: the plant is washed after it. */
  readonly last: boolean;
  /** Keeps what a step does in this bay. */
  readonly keep?: Keep;
  /** Lag from the start of the first apply step to the start of the first tool, in place of the least one. */
  readonly toolLag?: number;
}

const tools: readonly StepDoes[] = ['agitate', 'jet'];

/** One bay, its steps one after another as soon as soak and intervals allow. */
export function placeBay(job: Job, plan: Plan, bay: Bay, slabs: readonly Slab[], placing: Placing): BayTracks {
  const all = activitiesOf(job, plan, bay, placing.keep).filter(each => each.does !== 'wash-down' || placing.last);
  const limits = limitsOf(job, plan, bay);
  const placed: Activity[] = [];
  const lags: Lag[] = [];
  const firstTool = all.find(each => tools.includes(each.does));
  let before: Activity | undefined;

  for (const activity of all) {
    if (activity.does === 'keep-wet') continue;
    const interval = activity.planned.step.interval?.value;
    let start = before ? before.end + (interval?.least ?? 0) : placing.start;
    const soaks = activity === firstTool;
    const applied = soaks ? placed.filter(each => each.does === 'apply') : [];
    const first = applied[0];
    if (soaks && first) {
      // In the clock of the bay what applies is where it is, so the lag of the tool is its own start.
      const earliest = leastLag(slabs, applied.flatMap(tracksIn), tracksIn(activity), limits);
      // A wait that the method adds counts from the end of the soak.
      const least = earliest === undefined ? undefined : earliest - first.start + (interval?.least ?? 0);
      if (placing.toolLag !== undefined) start = first.start + placing.toolLag;
      else if (least !== undefined) start = Math.max(start, first.start + least);
      if (least !== undefined) lags.push({ from: first.id, to: activity.id, least, why: 'dwell at every point' });
    }
    if (before) {
      const wait = before.end - before.start;
      lags.push({
        from: before.id,
        to: activity.id,
        least: wait + (interval?.least ?? 0),
        // After a soak the interval counts from its end, which the dwell at every point already holds.
        ...(interval?.most !== undefined && !soaks && { greatest: wait + interval.most }),
        why: 'order of the steps',
      });
    }
    if (soaks && first) {
      for (const wet of keptWet(all, slabs, applied, start)) {
        placed.push(wet);
        lags.push({ from: first.id, to: wet.id, least: wet.start - first.start, why: 'kept wet' });
        lags.push({ from: wet.id, to: activity.id, least: wet.end - wet.start, why: 'kept wet' });
      }
    }
    const moved = shifted(activity, start);
    placed.push(moved);
    // Washing is done off the runway: nothing waits for it.
    if (activity.does !== 'wash-down') before = moved;
  }

  const needs = needsOf(all);
  const gone = exposureAt(slabs, placed, limits, needs);
  const first = placed.find(each => each.does === 'apply');
  const rinses = placed.filter(each => each.does === 'rinse');
  const most = limits.residence;
  if (first && most !== undefined && gone.residence) {
    // Starting one rinse later by so much as no point stands too long yet keeps the limit; of several the last one counts.
    for (const rinse of rinses) {
      const greatest =
        rinses.length === 1
          ? rinse.start - first.start + most - gone.residence.greatest.seconds
          : greatestLag(
              slabs,
              shiftedTracks(
                placed.filter(each => each.does === 'apply'),
                -first.start,
              ),
              shiftedTracks([rinse], -rinse.start),
              limits,
            );
      if (greatest !== undefined) lags.push({ from: first.id, to: rinse.id, greatest, why: 'longest residence' });
    }
  }
  return {
    plan,
    bay,
    slabs,
    activities: placed,
    lags,
    limits,
    needs,
    exposure: gone,
    start: placing.start,
    end: before?.end ?? placing.start,
  };
}

/** Keep-wet runs between spraying and the first tool: every so often, and done before the tool comes. */
function keptWet(
  all: readonly Activity[],
  slabs: readonly Slab[],
  applied: readonly Activity[],
  tool: number,
): readonly Activity[] {
  const first = applied[0]!;
  return all
    .filter(each => each.does === 'keep-wet')
    .flatMap(activity => {
      const every = activity.planned.step.every?.value;
      if (every === undefined || !(every > 0)) return [];
      const runs: Activity[] = [];
      // Not before the product: the first run keeps behind the sprayer at every point.
      let start = first.start + Math.max(every, behind(slabs, applied, first.start, activity));
      const length = activity.end - activity.start;
      while (start + length <= tool + 1e-9 && runs.length < 1000) {
        const id = runs.length === 0 ? activity.id : `${activity.id}/${runs.length + 1}`;
        runs.push({ ...shifted(activity, start), id });
        start += Math.max(every, length);
      }
      return runs;
    });
}

/** Least lag that brings water to no point before its product. */
function behind(slabs: readonly Slab[], applied: readonly Activity[], zero: number, wet: Activity): number {
  const asTool = tracksIn(wet).map(track => ({ ...track, does: 'contact' as const }));
  return (leastLag(slabs, applied.flatMap(tracksIn), asTool, { soak: 0 }) ?? zero) - zero;
}

function limitsOf(job: Job, plan: Plan, bay: Bay): Limits {
  const soak = leastSoak(plan, bay);
  const step = plan.steps.find(each => each.step.does?.value === 'soak')?.step;
  const residence = longestResidence(plan);
  const rate = plan.steps
    .filter(each => each.step.does?.value === 'apply')
    .reduce((sum, each) => sum + mixDepth(plan, each.step, bay, job).depth, 0);
  return {
    ...(soak !== undefined && { soak }),
    ...(residence !== undefined && { residence }),
    ...(rate > 0 && { rate }),
    ...(step?.dwellFrom?.value === 'end of bay' && { dwellFrom: 'end of bay' as const }),
  };
}

/** Longest time that product may stand, s: what the soak step or the product says, whichever is shorter. */
export function longestResidence(plan: Plan): number | undefined {
  const soak = plan.steps.find(({ step }) => step.does?.value === 'soak')?.step;
  const said = [soak?.atMost?.value, plan.product?.dwellMost?.value].filter(each => each !== undefined);
  return said.length > 0 ? Math.min(...said) : undefined;
}

const needOf: Partial<Record<StepDoes, Does>> = {
  sweep: 'sweep',
  'pre-wet': 'wet',
  apply: 'apply',
  agitate: 'contact',
  rinse: 'rinse',
  jet: 'jet',
  'pick-up': 'pickup',
};

function needsOf(activities: readonly Activity[]): readonly Does[] {
  return [...new Set(activities.flatMap(each => needOf[each.does] ?? []))];
}

// ── moving in time ───────────────────────────────────────────────────────────────────────────────────────────────

/** The tracks of an activity. */
export function tracksIn(activity: Activity): readonly Track[] {
  return activity.machines.flatMap(each => each.tracks);
}

function shiftedTracks(activities: readonly Activity[], by: number): readonly Track[] {
  return activities.flatMap(each => tracksIn(by === 0 ? each : shifted(each, by)));
}

/** The same activity, later by so many seconds. */
export function shifted(activity: Activity, by: number): Activity {
  if (by === 0) return activity;
  return {
    ...activity,
    start: activity.start + by,
    end: activity.end + by,
    machines: activity.machines.map(each => {
      const run = shiftedRun(each.run, by);
      return { ...each, run, tracks: each.tracks.map(track => ({ does: track.does, passes: run.passes })) };
    }),
  };
}

function shiftedRun(run: Run, by: number): Run {
  const later = <T extends { readonly start: number; readonly end: number }>(each: T): T => ({
    ...each,
    start: each.start + by,
    end: each.end + by,
  });
  return {
    ...run,
    passes: run.passes.map((pass): Pass => later(pass)),
    turns: run.turns.map(later),
    trips: run.trips.map(later),
    start: run.start + by,
    end: run.end + by,
  };
}

/**
 * The same bay with its activities at other starts, as a schedule has them.
 *
 * @param starts seconds by activity id; activities that are not named keep their place
 */
export function placedAt(tracks: BayTracks, starts: ReadonlyMap<string, number>): BayTracks {
  const activities = tracks.activities.map(each => shifted(each, (starts.get(each.id) ?? each.start) - each.start));
  const onRunway = activities.filter(each => each.does !== 'wash-down');
  return {
    ...tracks,
    activities,
    exposure: exposureAt(tracks.slabs, activities, tracks.limits, tracks.needs),
    start: Math.min(...activities.map(each => each.start)),
    end: Math.max(...onRunway.map(each => each.end)),
  };
}

// ── exposure ─────────────────────────────────────────────────────────────────────────────────────────────────────

/** A bay beside its exposure. */
export function exposureOf(tracks: BayTracks): BayExposure {
  return { tracks, exposure: tracks.exposure };
}

function exposureAt(
  slabs: readonly Slab[],
  activities: readonly Activity[],
  limits: Limits,
  needs: readonly Does[],
): Exposure {
  const input: ExposureInput = {
    area: slabs,
    tracks: activities.flatMap(tracksIn),
    needs,
    ...(limits.rate !== undefined && { rate: limits.rate }),
    ...(limits.dwellFrom && { dwellFrom: limits.dwellFrom }),
  };
  return exposure(input);
}

export function exposuresOf(works: readonly WorkTracks[]): readonly BayExposure[] {
  return works.flatMap(work => work.bays.map(exposureOf));
}
