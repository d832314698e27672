import { check } from '../check.ts';
import { allSteps, placeOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'agitate-faces-edge',
  title: 'The brooms throw the product away from where it works',
  severity: 'warning',
  why: 'On the way out the brooms face the centreline, so that they carry the product back over the rubber; on the way in sense of travel and facing both turn. Facing the edge on the way out, they sweep the product off the deposit.',
  source: 'common-practice',
  bad: ['        cycles:  2\n        faces:   centreline', '        cycles:  2\n        faces:   edge'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'agitate')) {
      if (step.faces?.value !== 'edge') continue;
      yield {
        message: `In ${plan.work.name}.${step.name} the brooms face the edge on the way out, so they sweep the product off the deposit. Let them face the centreline.`,
        place: placeOf(step.faces),
        about: stepRef(plan, step),
        fixes: replaceValue(results, step.faces, 'centreline', 'Face the centreline'),
      };
    }
  },
});
