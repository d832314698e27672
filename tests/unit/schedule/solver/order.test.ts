import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../../language/schedule/solver/model.ts';
import { earliestInOrder, latestInOrder, slack, waitsFor } from '../../../../language/schedule/solver/order.ts';
import { solveToEnd } from '../../../../language/schedule/solver/solve.ts';
import { checkSchedule, latestEnd } from '../../../support/checkSchedule.ts';
import { runwayJob } from '../../../support/runwayJobs.ts';
import { problems } from './arbitraryProblem.ts';

const chain: Problem = {
  activities: [
    { duration: 4, release: 2, tag: 'sweep' },
    { duration: 6, tag: 'spray' },
    { duration: 5, tag: 'other' },
    {
      duration: 3,
      windows: [
        { start: 0, end: 8 },
        { start: 20, end: 30 },
      ],
      tag: 'rinse',
    },
  ],
  lags: [{ from: 0, to: 1, least: 4, tag: 'after sweep' }],
  resources: [{ capacity: 1, uses: [{ activity: 1 }, { activity: 2 }], tag: 'machine' }],
};

describe('waits', () => {
  test('release, lag, machine and window are told apart', () => {
    const waits = waitsFor(chain, [2, 6, 12, 20]);
    expect(waits[0]).toEqual([{ kind: 'release', tag: 'sweep' }]);
    expect(waits[1]).toEqual([{ kind: 'lag', lag: 0, side: 'least', activity: 0, tag: 'after sweep' }]);
    expect(waits[2]).toEqual([{ kind: 'resource', resource: 0, activity: 1, tag: 'machine' }]);
    expect(waits[3]).toEqual([{ kind: 'window', window: { start: 20, end: 30 }, tag: 'rinse' }]);
  });

  test('nothing is named where there is room', () => {
    expect(waitsFor(chain, [3, 8, 15, 21]).flat()).toEqual([]);
  });

  test('a greatest lag holds the earlier one back', () => {
    const problem = { ...chain, lags: [{ from: 0, to: 1, least: 4, greatest: 5, tag: 'dwell' }] };
    expect(waitsFor(problem, [9, 14, 0, 20])[0]).toEqual([
      { kind: 'lag', lag: 0, side: 'greatest', activity: 1, tag: 'dwell' },
    ]);
  });

  test('in a schedule moved to the front everything waits for something', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const job = runwayJob(seed, 30);
      const starts = earliestInOrder(job, solveToEnd(job, { conflicts: 2000 }).starts!);
      const waits = waitsFor(job, starts);
      // A member of a group may also wait because the window of the group has begun for another.
      const first = new Map(job.together!.flatMap(group => group.activities.map(i => [i, group] as const)));
      waits.forEach((own, i) => {
        if (own.length > 0) return;
        expect(first.has(i)).toBe(true);
      });
    }
  });
});

describe('slack', () => {
  test('total slack moves the followers along, free slack does not', () => {
    const starts = [2, 6, 12, 20];
    expect(slack(chain, starts)).toEqual([
      { total: 6, free: 0 },
      { total: 6, free: 0 },
      { total: 6, free: 6 },
      { total: 0, free: 0 },
    ]);
  });

  test('both ends of the moves keep all constraints', () => {
    const run = (problem: Problem): void => {
      const { starts } = solveToEnd(problem, { conflicts: 1000 });
      if (starts === undefined) return;
      const end = latestEnd(problem, starts);
      const early = earliestInOrder(problem, starts);
      expect(checkSchedule(problem, early)).toEqual([]);
      expect(early.every((time, i) => time <= starts[i]!)).toBe(true);
      const late = latestInOrder(problem, starts, end);
      expect(checkSchedule(problem, late)).toEqual([]);
      expect(latestEnd(problem, late)).toBeLessThanOrEqual(end);
      slack(problem, starts).forEach(({ total, free }, i) => {
        expect(free).toBeGreaterThanOrEqual(0);
        expect(total).toBeGreaterThanOrEqual(free);
        const moved = [...starts];
        moved[i] = starts[i]! + free;
        expect(checkSchedule(problem, moved)).toEqual([]);
      });
    };
    fc.assert(fc.property(problems, run), { numRuns: 400, seed: 9 });
    for (const seed of [1, 2, 3, 4, 5, 6]) run(runwayJob(seed, 40, seed % 2 === 0 ? 'usual' : 'uneven'));
  });

  test('a schedule that breaks constraints is given back as it is', () => {
    const broken = [0, 0, 0, 9];
    expect(earliestInOrder(chain, broken)).toEqual(broken);
  });
});
