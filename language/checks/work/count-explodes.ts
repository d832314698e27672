import type { EngineProblem } from '../../tracks/fromPlan.ts';
import type { Results } from '../check.ts';
import { check } from '../check.ts';
import { refOf, say, stepRef } from '../help.ts';

export default check({
  code: 'count-explodes',
  title: 'Lanes, passes, loads or bays come to an impossible number',
  severity: 'error',
  why: 'A width, an advance or a tank that is far too small for the runway makes thousands of lanes or loads. That is a slip of the pen, not a job, and nothing further is computed from it.',
  source: 'tool-policy',
  bad: ['        advance: half swept', '        advance: 1 mm'],
  *find(results) {
    for (const { plan, problems } of results.works) {
      for (const problem of problems) {
        if (problem.kind === 'no bay fits') continue;
        const words = wordsOf(problem, results);
        if (words === undefined) continue;
        const { step } = problem;
        yield {
          message: `${plan.work.name}${step ? `.${step.name}` : ''} ${words} Check the numbers and their units.`,
          place: step?.heading ?? plan.work.bays?.place ?? plan.work.heading,
          about: step ? stepRef(plan, step) : refOf(plan.work),
        };
      }
    }
  },
});

/** What is wrong, as the rest of a sentence; undefined where a missing value is the cause, which is a finding of its own. */
function wordsOf(problem: EngineProblem, results: Results): string | undefined {
  const { kind, value } = problem;
  if (!Number.isFinite(value)) return undefined;
  switch (kind) {
    case 'too many bays':
      return `would be divided into ${Math.round(value)} bays.`;
    case 'too many lanes':
      return `would need ${Math.round(value)} lanes.`;
    case 'too many passes':
      return `would need ${Math.round(value)} passes in one bay.`;
    case 'too many loads':
      return `would need more than ${Math.round(value)} tank loads in one bay.`;
    case 'no progress':
      return `gets no further across the runway: neighbouring lanes are ${say(results, value, 'length')} apart.`;
    default:
      return undefined;
  }
}
