import { check } from '../check.ts';
import { above, allSteps, sayBoth, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'soak-limits-crossed',
  title: 'The shortest soak is longer than the longest',
  severity: 'error',
  why: 'The shortest soak counts until the first tool, the longest until the product is rinsed off. If the first is longer than the second, no work can keep both.',
  source: 'tool-policy',
  bad: ['BroomAndRinse(soak: 40 min)', 'BroomAndRinse(soak: 250 min)'],
  alongside: ['job-does-not-fit'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'soak')) {
      if (!step.atLeast || !step.atMost || !above(step.atLeast.value, step.atMost.value)) continue;
      const [least, most] = sayBoth(results, step.atLeast.value, step.atMost.value, 'time', step.atLeast);
      yield {
        message: `The soak of ${plan.work.name} lasts at least ${least}, but at most ${most}, so no work can keep both. Shorten the first or lengthen the second.`,
        place: stepPlace(step, step.atLeast),
        related: [{ place: step.atMost.place, message: 'The longest time.' }],
        about: stepRef(plan, step),
      };
    }
  },
});
