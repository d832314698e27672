import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { explainInfeasible } from '../../../../language/schedule/solver/explain.ts';
import type { Problem } from '../../../../language/schedule/solver/model.ts';
import { solveToEnd } from '../../../../language/schedule/solver/solve.ts';
import { runwayJob } from '../../../support/runwayJobs.ts';
import { problems } from './arbitraryProblem.ts';

describe('lags that contradict each other', () => {
  // The broom may wait at most 40 after spraying, but the sweep between takes 25 on each side.
  const problem: Problem = {
    activities: [{ duration: 20 }, { duration: 25 }, { duration: 5 }, { duration: 9 }],
    lags: [
      { from: 3, to: 0, least: 9, tag: 'elsewhere' },
      { from: 0, to: 1, least: 20, tag: 'sweep after spray' },
      { from: 1, to: 2, least: 25, tag: 'broom after sweep' },
      { from: 0, to: 2, least: 0, greatest: 40, tag: 'dwell' },
    ],
    resources: [],
  };

  test('are given as the cycle they form', () => {
    const answer = solveToEnd(problem);
    expect(answer.status).toBe('infeasible');
    expect(answer.cycle).toEqual({
      steps: [
        { lag: 1, side: 'least', from: 0, to: 1, atLeast: 20, tag: 'sweep after spray' },
        { lag: 2, side: 'least', from: 1, to: 2, atLeast: 25, tag: 'broom after sweep' },
        { lag: 3, side: 'greatest', from: 2, to: 0, atLeast: -40, tag: 'dwell' },
      ],
      excess: 5,
    });
    expect(explainInfeasible(problem)).toEqual({ kind: 'cycle', cycle: answer.cycle });
  });

  test('a cycle of exactly nothing is possible', () => {
    const lags = problem.lags.map(lag => (lag.tag === 'dwell' ? { ...lag, greatest: 45 } : lag));
    expect(solveToEnd({ ...problem, lags }).status).toBe('optimal');
  });
});

describe('cores', () => {
  test('two that need the same machine within one window, and nothing else', () => {
    const windows = [{ start: 0, end: 10 }];
    const problem: Problem = {
      activities: [
        { duration: 3, tag: 'a' },
        { duration: 6, windows, tag: 'b' },
        { duration: 2, windows, tag: 'c' },
        { duration: 5, windows, tag: 'd' },
      ],
      lags: [
        { from: 0, to: 1, least: 0, tag: 'ab' },
        { from: 2, to: 3, least: 1, tag: 'cd' },
      ],
      resources: [
        { capacity: 1, uses: [{ activity: 1 }, { activity: 3 }, { activity: 0 }], tag: 'machine' },
        { capacity: 2, uses: [{ activity: 0 }, { activity: 2 }], tag: 'pool' },
      ],
    };
    expect(explainInfeasible(problem)).toEqual({
      kind: 'core',
      activities: [1, 3],
      constraints: [
        { kind: 'resource', index: 0, tag: 'machine' },
        { kind: 'windows', index: 1, tag: 'b' },
        { kind: 'windows', index: 3, tag: 'd' },
      ],
      minimal: true,
    });
  });

  test('a bound that is too early names the chain that keeps the end back', () => {
    const problem: Problem = {
      activities: [{ duration: 4 }, { duration: 5 }, { duration: 6 }],
      lags: [
        { from: 0, to: 1, least: 4, tag: 'first' },
        { from: 0, to: 2, least: 1, tag: 'side' },
      ],
      resources: [],
    };
    const explanation = explainInfeasible(problem, { upperBound: 8 });
    expect(explanation).toMatchObject({ kind: 'core', activities: [0, 1], minimal: true });
    expect(explanation.kind === 'core' && explanation.constraints).toEqual([
      { kind: 'lag', index: 0, tag: 'first' },
      { kind: 'upperBound', index: 0 },
    ]);
  });

  test('what is possible has no explanation', () => {
    expect(explainInfeasible(runwayJob(3, 20))).toEqual({ kind: 'none', status: 'possible' });
  });

  test('of a runway job that can not end earlier: impossible alone, and possible without any one part', () => {
    const job = runwayJob(1, 20);
    const best = solveToEnd(job);
    const explanation = explainInfeasible(job, { upperBound: best.makespan! - 1 });
    expect(explanation.kind).toBe('core');
    if (explanation.kind !== 'core') return;
    expect(explanation.minimal).toBe(true);
    expect(explanation.constraints.length).toBeLessThan(job.lags.length);
    expect(explainInfeasible(job, { upperBound: best.makespan! - 1 })).toEqual(explanation);
  });

  test('random problems: the core is impossible by itself and possible without any one constraint', () => {
    const only = (problem: Problem, activities: ReadonlySet<number>, held: ReadonlySet<string>): Problem => ({
      activities: problem.activities.map((each, i) => {
        if (!activities.has(i)) return { duration: 0 };
        const { duration, release, deadline, windows } = each;
        return {
          duration,
          ...(release !== undefined && held.has(`release ${i}`) ? { release } : {}),
          ...(deadline !== undefined && held.has(`deadline ${i}`) ? { deadline } : {}),
          ...(windows !== undefined && held.has(`windows ${i}`) ? { windows } : {}),
        };
      }),
      lags: problem.lags.filter((_, k) => held.has(`lag ${k}`)),
      resources: problem.resources.filter((_, k) => held.has(`resource ${k}`)),
      together: (problem.together ?? [])
        .filter((_, k) => held.has(`together ${k}`))
        .map(group => ({ ...group, activities: group.activities.filter(i => activities.has(i)) })),
    });
    let cores = 0;
    fc.assert(
      fc.property(problems, problem => {
        const explanation = explainInfeasible(problem);
        if (explanation.kind !== 'core') {
          expect(solveToEnd(problem).status === 'infeasible').toBe(explanation.kind === 'cycle');
          return;
        }
        cores++;
        const activities = new Set(explanation.activities);
        const held = explanation.constraints.map(ref => `${ref.kind} ${ref.index}`);
        expect(solveToEnd(only(problem, activities, new Set(held))).status).toBe('infeasible');
        for (const left of held) {
          const status = solveToEnd(only(problem, activities, new Set(held.filter(each => each !== left)))).status;
          expect(status).toBe('optimal');
        }
      }),
      { numRuns: 250, seed: 5 },
    );
    expect(cores).toBeGreaterThan(50);
  });
});
