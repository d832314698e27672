/**
 * The odds of handing back on time: the schedule played many times with durations drawn between their tolerances.
 *
 * Where the text gives a speed or a time with a tolerance (`11.3 km/h ± 10 %`), the duration of every activity is drawn
 * from a triangular distribution from its shortest to its longest, with the planned one as the mode. The order of the
 * schedule is kept on every machine. Spraying keeps to its planned time, and nothing else begins before it: a crew
 * that is early waits, one that is late pushes what comes after. The generator is seeded: the same job has the same odds.
 */

import type { Plan, PlannedStep, Step } from '../job/job.ts';
import { type Activity, activitiesOf } from '../tracks/fromPlan.ts';
import type { Given } from '../vocabulary/given.ts';
import type { Built } from './build.ts';
import type { Schedule } from './schedule.ts';

/** Odds of one closure. */
export interface NightOdds {
  readonly night: number;
  /** Share of runs in which the runway is clear by the hand-back. */
  readonly onTime: number;
  /** When it is clear in 90 % of the runs. Seconds as in the schedule. */
  readonly keptBy90: number;
  readonly handBack: number;
}

export interface Odds {
  readonly runs: number;
  readonly seed: number;
  /** Share of runs in which every closure is handed back on time. */
  readonly onTime: number;
  readonly nights: readonly NightOdds[];
}

export const RUNS = 2000;
const SEED = 20310407;

/** The odds of a schedule; undefined where nothing in the text has a tolerance, or there is no closure to keep. */
export function oddsOf(schedule: Schedule, runs = RUNS, seed = SEED): Odds | undefined {
  const { built, starts, nights } = schedule;
  if (!starts || nights.length === 0) return undefined;
  const spreads = spreadsOf(built);
  if (spreads.every(([least, , most]) => least === most)) return undefined;
  const arcs = arcsOf(built, starts);
  const order = built.tasks.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  const members = nights.map(night => {
    const ids = new Set(night.activities);
    return built.tasks.flatMap((task, i) => (task.onRunway && ids.has(task.id) ? [i] : []));
  });
  const next = random(seed);
  const clear: Float64Array[] = nights.map(() => new Float64Array(runs));
  const length = new Float64Array(built.tasks.length);
  const at = new Float64Array(built.tasks.length);
  let allOnTime = 0;
  for (let run = 0; run < runs; run++) {
    for (const [i, [least, mode, most]] of spreads.entries())
      length[i] = least === most ? mode : triangular(next(), least, mode, most);
    for (const i of order) {
      let start = starts[i]!;
      for (const { from, least, afterEnd } of arcs[i]!)
        start = Math.max(start, at[from]! + least + (afterEnd ? length[from]! : 0));
      at[i] = start;
    }
    let onTime = true;
    members.forEach((own, k) => {
      const done = Math.max(...own.map(i => at[i]! + length[i]!));
      clear[k]![run] = done;
      if (done > nights[k]!.handBack + 1e-9) onTime = false;
    });
    if (onTime) allOnTime++;
  }
  return {
    runs,
    seed,
    onTime: allOnTime / runs,
    nights: nights.map(({ handBack }, night) => {
      const sorted = clear[night]!.sort();
      const kept = sorted.filter(each => each <= handBack + 1e-9).length;
      return { night, onTime: kept / runs, keptBy90: sorted[Math.ceil(0.9 * runs) - 1]!, handBack };
    }),
  };
}

/** Value of a triangular distribution at a share: the inverse of its cumulative distribution. */
export function triangular(share: number, least: number, mode: number, most: number): number {
  const turn = (mode - least) / (most - least);
  return share < turn
    ? least + Math.sqrt(share * (most - least) * (mode - least))
    : most - Math.sqrt((1 - share) * (most - least) * (most - mode));
}

/** Numbers in [0, 1), repeatable (mulberry32, a public-domain generator; from memory). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

type Spread = readonly [least: number, mode: number, most: number];

/** Shortest, planned and longest duration of every task. */
function spreadsOf({ job, works, tasks }: Built): readonly Spread[] {
  const range = new Map<string, readonly [number, number]>();
  for (const { plan, bays } of works) {
    const fast = atTolerance(plan, 'fast');
    const slow = atTolerance(plan, 'slow');
    if (!fast || !slow) continue;
    for (const { bay } of bays) {
      const slowest = new Map(activitiesOf(job, slow, bay).map(each => [each.id, durationOf(each)] as const));
      for (const each of activitiesOf(job, fast, bay)) range.set(each.id, [durationOf(each), slowest.get(each.id)!]);
    }
  }
  return tasks.map(({ id, activity }): Spread => {
    // Runs of a repeated step are numbered; all of them last as long as the first.
    const found = range.get(id) ?? range.get(id.replace(/\/\d+$/, ''));
    const mode = durationOf(activity);
    if (!found || activity.problem) return [mode, mode, mode];
    return [Math.min(mode, ...found), mode, Math.max(mode, ...found)];
  });
}

function durationOf({ start, end }: Activity): number {
  return end - start;
}

/** The plan at one end of its tolerances; undefined where it has none. */
function atTolerance(plan: Plan, end: 'fast' | 'slow'): Plan | undefined {
  let any = false;
  const change = <T extends Given<number>>(given: T | undefined, fastest: 0 | 1): T | undefined => {
    if (!given?.interval) return given;
    any = true;
    return { ...given, value: given.interval[end === 'fast' ? fastest : 1 - fastest]! };
  };
  const steps = plan.steps.map((planned): PlannedStep => {
    const { step } = planned;
    const speed = change(step.speed, 1);
    const takes = change(step.takes, 0);
    return speed === step.speed && takes === step.takes
      ? planned
      : { ...planned, step: { ...step, speed, takes } as Step };
  });
  return any ? { ...plan, steps } : undefined;
}

interface Arc {
  readonly from: number;
  readonly least: number;
  /** Counted from the end of `from`, else from its start. */
  readonly afterEnd: boolean;
}

/** What each task comes after: steps before it, soaks by the clock, and whoever had its machines. */
function arcsOf({ problem, tasks, lags }: Built, starts: readonly number[]): readonly (readonly Arc[])[] {
  const arcs: Arc[][] = tasks.map(() => []);
  problem.lags.forEach(({ from, to, least }, k) => {
    if (least === undefined || from >= tasks.length || to >= tasks.length || starts[from]! > starts[to]!) return;
    const why = lags[k]?.why;
    const afterEnd =
      why === 'order of the steps' ||
      why === 'order of the works' ||
      (why === 'kept wet' && tasks[from]!.does === 'keep-wet');
    arcs[to]!.push({ from, least: afterEnd ? Math.max(0, least - tasks[from]!.duration) : least, afterEnd });
  });
  for (const { capacity, uses, changeover } of problem.resources) {
    const own = uses.flatMap((use, u) => (use.activity < tasks.length ? [{ i: use.activity, u }] : []));
    const total = uses.reduce((sum, { demand = 1 }) => sum + demand, 0);
    if (total <= capacity) continue;
    own.sort((a, b) => starts[a.i]! - starts[b.i]! || a.i - b.i);
    for (const [k, later] of own.entries()) {
      for (let b = k - 1; b >= 0; b--) {
        const before = own[b]!;
        if (starts[before.i]! + tasks[before.i]!.duration > starts[later.i]!) continue;
        arcs[later.i]!.push({ from: before.i, least: changeover?.[before.u]?.[later.u] ?? 0, afterEnd: true });
        // On a machine that is there once, the last one before it is the only one that matters.
        if (capacity === 1) break;
      }
    }
  }
  return arcs;
}
