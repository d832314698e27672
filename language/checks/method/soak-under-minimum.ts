import { check } from '../check.ts';
import { allSteps, below, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'soak-under-minimum',
  title: 'The soak is shorter than the product needs',
  severity: 'error',
  why: "The maker's shortest time is what the product needs to go through the rubber. Brooms that come sooner spread it instead of working it in, and the deposit stays.",
  source: 'common-practice',
  bad: ['BroomAndRinse(soak: 40 min)', 'BroomAndRinse(soak: 20 min)'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'soak')) {
      const least = plan.product?.dwellLeast;
      if (!step.atLeast || !least || !below(step.atLeast.value, least.value)) continue;
      const [soak, limit] = sayBoth(results, step.atLeast.value, least.value, 'time', step.atLeast);
      yield {
        message: `${plan.work.name} lets the product soak for ${soak}, but ${plan.product!.name} needs at least ${limit}. Lengthen the soak.`,
        place: stepPlace(step, step.atLeast),
        related: see(least, `The shortest time of ${plan.product!.name}.`),
        about: stepRef(plan, step),
        fixes: setNumber(results, step.atLeast, least.value, 'time', 'up', 'the soak'),
      };
    }
  },
});
