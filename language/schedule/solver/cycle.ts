/**
 * Lags that contradict each other: a cycle of lags that adds up to more than nothing asks an activity to start after itself.
 * Such a cycle is the whole explanation of why a problem is impossible.
 */
import type { Cycle, CycleStep, Problem } from './model.ts';

/** A positive cycle among the lags of a well-formed problem, as short as the search finds it; undefined when there is none. */
export function positiveCycle(problem: Problem): Cycle | undefined {
  const steps = cycleSteps(problem);
  const alone = steps.find(step => step.from === step.to && step.atLeast > 0);
  if (alone !== undefined) return { steps: [alone], excess: alone.atLeast };
  const count = problem.activities.length;
  // Bellman–Ford for longest paths from everywhere at once: what still grows after `count` rounds hangs on a cycle.
  const distance = new Float64Array(count);
  const by: (CycleStep | undefined)[] = new Array(count).fill(undefined);
  for (let round = 0; round <= count; round++) {
    let grew: number | undefined;
    for (const step of steps) {
      if (distance[step.from]! + step.atLeast <= distance[step.to]!) continue;
      distance[step.to] = distance[step.from]! + step.atLeast;
      by[step.to] = step;
      grew = step.to;
    }
    if (grew === undefined) return undefined;
    // A cycle among the predecessors can show long before the last round.
    if ((round & 7) === 7 || round === count) {
      const found = cycleThrough(by, grew, count);
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function cycleSteps(problem: Problem): CycleStep[] {
  const steps: CycleStep[] = [];
  problem.lags.forEach(({ from, to, least, greatest, tag }, lag) => {
    const named = tag === undefined ? {} : { tag };
    if (least !== undefined) steps.push({ lag, side: 'least', from, to, atLeast: least, ...named });
    if (greatest !== undefined) steps.push({ lag, side: 'greatest', from: to, to: from, atLeast: -greatest, ...named });
  });
  return steps;
}

/** Walks back from `node` along the steps that last raised each node; the first node met twice closes the cycle. */
function cycleThrough(by: readonly (CycleStep | undefined)[], node: number, count: number): Cycle | undefined {
  let at = node;
  for (let k = 0; k < count; k++) {
    const step = by[at];
    if (step === undefined) return undefined;
    at = step.from;
  }
  const steps: CycleStep[] = [];
  const home = at;
  do {
    const step = by[at];
    if (step === undefined) return undefined;
    steps.push(step);
    at = step.from;
  } while (at !== home && steps.length <= count);
  const excess = steps.reduce((sum, step) => sum + step.atLeast, 0);
  if (at !== home || excess <= 0) return undefined;
  // The same cycle always starts at its lowest lag, so that the text it becomes does not depend on where the walk began.
  steps.reverse();
  const first = steps.reduce((best, step, k) => (step.lag < steps[best]!.lag ? k : best), 0);
  return { steps: [...steps.slice(first), ...steps.slice(0, first)], excess };
}
