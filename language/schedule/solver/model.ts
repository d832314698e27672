/**
 * The scheduling problem and its answer, as plain data.
 *
 * Resource-constrained scheduling with minimum and maximum time lags and calendars (RCPSP/max with calendars): activities of
 * fixed duration, lags from start to start, machines (capacity 1, with changeovers) and pools (capacity above 1), and windows
 * of time that an activity, or a group of activities together, has to lie in. All times are whole numbers on one axis; the
 * caller chooses the unit. Activities are named by their index in `activities`.
 *
 * Tags are the caller's names for constraints. Explanations give them back, so that a lag can be traced to what asked for it.
 */

/** A stretch of time, from `start` up to and not including `end`. */
export interface Window {
  readonly start: number;
  readonly end: number;
}

/** Something that takes `duration` and is not interrupted. */
export interface Activity {
  /** Whole number, 0 or more. An activity of no duration uses no resource. */
  readonly duration: number;
  /** Earliest start; 0 when not given. */
  readonly release?: number;
  /** Latest end. */
  readonly deadline?: number;
  /** The activity lies wholly within one of these (in order of time, not overlapping). */
  readonly windows?: readonly Window[];
  /** Names the release, the deadline and the windows of this activity in explanations. */
  readonly tag?: string;
}

/** `least` ≤ start of `to` − start of `from` ≤ `greatest`. One of the two may be left out. Both may be negative. */
export interface Lag {
  readonly from: number;
  readonly to: number;
  readonly least?: number;
  readonly greatest?: number;
  readonly tag?: string;
}

/** How much of a resource an activity takes from its start to its end. */
export interface Use {
  readonly activity: number;
  /** Whole number, 0 or more; 1 when not given. */
  readonly demand?: number;
}

/** At every moment the demands of the activities under way are within the capacity. */
export interface Resource {
  /** Whole number, 0 or more. */
  readonly capacity: number;
  readonly uses: readonly Use[];
  /**
   * Time that has to pass between the end of one use and the start of a later one: `changeover[a][b]` from `uses[a]` to
   * `uses[b]`. It holds between all pairs, not just neighbours. Only for resources on which no two uses fit at once.
   */
  readonly changeover?: readonly (readonly number[])[];
  readonly tag?: string;
}

/** All of these activities lie within the same one of these windows: what is started in a closure is finished in it. */
export interface Together {
  readonly activities: readonly number[];
  readonly windows: readonly Window[];
  readonly tag?: string;
}

export interface Problem {
  readonly activities: readonly Activity[];
  readonly lags: readonly Lag[];
  readonly resources: readonly Resource[];
  readonly together?: readonly Together[];
  /** The activities whose latest end is minimised; all of them when not given. */
  readonly objective?: readonly number[];
}

export interface Options {
  /** How many conflicts the search may meet before it stops with what it has; 20 000 when not given. */
  readonly conflicts?: number;
  /** Only schedules whose objective is at most this count. Use it to solve for one aim after another. */
  readonly upperBound?: number;
  /** A schedule to start from. Used when it keeps all constraints, otherwise ignored. */
  readonly hint?: readonly number[];
  /** Stop at the first schedule: only whether there is one matters. */
  readonly firstOnly?: boolean;
}

/** What is wrong with a problem that can't be solved as it stands. `where` is a path into it, such as `lags[3].least`. */
export interface Fault {
  readonly where: string;
  readonly message: string;
}

/**
 * - `optimal`: `starts` has the least objective there is.
 * - `feasible`: `starts` keeps all constraints; the least objective lies between `bound` and `makespan`.
 * - `infeasible`: proved that no schedule keeps all constraints (and the upper bound asked for).
 * - `unknown`: the budget ran out before a schedule was found or excluded.
 * - `invalid`: the problem is not well formed; see `faults`.
 */
export type Status = 'optimal' | 'feasible' | 'infeasible' | 'unknown' | 'invalid';

export interface Answer {
  readonly status: Status;
  /** Start of each activity. */
  readonly starts?: readonly number[];
  /** Latest end of the objective's activities in `starts`. */
  readonly makespan?: number;
  /** Proved: no schedule has a smaller objective. Infinity when there is none at all. */
  readonly bound: number;
  /** Conflicts met so far: the measure of work. */
  readonly conflicts: number;
  /** Where lags alone make the problem impossible: the lags that add up to more than nothing around a cycle. */
  readonly cycle?: Cycle;
  /** Only with status `invalid`. */
  readonly faults?: readonly Fault[];
}

/** One side of a lag: the `least` or the `greatest` of `lags[lag]`. */
export interface CycleStep {
  readonly lag: number;
  readonly side: 'least' | 'greatest';
  readonly from: number;
  readonly to: number;
  /** Start of `to` is at least start of `from` plus this. */
  readonly atLeast: number;
  readonly tag?: string;
}

/** Lags from activity to activity and back to the first, that ask the first to start `excess` (> 0) after itself. */
export interface Cycle {
  readonly steps: readonly CycleStep[];
  readonly excess: number;
}

/** A constraint of the problem, as explanations name it. */
export interface ConstraintRef {
  readonly kind: 'lag' | 'resource' | 'windows' | 'release' | 'deadline' | 'together' | 'upperBound';
  /** Index in `lags`, `resources`, `together`, or of the activity; 0 for the upper bound. */
  readonly index: number;
  readonly tag?: string;
}

/** Longest time either way of 0 that may occur in a problem; keeps all sums inside 32-bit integers. */
export const TIME_LIMIT = 2 ** 27;
