import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../../language/schedule/solver/model.ts';
import { createSearch, solve, solveToEnd } from '../../../../language/schedule/solver/solve.ts';
import { checkSchedule, latestEnd } from '../../../support/checkSchedule.ts';
import { runwayJob } from '../../../support/runwayJobs.ts';
import { leastByTrying, problems, repeatedProblems } from './arbitraryProblem.ts';

function agreesWithTrying(problem: Problem): void {
  const answer = solveToEnd(problem);
  const least = leastByTrying(problem);
  if (least === undefined) {
    expect(answer.status).toBe('infeasible');
    expect(answer.starts).toBeUndefined();
    return;
  }
  expect(answer.status).toBe('optimal');
  expect(checkSchedule(problem, answer.starts!)).toEqual([]);
  expect(answer.makespan).toBe(least);
  expect(answer.bound).toBe(least);
  expect(latestEnd(problem, answer.starts!)).toBe(least);
}

describe('against trying all starts', () => {
  test('random problems', () => {
    fc.assert(fc.property(problems, agreesWithTrying), { numRuns: 500, seed: 7 });
  });

  test('problems of alike parts', () => {
    fc.assert(fc.property(repeatedProblems, agreesWithTrying), { numRuns: 160, seed: 11 });
  });
});

describe('windows', () => {
  const night = { start: 0, end: 10 };
  const next = { start: 24, end: 34 };

  test('an activity that does not fit into what is left of a window waits for the next', () => {
    const answer = solveToEnd({
      activities: [
        { duration: 6, windows: [night, next] },
        { duration: 6, windows: [night, next] },
      ],
      lags: [{ from: 0, to: 1, least: 6 }],
      resources: [],
    });
    expect(answer).toMatchObject({ status: 'optimal', starts: [0, 24], makespan: 30 });
  });

  test('a group that can not be finished in the first window is not begun in it', () => {
    const alone = {
      activities: [{ duration: 6 }, { duration: 6 }],
      lags: [{ from: 0, to: 1, least: 6 }],
      resources: [],
    };
    const together = [{ activities: [0, 1], windows: [night, { start: 24, end: 36 }] }];
    expect(solveToEnd({ ...alone, together })).toMatchObject({ status: 'optimal', starts: [24, 30] });
  });

  test('a window exactly as long as the work is used to the last minute', () => {
    const answer = solveToEnd({
      activities: [{ duration: 10, release: 1, windows: [night, next] }],
      lags: [],
      resources: [],
    });
    expect(answer).toMatchObject({ status: 'optimal', starts: [24], makespan: 34 });
  });

  test('no window is long enough', () => {
    const answer = solveToEnd({ activities: [{ duration: 11, windows: [night, next] }], lags: [], resources: [] });
    expect(answer.status).toBe('infeasible');
  });

  test('five equal groups, two to a window, need three windows', () => {
    const windows = [0, 1, 2, 3].map(k => ({ start: 24 * k, end: 24 * k + 10 }));
    const activities = Array.from({ length: 5 }, () => ({ duration: 4, windows }));
    const resources = [{ capacity: 1, uses: activities.map((_, activity) => ({ activity })) }];
    const answer = solveToEnd({ activities, lags: [], resources });
    expect(answer).toMatchObject({ status: 'optimal', makespan: 52 });
  });
});

describe('one aim after another', () => {
  const job = runwayJob(3, 40);

  test('the least objective as upper bound keeps it, one less has no schedule', () => {
    const least = solveToEnd(job);
    expect(least.status).toBe('optimal');
    expect(solveToEnd(job, { upperBound: least.makespan! })).toMatchObject({
      status: 'optimal',
      makespan: least.makespan,
    });
    expect(solveToEnd(job, { upperBound: least.makespan! - 1 }).status).toBe('infeasible');
  });

  test('the end of one activity is brought forward with the whole held by deadlines', () => {
    const whole = solveToEnd(job);
    const held = {
      ...job,
      activities: job.activities.map(each => ({ ...each, deadline: whole.makespan! })),
      objective: [4],
    };
    const answer = solveToEnd(held, { hint: whole.starts! });
    expect(answer.status).toBe('optimal');
    expect(checkSchedule(held, answer.starts!)).toEqual([]);
    expect(answer.makespan!).toBeLessThanOrEqual(whole.starts![4]! + job.activities[4]!.duration);
    expect(latestEnd(job, answer.starts!)).toBeLessThanOrEqual(whole.makespan!);
  });

  test('a hint is at least kept, even without budget', () => {
    const hint = solveToEnd(job).starts!;
    const answer = solveToEnd(job, { hint, conflicts: 0 });
    expect(answer.makespan).toBeLessThanOrEqual(latestEnd(job, hint));
    expect(checkSchedule(job, answer.starts!)).toEqual([]);
  });

  test('a hint that breaks a constraint is ignored', () => {
    const answer = solveToEnd(job, { hint: job.activities.map(() => 0), conflicts: 0 });
    expect(answer.status).toBe('unknown');
  });
});

