/**
 * Why things are when they are, in words: what each activity waits for, and why a job is impossible.
 *
 * An activity waits for whatever keeps it from starting one second earlier. Product that is sprayed as late as can be
 * waits for the tool it is meant for.
 */
import type { Built, TaskLag } from './build.ts';
import type { Cycle } from './solver/model.ts';
import { waitsFor } from './solver/order.ts';

/** One thing that an activity waits for. */
export type Reason =
  /** Nothing: the job begins here. */
  | { readonly kind: 'start' }
  /** The closure opens, and the machines are made ready. */
  | { readonly kind: 'closure' }
  /** Another activity, by a lag. */
  | {
      readonly kind: 'lag';
      readonly activity: string;
      readonly why: TaskLag['why'];
      readonly side: 'least' | 'greatest';
    }
  /** A machine, crew or stand that another activity has. */
  | { readonly kind: 'machine' | 'crew' | 'stand'; readonly name: string; readonly activity: string }
  /** Sprayed no sooner than the tool is ready for it. */
  | { readonly kind: 'just in time'; readonly activity: string };

/** The reasons of every task, in the order of the tasks. */
export function reasonsOf(built: Built, starts: readonly number[]): readonly (readonly Reason[])[] {
  const { tasks, problem, holders, lags } = built;
  const idOf = (i: number): string => tasks[i]?.id ?? tasks[ownerOf(built, i)]!.id;
  const waits = waitsFor(problem, starts);
  return tasks.map((task, i): readonly Reason[] => {
    const reasons = waits[i]!.flatMap((wait): Reason[] => {
      switch (wait.kind) {
        case 'release':
          return problem.together?.length ? [] : [{ kind: 'start' }];
        case 'window':
          return [{ kind: 'closure' }];
        case 'lag': {
          const why = lags[wait.lag]?.why;
          // That bays follow each other holds none of them up where a machine does.
          if (why === undefined || tasks[wait.activity]?.id === task.id) return [];
          return [{ kind: 'lag', activity: idOf(wait.activity), why, side: wait.side }];
        }
        default: {
          const holder = holders[wait.resource]!;
          const name =
            holder.kind === 'machine' ? holder.machine.name : holder.kind === 'crew' ? holder.crew.name : holder.name;
          return [{ kind: holder.kind, name, activity: idOf(wait.activity) }];
        }
      }
    });
    if (reasons.length > 0) return distinct(reasons);
    const own = tasks.filter(each => each.tracks === task.tracks);
    if (task.does === 'keep-wet') {
      const applied = own.find(each => each.does === 'apply');
      return applied ? [{ kind: 'lag', activity: applied.id, why: 'kept wet', side: 'least' }] : [];
    }
    const tool = own.find(each => each.does === 'agitate' || each.does === 'jet');
    return tool && (task.does === 'apply' || task.does === 'pre-wet')
      ? [{ kind: 'just in time', activity: tool.id }]
      : [];
  });
}

/** Ids of what an activity waits for, each once. */
export function waitedFor(reasons: readonly Reason[]): readonly string[] {
  return [...new Set(reasons.flatMap(each => ('activity' in each ? [each.activity] : [])))];
}

/** A reason as a clause that follows 'waits': 'for Broom1, which works North/1/Agitate until then'. */
export function reasonText(reason: Reason): string {
  switch (reason.kind) {
    case 'start':
      return 'for nothing';
    case 'closure':
      return 'for the closure to open and the machines to be ready';
    case 'just in time':
      return `until ${reason.activity} is near: put on earlier, it would only stand longer`;
    case 'lag':
      return lagText(reason);
    case 'machine':
      return `for ${reason.name}, which is at ${reason.activity} until then`;
    case 'crew':
      return `for people of ${reason.name}, who are at ${reason.activity} until then`;
    case 'stand':
      return `for a place at ${reason.name}, which ${reason.activity} takes until then`;
  }
}

function lagText({ activity, why, side }: Reason & { readonly kind: 'lag' }): string {
  switch (why) {
    case 'order of the steps':
      return side === 'least' ? `for ${activity} before it` : `so that ${activity} comes soon enough after it`;
    case 'dwell at every point':
      return `until every point has had its soak since ${activity}`;
    case 'longest residence':
      return `so that ${activity} comes before the product has stood too long`;
    case 'kept wet':
      return `for ${activity}, which keeps the product wet`;
    case 'order of the bays':
      return `for ${activity} in the bay before`;
    case 'order of the works':
      return `for ${activity} of the work before`;
    case 'trip to fill or empty':
      return `for ${activity}`;
  }
}

/** One step of the chain that makes a job impossible. */
export interface ChainLink {
  readonly from: string;
  readonly to: string;
  /** Start of `to` is at least this many seconds after the start of `from`; at most, where `side` is greatest. */
  readonly seconds: number;
  readonly side: 'least' | 'greatest';
  readonly why: TaskLag['why'];
}

/** The chain of limits that contradict each other, from activity to activity and back to the first. */
export function chainOf(built: Built, cycle: Cycle): readonly ChainLink[] {
  const { tasks, problem, lags } = built;
  const idOf = (i: number): string => tasks[i]?.id ?? tasks[ownerOf(built, i)]!.id;
  return cycle.steps.map(({ lag, side }) => {
    const { from, to, least, greatest } = problem.lags[lag]!;
    return {
      from: idOf(from),
      to: idOf(to),
      seconds: (side === 'least' ? least : greatest)!,
      side,
      why: lags[lag]?.why ?? 'trip to fill or empty',
    };
  });
}

/** The task a visit to a stand belongs to. */
function ownerOf({ problem }: Built, visit: number): number {
  return problem.lags.find(each => each.to === visit)?.from ?? 0;
}

function distinct(reasons: readonly Reason[]): readonly Reason[] {
  const seen = new Set<string>();
  return reasons.filter(each => {
    const key = JSON.stringify(each);
    return !seen.has(key) && seen.add(key);
  });
}
