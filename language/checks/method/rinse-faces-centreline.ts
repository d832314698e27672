import { check } from '../check.ts';
import { allSteps, placeOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'rinse-faces-centreline',
  title: 'The rinse brooms throw the dirty water to the centreline',
  severity: 'error',
  why: 'The rinse carries rubber and product from the crown to the edge. Brooms that face the centreline push the dirty water back over what was just rinsed.',
  source: 'common-practice',
  bad: ['        faces:         edge', '        faces:         centreline'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'rinse')) {
      if (step.faces?.value !== 'centreline') continue;
      yield {
        message: `In ${plan.work.name}.${step.name} the brooms face the centreline, so they push the dirty water back to the crown. Let them face the edge.`,
        place: placeOf(step.faces),
        about: stepRef(plan, step),
        fixes: replaceValue(results, step.faces, 'edge', 'Face the edge'),
      };
    }
  },
});
