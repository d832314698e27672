/**
 * Exact scheduling with minimum and maximum time lags, machines, pools and calendars. Knows nothing of what is scheduled.
 *
 * Give `solveToEnd` (or `createSearch`, to work in slices) a `Problem`; read an `Answer`. Then `slack` and `waitsFor` say how a
 * schedule hangs together, and `explainInfeasible` why there is none.
 */
export { positiveCycle } from './cycle.ts';
export type { ExplainOptions, Explanation } from './explain.ts';
export { explainInfeasible } from './explain.ts';
export { keepsAll } from './keeps.ts';
export type {
  Activity,
  Answer,
  ConstraintRef,
  Cycle,
  CycleStep,
  Fault,
  Lag,
  Options,
  Problem,
  Resource,
  Status,
  Together,
  Use,
  Window,
} from './model.ts';
export type { Slack, Wait } from './order.ts';
export { earliestInOrder, latestInOrder, slack, waitsFor } from './order.ts';
export type { Solving } from './solve.ts';
export { createSearch, DEFAULT_CONFLICTS, solve, solveToEnd } from './solve.ts';
export { validate } from './validate.ts';
