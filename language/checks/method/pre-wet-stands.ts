import { check } from '../check.ts';
import { above, allSteps, sayBoth, see, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'pre-wet-stands',
  title: 'The pre-wet puts on more water than the texture holds',
  severity: 'hint',
  why: 'Before the product comes the pavement is neither dried off nor under standing water, which would dilute it. The texture holds at most about its mean depth: 1 mm is 1 L/m². What is more has to run off first.',
  source: 'geometry',
  bad: ['        rate:  0.5 L/m2\n        when:  >= 25 °C', '        rate:  1.6 L/m2\n        when:  >= 25 °C'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'pre-wet')) {
      const texture = plan.runway?.texture;
      if (!step.rate || !texture || !above(step.rate.value.rate, texture.value)) continue;
      const [rate, held] = sayBoth(results, step.rate.value.rate, texture.value, 'application rate');
      yield {
        message: `${plan.work.name}.${step.name} puts on ${rate}, but a texture of this depth holds about ${held}, so water stands when the product comes and dilutes it. Put on less, or wait until it has run off.`,
        place: stepPlace(step, step.rate),
        related: see(texture, 'The texture.'),
        about: stepRef(plan, step),
      };
    }
  },
});
