import { check } from '../check.ts';
import { fullPlans, isChemical, refOf } from '../help.ts';

export default check({
  code: 'interceptor-and-detergent',
  title: 'Water with product goes through an oil interceptor',
  severity: 'warning',
  why: 'Detergents emulsify oil and defeat gravity separators (from memory): what the interceptor held back before goes out with the rinse. Such water goes to the foul sewer with consent, or into a tanker.',
  source: 'detergent-and-separators',
  bad: ['    drains:    blocked', '    drains:    to interceptor'],
  *find({ job }) {
    const plan = [...fullPlans(job)].find(isChemical);
    for (const block of job.blocks.environments) {
      if (block.drains?.value !== 'to interceptor' || !plan) continue;
      yield {
        message: `The rinse water of ${plan.work.name} holds product and reaches an interceptor, which a detergent defeats (from memory). Block the drains and take the water away.`,
        place: block.drains.place,
        about: refOf(block),
      };
    }
  },
});
