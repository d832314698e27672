import { ceilForgiving } from '../../formulas/counting.ts';
import { check } from '../check.ts';
import { above, allSteps, mixRateOf, replaceValue, say, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'coats-too-few',
  title: 'The coats are too few for the rate',
  severity: 'error',
  why: 'A surface takes only so much in one pass; the rest runs off to the edge before it has worked. The rate is then put on in several coats, as many as the rate over what one pass carries.',
  source: 'common-practice',
  bad: [
    '        rate:  0.35 L/m2 of mix',
    '        rate:  0.35 L/m2 of mix\n        pass-rate: 0.2 L/m2\n        coats: 1',
  ],
  good: [
    '        rate:  0.35 L/m2 of mix',
    '        rate:  0.35 L/m2 of mix\n        pass-rate: 0.2 L/m2\n        coats: 2',
  ],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'apply')) {
      const rate = step.rate && mixRateOf(step.rate.value, plan.product);
      if (rate === undefined || !step.coats || !step.passRate) continue;
      if (!above(rate, step.coats.value * step.passRate.value)) continue;
      const needed = ceilForgiving(rate / step.passRate.value);
      yield {
        message: `${plan.work.name}.${step.name} puts on ${say(results, rate, 'application rate')} in ${step.coats.value} coat${step.coats.value === 1 ? '' : 's'}, but one pass carries only ${say(results, step.passRate.value, 'application rate', step.passRate)}, so the rest runs off. Use ${needed} coats.`,
        place: stepPlace(step, step.coats),
        about: stepRef(plan, step),
        fixes: replaceValue(results, step.coats, String(needed), `Use ${needed} coats`),
      };
    }
  },
});
