/**
 * Why a job does not fit, and why it does not fit into fewer closures: sums that a person can check.
 */
import type { BayTracks } from '../exposure/fromTracks.ts';
import { type Built, type Holder, windowOf } from './build.ts';
import type { Night } from './calendar.ts';
import { alikeNights, lonelyBay } from './nights.ts';
import { type ChainLink, chainOf } from './reasons.ts';
import type { Schedule } from './schedule.ts';
import { explainInfeasible } from './solver/explain.ts';
import { slack } from './solver/order.ts';
import { solveToEnd } from './solver/solve.ts';

/** A stretch of the longest chain of a bay: from the start of an activity to that of the next one, or to its end. */
export interface Stretch {
  readonly activity: string;
  readonly seconds: number;
}

/** Why there is no schedule. */
export type WhyNot =
  /** Limits contradict each other: going round the chain, the first activity would start `excess` seconds after itself. */
  | { readonly kind: 'contradiction'; readonly chain: readonly ChainLink[]; readonly excess: number }
  /** One bay by itself takes longer than the longest closure it may be done in. */
  | {
      readonly kind: 'bay too long';
      readonly bay: BayTracks;
      readonly takes: number;
      readonly has: number;
      readonly night: Night;
      readonly chain: readonly Stretch[];
    }
  /** No closure is left in which a bay may be done. */
  | { readonly kind: 'no night'; readonly bay: BayTracks }
  /** Every bay fits, but there are not closures enough for all. `needs` counts closures as long as the longest. */
  | { readonly kind: 'too few closures'; readonly has: number; readonly needs: number; readonly proved: boolean }
  /**
   * Proved impossible by search, without a single sum that shows it. `activities` and `holders` (names of machines and crews)
   * are impossible together by themselves; empty where looking for them would take too long.
   */
  | { readonly kind: 'search'; readonly activities: readonly string[]; readonly holders: readonly string[] };

/** Conflicts that a question beside the schedule itself may cost. */
const ASIDE = 2000;

/** Why a job that is impossible is so, one reason after another, each enough by itself; empty for any other job. */
export function whyNot(schedule: Schedule): readonly WhyNot[] {
  const { state, built, cycle } = schedule;
  if (state !== 'impossible') return [];
  const reasons: WhyNot[] = cycle
    ? [{ kind: 'contradiction', chain: chainOf(built, cycle), excess: cycle.excess }]
    : [];
  const bay = bayTooLong(built);
  if (bay) reasons.push(bay);
  if (reasons.length > 0) return reasons;
  const few = tooFewClosures(built);
  return [few ?? coreOf(built)];
}

/** Largest job whose contradiction is looked for by leaving parts out: each trial is a search of its own. */
const MOST_FOR_CORE = 60;

function coreOf({ problem, tasks, holders }: Built): WhyNot {
  const found = problem.activities.length <= MOST_FOR_CORE ? explainInfeasible(problem, { conflicts: 100 }) : undefined;
  if (found?.kind !== 'core') return { kind: 'search', activities: [], holders: [] };
  return {
    kind: 'search',
    activities: found.activities.flatMap(i => tasks[i]?.id ?? []),
    holders: found.constraints.flatMap(each => (each.kind === 'resource' ? nameOf(holders[each.index]!) : [])),
  };
}

function nameOf(holder: Holder): string {
  return holder.kind === 'machine' ? holder.machine.name : holder.kind === 'crew' ? holder.crew.name : holder.name;
}

/** The first bay that fits into none of its closures, even if product might stand for as long as it likes. */
function bayTooLong(built: Built): WhyNot | undefined {
  const { groups, problem, nights } = built;
  for (const [g, bay] of groups.entries()) {
    const windows = problem.together![g]!.windows;
    if (windows.length === 0) return { kind: 'no night', bay };
    const { members, problem: whole } = lonelyBay(built, g);
    const lonely = { ...whole, lags: whole.lags.filter(each => each.tag !== 'longest residence') };
    const { starts, makespan } = solveToEnd(lonely, { conflicts: ASIDE });
    if (!starts || makespan === undefined) continue;
    const has = Math.max(...windows.map(each => each.end - each.start));
    if (makespan <= has) continue;
    const longest = windows.find(each => each.end - each.start === has)!;
    const night = nights.find(each => windowOf(each, built.zero!).end === longest.end)!;
    const chain = criticalChain(
      members.map(i => built.tasks[i]?.id ?? ''),
      lonely.activities.map(each => each.duration),
      starts,
      slack(lonely, starts).map(each => each.total),
    );
    return { kind: 'bay too long', bay, takes: makespan, has, night, chain };
  }
  return undefined;
}

