import { check } from '../check.ts';
import { allSteps, replaceValue, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'rinse-passes-few',
  title: 'The first rinse circuit is repeated too rarely',
  severity: 'warning',
  why: 'Most of the rubber lies along the centreline, so the first circuit is repeated until the water runs clear there, about three times. Going wider sooner spreads the dirt over what is still to be rinsed.',
  source: 'common-practice',
  bad: ['        first-circuit: about 3, at most 5', '        first-circuit: 1'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'rinse')) {
      const times = step.firstCircuit;
      if (!times || times.value.usual >= 3) continue;
      yield {
        message: `${plan.work.name}.${step.name} makes the first circuit only ${times.value.usual === 1 ? 'once' : 'twice'}; along the centreline it takes about three until the water runs clear. Plan for three, and more if need be.`,
        place: stepPlace(step, times),
        about: stepRef(plan, step),
        fixes: replaceValue(results, times, 'about 3, at most 5', 'Plan for about 3, at most 5'),
      };
    }
  },
});