describe('repeatable and interruptible', () => {
  const job = runwayJob(8, 61, 'uneven');

  test('the same problem twice gives the same answer, byte for byte', () => {
    const [first, second] = [solveToEnd(job, { conflicts: 1500 }), solveToEnd(job, { conflicts: 1500 })];
    expect(JSON.stringify(first)).toBe(JSON.stringify(second));
  });

  test.each([1, 7, 100])('slices of %i conflicts give the same as one go', slice => {
    const whole = solveToEnd(job, { conflicts: 600 });
    const search = createSearch(job, { conflicts: 600 });
    let steps = 0;
    while (!search.step(slice)) steps++;
    expect(steps).toBeGreaterThan(1);
    expect(JSON.stringify(search.answer())).toBe(JSON.stringify(whole));
  });

  test('each slice knows at least as much as the one before', () => {
    let best = Infinity;
    let bound = -Infinity;
    for (const answer of solve(job, { conflicts: 800 }, 50)) {
      expect(answer.bound).toBeGreaterThanOrEqual(bound);
      expect(answer.makespan ?? Infinity).toBeLessThanOrEqual(best);
      if (answer.starts !== undefined) expect(checkSchedule(job, answer.starts)).toEqual([]);
      best = answer.makespan ?? Infinity;
      bound = answer.bound;
    }
    expect(best).toBeLessThan(Infinity);
  });

  test('the budget is in conflicts and is kept', () => {
    const answer = solveToEnd(job, { conflicts: 40 });
    expect(answer.conflicts).toBe(40);
    expect(['feasible', 'unknown']).toContain(answer.status);
  });

  test('the problem is left as it was', () => {
    const text = JSON.stringify(job);
    solveToEnd(job, { conflicts: 100 });
    expect(JSON.stringify(job)).toBe(text);
  });
});

describe('edges', () => {
  test('nothing to do', () => {
    expect(solveToEnd({ activities: [], lags: [], resources: [] })).toMatchObject({
      status: 'optimal',
      starts: [],
      makespan: 0,
    });
  });

  test('only the first schedule is asked for', () => {
    const job = runwayJob(8, 61, 'uneven');
    const answer = solveToEnd(job, { firstOnly: true });
    expect(['feasible', 'optimal']).toContain(answer.status);
    expect(checkSchedule(job, answer.starts!)).toEqual([]);
  });

  test('an activity that needs more than there is', () => {
    const problem = {
      activities: [{ duration: 1 }],
      lags: [],
      resources: [{ capacity: 1, uses: [{ activity: 0, demand: 2 }] }],
    };
    expect(solveToEnd(problem).status).toBe('infeasible');
  });

  test('releases before time 0', () => {
    const problem = {
      activities: [
        { duration: 2, release: -10 },
        { duration: 3, release: -5 },
      ],
      lags: [{ from: 0, to: 1, least: 2 }],
      resources: [],
    };
    expect(solveToEnd(problem)).toMatchObject({ status: 'optimal', starts: [-10, -5], makespan: -2 });
  });

  test.each([
    ['no lists', {}, 'activities'],
    [
      'a duration that is not whole',
      { activities: [{ duration: 1.5 }], lags: [], resources: [] },
      'activities[0].duration',
    ],
    [
      'a lag to nowhere',
      { activities: [{ duration: 1 }], lags: [{ from: 0, to: 1, least: 0 }], resources: [] },
      'lags[0].to',
    ],
    ['not a number', { activities: [{ duration: Number.NaN }], lags: [], resources: [] }, 'activities[0].duration'],
    ['a time too long', { activities: [{ duration: 1e12 }], lags: [], resources: [] }, 'activities[0].duration'],
    [
      'windows out of order',
      {
        activities: [
          {
            duration: 1,
            windows: [
              { start: 5, end: 9 },
              { start: 1, end: 3 },
            ],
          },
        ],
        lags: [],
        resources: [],
      },
      'activities[0].windows[1]',
    ],
    [
      'a changeover table of the wrong shape',
      {
        activities: [{ duration: 1 }],
        lags: [],
        resources: [{ capacity: 1, uses: [{ activity: 0 }], changeover: [] }],
      },
      'resources[0].changeover',
    ],
    ['an objective that does not exist', { activities: [], lags: [], resources: [], objective: [0] }, 'objective[0]'],
  ])('invalid: %s', (_, problem, where) => {
    const answer = solveToEnd(problem as unknown as Problem);
    expect(answer.status).toBe('invalid');
    expect(answer.faults!.map(fault => fault.where)).toContain(where);
  });

  test('never throws on anything shaped like a problem', () => {
    const anything = fc.oneof(
      fc.anything(),
      fc.record({ duration: fc.anything(), windows: fc.anything(), release: fc.anything() }),
    );
    const problem = fc.record({
      activities: fc.oneof(fc.anything(), fc.array(anything)),
      lags: fc.oneof(fc.anything(), fc.array(fc.anything())),
      resources: fc.oneof(fc.anything(), fc.array(fc.record({ capacity: fc.anything(), uses: fc.anything() }))),
      together: fc.anything(),
      objective: fc.anything(),
    });
    fc.assert(
      fc.property(problem, each => {
        expect(typeof solveToEnd(each as unknown as Problem, { conflicts: 50 }).status).toBe('string');
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});
