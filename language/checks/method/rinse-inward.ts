import { check } from '../check.ts';
import { allSteps, placeOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'rinse-inward',
  title: 'The rinse runs towards the crown',
  severity: 'error',
  why: 'Rinsing starts at the crown and moves outward, with the fall. An inward run drags dirty water back to the crown, where the next rain spreads it.',
  source: 'chemical-method-slides',
  bad: ['        travel:        outward', '        travel:        out and in'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'rinse')) {
      const { travel } = step;
      if (!travel || travel.value === 'outward') continue;
      yield {
        message: `${plan.work.name}.${step.name} travels ${travel.value}, and an inward run drags dirty water back to the crown. Rinse outward only.`,
        place: placeOf(travel),
        about: stepRef(plan, step),
        fixes: replaceValue(results, travel, 'outward', 'Rinse outward only'),
      };
    }
  },
});
