/**
 * Why a problem has no schedule (or none within an upper bound): a small set of activities and constraints that is impossible
 * by itself. Lags that contradict each other are given as the cycle they form; anything else by leaving parts out as long as
 * what is left stays impossible.
 */
import { positiveCycle } from './cycle.ts';
import type { Activity, ConstraintRef, Cycle, Options, Problem } from './model.ts';
import { solveToEnd } from './solve.ts';
import { validate } from './validate.ts';

export type Explanation =
  /** The lags of the cycle alone are impossible. */
  | { readonly kind: 'cycle'; readonly cycle: Cycle }
  | {
      readonly kind: 'core';
      /** The activities that matter, in order of index. */
      readonly activities: readonly number[];
      /** The constraints on them that are impossible together. Constraints with the same tag stand or fall together. */
      readonly constraints: readonly ConstraintRef[];
      /** True when it is proved that none of these activities and constraints can be left out. */
      readonly minimal: boolean;
    }
  /** There is a schedule, or the budget did not suffice to exclude one. */
  | { readonly kind: 'none'; readonly status: 'possible' | 'unknown' | 'invalid' };

export interface ExplainOptions extends Pick<Options, 'upperBound'> {
  /** Conflicts for each trial of leaving something out; 500 when not given. */
  readonly conflicts?: number;
}

/** Explains why a problem has no schedule. Never throws; the same problem has the same explanation. */
export function explainInfeasible(problem: Problem, options: ExplainOptions = {}): Explanation {
  if (validate(problem, options).length > 0) return { kind: 'none', status: 'invalid' };
  const cycle = positiveCycle(problem);
  if (cycle !== undefined) return { kind: 'cycle', cycle };
  const budget = options.conflicts ?? 500;
  const { upperBound } = options;
  let decided = true;
  const isImpossible = (
    activities: ReadonlySet<number>,
    refs: ReadonlySet<ConstraintRef>,
    conflicts: number,
  ): boolean => {
    const bounded = upperBound !== undefined && [...refs].some(ref => ref.kind === 'upperBound');
    const { status } = solveToEnd(restrict(problem, activities, refs), {
      conflicts,
      firstOnly: true,
      ...(bounded ? { upperBound } : {}),
    });
    if (status === 'unknown') decided = false;
    return status === 'infeasible';
  };

  const refs = new Set(constraintRefs(problem, options));
  const everything = new Set(problem.activities.keys());
  if (!isImpossible(everything, refs, 20 * budget)) {
    return { kind: 'none', status: decided ? 'possible' : 'unknown' };
  }
  const activities = new Set(leastNeeded([...everything], left => isImpossible(new Set(left), refs, budget)));
  const touching = [...refs].filter(ref => touches(problem, ref, activities));
  const groups = leastNeeded(byTag(touching), left => isImpossible(activities, new Set(left.flat()), budget));
  const constraints = groups.flat();
  return {
    kind: 'core',
    activities: [...activities].sort((a, b) => a - b),
    constraints: touching.filter(ref => constraints.includes(ref)),
    minimal: decided,
  };
}

/**
 * Leaves out parts as long as the rest passes the test: first large stretches, then smaller ones, in the end one by one, so that
 * few trials are needed where little matters.
 */
function leastNeeded<T>(parts: readonly T[], passes: (left: readonly T[]) => boolean): readonly T[] {
  let left = parts;
  for (let size = Math.ceil(parts.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let at = 0; at < left.length; ) {
      const without = [...left.slice(0, at), ...left.slice(at + size)];
      if (passes(without)) left = without;
      else at += size;
    }
  }
  return left;
}

/** Every constraint of the problem by its name. */
function constraintRefs(problem: Problem, options: ExplainOptions): readonly ConstraintRef[] {
  const refs: ConstraintRef[] = [];
  const add = (kind: ConstraintRef['kind'], index: number, tag: string | undefined): void => {
    refs.push({ kind, index, ...(tag === undefined ? {} : { tag }) });
  };
  problem.lags.forEach(({ tag }, k) => {
    add('lag', k, tag);
  });
  problem.resources.forEach(({ tag }, k) => {
    add('resource', k, tag);
  });
  problem.activities.forEach(({ release, deadline, windows, tag }, i) => {
    if (release !== undefined && release > 0) add('release', i, tag);
    if (deadline !== undefined) add('deadline', i, tag);
    if (windows !== undefined) add('windows', i, tag);
  });
  problem.together?.forEach(({ tag }, k) => {
    add('together', k, tag);
  });
  if (options.upperBound !== undefined) add('upperBound', 0, undefined);
  return refs;
}

function byTag(refs: readonly ConstraintRef[]): readonly (readonly ConstraintRef[])[] {
  const groups = new Map<string, ConstraintRef[]>();
  refs.forEach((ref, k) => {
    const key = ref.tag === undefined ? `${k}` : `tag ${ref.tag}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [ref]);
    else group.push(ref);
  });
  return [...groups.values()];
}

/** Whether a constraint says anything about these activities. */
function touches(problem: Problem, { kind, index }: ConstraintRef, activities: ReadonlySet<number>): boolean {
  if (kind === 'upperBound') return true;
  if (kind === 'lag') {
    const { from, to } = problem.lags[index]!;
    return activities.has(from) && activities.has(to);
  }
  if (kind === 'resource') return problem.resources[index]!.uses.some(use => activities.has(use.activity));
  if (kind === 'together') return problem.together![index]!.activities.some(i => activities.has(i));
  return activities.has(index);
}

/** The problem with these activities and constraints alone. The other activities stay in place, of no duration and free. */
function restrict(problem: Problem, kept: ReadonlySet<number>, refs: ReadonlySet<ConstraintRef>): Problem {
  const held = new Set([...refs].map(ref => `${ref.kind} ${ref.index}`));
  const holds = (kind: ConstraintRef['kind'], index: number): boolean => held.has(`${kind} ${index}`);
  const activity = ({ duration, release, deadline, windows }: Activity, i: number): Activity => {
    if (!kept.has(i)) return { duration: 0 };
    return {
      duration,
      ...(release !== undefined && (release <= 0 || holds('release', i)) ? { release } : {}),
      ...(deadline !== undefined && holds('deadline', i) ? { deadline } : {}),
      ...(windows !== undefined && holds('windows', i) ? { windows } : {}),
    };
  };
  return {
    activities: problem.activities.map(activity),
    lags: problem.lags.filter((lag, k) => holds('lag', k) && kept.has(lag.from) && kept.has(lag.to)),
    resources: problem.resources
      .filter((_, k) => holds('resource', k))
      .map(({ capacity, uses, changeover }) => {
        const places = uses.flatMap((use, u) => (kept.has(use.activity) ? [u] : []));
        return {
          capacity,
          uses: places.map(u => uses[u]!),
          ...(changeover === undefined ? {} : { changeover: places.map(a => places.map(b => changeover[a]![b]!)) }),
        };
      }),
    together: (problem.together ?? [])
      .filter((_, k) => holds('together', k))
      .map(({ activities, windows }) => ({ activities: activities.filter(i => kept.has(i)), windows }))
      .filter(({ activities }) => activities.length > 0),
    objective: (problem.objective ?? [...problem.activities.keys()]).filter(i => kept.has(i)),
  };
}
