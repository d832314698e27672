import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'protection-missing',
  title: 'No personal protective equipment is named',
  severity: 'warning',
  safety: true,
  why: 'Removal products burn skin and eyes, and jets injure through boots. Section 8 of the safety data sheet names the protective equipment; local rules on occupational safety govern.',
  source: 'sds-sections',
  bad: ['    protection:     "goggles", "gloves", "boots"\n', '', '    protection:        "goggles", "gloves"\n', ''],
  *find({ job }) {
    const named = job.blocks.safeties.some(safety => safety.protection?.value.length);
    for (const { work, product } of fullPlans(job)) {
      if (named || product?.protection?.value.length) continue;
      const block = job.blocks.safeties[0] ?? work;
      yield {
        message: `No personal protective equipment is named for ${work.name}. Add \`protection:\` from section 8 of the safety data sheet and the rules of the site.`,
        place: block.heading,
        about: refOf(block),
      };
      return;
    }
  },
});