function tooFewClosures(built: Built): WhyNot | undefined {
  const { groups, nights } = built;
  const alike = alikeNights(built, groups.length);
  if (!alike) return undefined;
  const { starts, makespan, status } = solveToEnd(alike.problem, { conflicts: ASIDE });
  if (!starts || makespan === undefined) return undefined;
  const needs = alike.windows.findIndex(each => makespan <= each.end) + 1;
  if (needs <= nights.length) return undefined;
  return { kind: 'too few closures', has: nights.length, needs, proved: status === 'optimal' };
}

/** Activities without slack, one after another, each up to the next. */
function criticalChain(
  ids: readonly string[],
  durations: readonly number[],
  starts: readonly number[],
  slacks: readonly number[],
): readonly Stretch[] {
  const critical = ids
    .map((id, k) => ({ id, k }))
    .filter(({ id, k }) => id !== '' && slacks[k] === 0)
    .toSorted((a, b) => starts[a.k]! - starts[b.k]! || a.k - b.k);
  return critical.map(({ id, k }, at) => {
    const next = critical[at + 1];
    return { activity: id, seconds: next ? starts[next.k]! - starts[k]! : durations[k]! };
  });
}

/** How busy a machine, crew or stand is. */
export interface Load {
  readonly holder: Holder;
  /** Seconds of use: for several of a kind the sum over all of them. */
  readonly busy: number;
  /** Seconds there are in the closures used, all machines of the kind together. */
  readonly room: number;
}

/** How busy each machine is in the closures that the schedule uses, busiest first. The first one is the bottleneck. */
export function loads({ built, nights, starts, proof }: Schedule): readonly Load[] {
  if (!starts || !proof) return [];
  const open = nights.length > 0 ? nights.reduce((sum, each) => sum + each.handBack - each.from, 0) : proof.end;
  return built.holders
    .map((holder, r): Load => {
      const uses = built.problem.resources[r]!.uses;
      const busy = uses.reduce(
        (sum, { activity, demand = 1 }) => sum + demand * built.problem.activities[activity]!.duration,
        0,
      );
      return { holder, busy, room: open * holder.capacity };
    })
    .filter(each => each.holder.kind === 'machine')
    .toSorted((a, b) => b.busy / b.room - a.busy / a.room);
}

/**
 * Why one closure less does not do, as a sum: a machine is busy for so long, and in each closure it can't work before the
 * steps ahead of it are done, nor after those behind it have to begin. Undefined where no single machine shows it.
 */
export interface WhyNotFewer {
  readonly holder: Holder;
  readonly busy: number;
  /** Least time in a closure before this machine can work, and after it has worked. */
  readonly before: number;
  readonly after: number;
  /** Usable seconds of the longest closure. */
  readonly closure: number;
  readonly closures: number;
}

/** See {@link WhyNotFewer}. */
export function whyNotFewer(schedule: Schedule): WhyNotFewer | undefined {
  const { built, proof, nights } = schedule;
  if (!proof?.provedLeast || proof.closures < 2 || nights.length === 0) return undefined;
  const { problem, groups, holders } = built;
  const closure = Math.max(...built.nights.map(night => night.handBack - night.from));
  const closures = proof.closures - 1;
  const before = new Map<number, number>();
  const after = new Map<number, number>();
  for (const g of groups.keys()) {
    const { problem: lonely, members } = lonelyBay(built, g);
    const { starts, makespan } = solveToEnd(lonely, { conflicts: ASIDE });
    if (!starts || makespan === undefined) return undefined;
    const slacks = slack(lonely, starts);
    members.forEach((i, k) => {
      before.set(i, starts[k]!);
      after.set(i, makespan - starts[k]! - slacks[k]!.total - lonely.activities[k]!.duration);
    });
  }
  for (const [r, holder] of holders.entries()) {
    if (holder.kind !== 'machine' || holder.capacity !== 1) continue;
    const uses = problem.resources[r]!.uses.filter(use => before.has(use.activity));
    const busy = uses.reduce((sum, { activity }) => sum + problem.activities[activity]!.duration, 0);
    const head = Math.min(...uses.map(use => before.get(use.activity)!));
    const tail = Math.min(...uses.map(use => after.get(use.activity)!));
    if (busy > closures * (closure - head - tail))
      return { holder, busy, before: head, after: tail, closure, closures };
  }
  return undefined;
}
