import { check } from '../check.ts';
import { above, allSteps, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'soak-over-maximum',
  title: 'The product may stand longer than its maker allows',
  severity: 'error',
  why: 'Left on too long, a product can harm paint, sealant and the surface itself, and it dries in. The longest time counts until it is rinsed off.',
  source: 'faa-12c-removal',
  bad: ['        at-most:  4 h', '        at-most:  6 h'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'soak')) {
      const most = plan.product?.dwellMost;
      if (!most) continue;
      for (const given of [step.atMost, step.atLeast]) {
        if (!given || !above(given.value, most.value)) continue;
        const [soak, limit] = sayBoth(results, given.value, most.value, 'time', given);
        yield {
          message: `${plan.work.name} lets the product stand for ${soak}, but ${plan.product!.name} may stand at most ${limit} until it is rinsed off. Shorten it.`,
          place: stepPlace(step, given),
          related: see(most, `The longest time of ${plan.product!.name}.`),
          about: stepRef(plan, step),
          fixes: given === step.atMost ? setNumber(results, given, most.value, 'time', 'down', 'the longest time') : [],
        };
        break;
      }
    }
  },
});
