import { check } from '../check.ts';
import { allSteps, see, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'rinse-against-fall',
  title: 'The runway falls one way, so half of the rinse runs uphill',
  severity: 'warning',
  why: 'Circuits round the centreline rinse with the fall on both sides only where the crown is in the centre. Where the highest line is an edge, the water of that half runs back across the centreline.',
  source: 'common-practice',
  bad: ['    crossfall: 1.5 %', '    crossfall: 1.5 %\n    crown:     left edge'],
  *find({ job }) {
    for (const { plan, step } of allSteps(job, 'rinse')) {
      const crown = plan.runway?.crown;
      if (!crown || crown.value === 'centre') continue;
      yield {
        message: `The crown of runway ${plan.runway!.name} is the ${crown.value}, so on that side ${plan.work.name}.${step.name} pushes the water uphill and it runs back. Say how that half is rinsed, from the ${crown.value} across.`,
        place: stepPlace(step, step.travel),
        related: see(crown, 'The crown.'),
        about: stepRef(plan, step),
      };
    }
  },
});
