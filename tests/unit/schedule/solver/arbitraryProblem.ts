/** Small random problems with everything the solver knows, and their answer by trying all starts. */
import fc from 'fast-check';
import type { Activity, Lag, Problem, Resource, Together, Window } from '../../../../language/schedule/solver/model.ts';
import { checkSchedule, latestEnd } from '../../../support/checkSchedule.ts';

/** Everything ends by then, so that all schedules can be tried. */
export const HORIZON = 11;

const windows: fc.Arbitrary<readonly Window[]> = fc
  .array(fc.nat(HORIZON), { minLength: 2, maxLength: 6 })
  .map(times => times.toSorted((a, b) => a - b))
  .map(times =>
    Array.from({ length: times.length >> 1 }, (_, k) => ({ start: times[2 * k]!, end: times[2 * k + 1]! })),
  );

const activity: fc.Arbitrary<Activity> = fc
  .record(
    {
      duration: fc.nat(4),
      release: fc.nat(3),
      deadline: fc.integer({ min: 5, max: HORIZON }),
      windows,
    },
    { requiredKeys: ['duration'] },
  )
  .map(({ windows: own, ...rest }) => ({
    deadline: HORIZON,
    ...rest,
    // Own windows in every problem would leave little to solve.
    ...(own !== undefined && own.length === 3 ? { windows: own } : {}),
  }));

function lag(count: number): fc.Arbitrary<Lag> {
  return fc.record(
    {
      from: fc.nat(count - 1),
      to: fc.nat(count - 1),
      least: fc.integer({ min: -4, max: 4 }),
      greatest: fc.integer({ min: -1, max: 7 }),
    },
    { requiredKeys: ['from', 'to'] },
  );
}

function resource(count: number): fc.Arbitrary<Resource> {
  return fc
    .record({
      capacity: fc.integer({ min: 1, max: 3 }),
      activities: fc.uniqueArray(fc.nat(count - 1), { maxLength: count }),
      demands: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: count, maxLength: count }),
      changes: fc.array(fc.nat(2), { minLength: count * count, maxLength: count * count }),
      changing: fc.boolean(),
    })
    .map(({ capacity, activities, demands, changes, changing }) => {
      const alone = changing && capacity === 1;
      return {
        capacity,
        uses: activities.map((i, k) => (alone ? { activity: i } : { activity: i, demand: demands[k]! })),
        ...(alone ? { changeover: activities.map((_, a) => activities.map((__, b) => changes[a * count + b]!)) } : {}),
      };
    });
}

function group(count: number): fc.Arbitrary<Together> {
  return fc.record({
    activities: fc.uniqueArray(fc.nat(count - 1), { minLength: 1, maxLength: 3 }),
    windows,
  });
}

/** Problems of up to five activities. */
export const problems: fc.Arbitrary<Problem> = fc.integer({ min: 1, max: 5 }).chain(count =>
  fc.record(
    {
      activities: fc.array(activity, { minLength: count, maxLength: count }),
      lags: fc.array(lag(count), { maxLength: 4 }),
      resources: fc.array(resource(count), { maxLength: 3 }),
      together: fc.array(group(count), { maxLength: 1 }),
      objective: fc.uniqueArray(fc.nat(count - 1), { minLength: 1 }),
    },
    { requiredKeys: ['activities', 'lags', 'resources'] },
  ),
);

/** Problems of alike parts: the same two or three steps two or three times over, perhaps with something after all of them. */
export const repeatedProblems: fc.Arbitrary<Problem> = fc
  .record({
    steps: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 2 }),
    copies: fc.integer({ min: 2, max: 3 }),
    least: fc.integer({ min: -1, max: 3 }),
    spare: fc.nat(3),
    capacity: fc.integer({ min: 1, max: 2 }),
    shared: fc.boolean(),
    closing: fc.boolean(),
    windows: fc.option(windows, { nil: undefined }),
    // How the second copy differs from the others, so that it must not be taken to be alike.
    odd: fc.constantFrom('nothing', 'nothing', 'duration', 'demand', 'release', 'deadline', 'changeover'),
  })
  .map(({ steps, copies, least, spare, capacity, shared, closing, windows: own, odd }) => {
    const activities: Activity[] = [];
    const lags: Lag[] = [];
    const together: Together[] = [];
    const uses: { activity: number; demand: number }[][] = [[], []];
    const fits = odd === 'changeover' ? 1 : capacity;
    for (let copy = 0; copy < copies; copy++) {
      const at = activities.length;
      const isOdd = copy === 1;
      for (const duration of steps) {
        activities.push({
          duration: duration + (odd === 'duration' && isOdd ? 1 : 0),
          deadline: odd === 'deadline' && isOdd ? HORIZON - 5 : HORIZON,
          ...(odd === 'release' && isOdd ? { release: 2 } : {}),
        });
      }
      lags.push({ from: at, to: at + 1, least, greatest: least + spare });
      if (own !== undefined) together.push({ activities: [at, at + 1], windows: own });
      const demand = odd === 'demand' && isOdd ? fits : 1;
      uses[0]!.push({ activity: at, demand });
      uses[shared ? 0 : 1]!.push({ activity: at + 1, demand });
    }
    const pieces = activities.length;
    if (closing) {
      activities.push({ duration: 1, deadline: HORIZON });
      for (let i = 1; i < pieces; i += 2) lags.push({ from: i, to: pieces, least: 1 });
    }
    return {
      activities,
      lags,
      resources: uses.map((list): Resource => {
        if (odd !== 'changeover') return { capacity, uses: list };
        // Changing over to the second copy takes time, from it none.
        const isSecond = (i: number): boolean => Math.floor(i / 2) === 1;
        return {
          capacity: 1,
          uses: list,
          changeover: list.map(a => list.map(b => (isSecond(b.activity) && !isSecond(a.activity) ? 1 : 0))),
        };
      }),
      together,
    };
  });

/** The least objective by trying every start of every activity; undefined when there is no schedule. */
export function leastByTrying(problem: Problem): number | undefined {
  const count = problem.activities.length;
  const starts: number[] = [];
  // Cut early only where an activity or a lag among those placed is already broken.
  const partBroken = (): boolean => {
    const i = starts.length - 1;
    const { duration, release, deadline } = problem.activities[i]!;
    if (starts[i]! < (release ?? 0) || starts[i]! + duration > (deadline ?? HORIZON)) return true;
    return problem.lags.some(({ from, to, least, greatest }) => {
      if (Math.max(from, to) !== i) return false;
      const apart = starts[to]! - starts[from]!;
      return (least !== undefined && apart < least) || (greatest !== undefined && apart > greatest);
    });
  };
  let best: number | undefined;
  const place = (): void => {
    if (starts.length === count) {
      const objective = latestEnd(problem, starts);
      if ((best === undefined || objective < best) && checkSchedule(problem, starts).length === 0) best = objective;
      return;
    }
    for (let t = 0; t <= HORIZON; t++) {
      starts.push(t);
      if (!partBroken()) place();
      starts.pop();
    }
  };
  place();
  return best;
}
