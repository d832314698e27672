/**
 * The way in: solve a problem to the end or to a budget of conflicts, in one go or in slices. The answer depends on the
 * problem and the options alone, byte for byte, however the work is sliced.
 */
import { keepsAll } from './keeps.ts';
import type { Answer, Fault, Options, Problem } from './model.ts';
import { buildNetwork } from './network.ts';
import { earliestInOrder } from './order.ts';
import { Search } from './search.ts';
import { validate } from './validate.ts';

/** Conflicts allowed when the caller does not say. */
export const DEFAULT_CONFLICTS = 20_000;

/** A slice also ends after this many decisions, so that a large problem without conflicts does not hold up an editor. */
const DECISIONS_PER_CONFLICT = 20;

/** Work that can be interrupted. */
export interface Solving {
  /** True when there is nothing left to do: proved, or out of budget. */
  readonly done: boolean;
  /** Works on for about this many more conflicts. Returns `done`. */
  step(conflicts: number): boolean;
  /** What is known so far; the final answer once `done`. */
  answer(): Answer;
}

/** Starts work on a problem. Nothing is searched until `step` is called. Never throws; a faulty problem is done at once. */
export function createSearch(problem: Problem, options: Options = {}): Solving {
  const faults = validate(problem, options);
  if (faults.length > 0) return invalid(faults);
  const budget = options.conflicts ?? DEFAULT_CONFLICTS;
  const network = buildNetwork(problem, options);
  const improve = (starts: Int32Array): Int32Array => Int32Array.from(earliestInOrder(problem, [...starts]));
  const search = new Search(network, improve);
  if (options.hint !== undefined && keepsAll(problem, options.hint)) search.offer(Int32Array.from(options.hint));
  const firstOnly = options.firstOnly === true;
  const isDone = (): boolean =>
    search.exhausted || search.conflicts >= budget || (firstOnly && search.best !== undefined);
  return {
    get done() {
      return isDone();
    },
    step(conflicts) {
      if (!isDone()) {
        const upTo = Math.min(budget, search.conflicts + Math.max(1, conflicts));
        search.run(upTo, search.decisions + Math.max(200, conflicts * DECISIONS_PER_CONFLICT), firstOnly);
      }
      return isDone();
    },
    answer() {
      const { best, exhausted, conflicts, bound } = search;
      if (best === undefined) {
        const status = exhausted ? 'infeasible' : 'unknown';
        const { cycle } = network;
        return { status, bound, conflicts, ...(cycle === undefined ? {} : { cycle }) };
      }
      const proved = exhausted || bound >= search.bestObjective;
      return {
        status: proved ? 'optimal' : 'feasible',
        starts: [...best],
        makespan: search.bestObjective,
        bound: proved ? search.bestObjective : bound,
        conflicts,
      };
    },
  };
}

/** Solves a problem to proof or until the budget of conflicts is spent. Never throws. */
export function solveToEnd(problem: Problem, options: Options = {}): Answer {
  const solving = createSearch(problem, options);
  while (!solving.step(1_000_000)) {
    // Each step goes on where the last one stopped.
  }
  return solving.answer();
}

/** Solves in slices of about `slice` conflicts, yielding what is known after each; returns the final answer. */
export function* solve(problem: Problem, options: Options = {}, slice = 200): Generator<Answer, Answer, undefined> {
  const solving = createSearch(problem, options);
  while (!solving.step(slice)) yield solving.answer();
  return solving.answer();
}

function invalid(faults: readonly Fault[]): Solving {
  const answer: Answer = { status: 'invalid', bound: 0, conflicts: 0, faults };
  return { done: true, step: () => true, answer: () => answer };
}
