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
    fc.assert(fc.property(problems, agreesWithTrying), { numRuns: 600, seed: 7 });
  });

  test('problems of alike parts', () => {
    fc.assert(fc.property(repeatedProblems, agreesWithTrying), { numRuns: 120, seed: 11 });
  });
});
