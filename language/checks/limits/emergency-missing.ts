import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'emergency-missing',
  title: 'Nothing says what is done when an aircraft has to land',
  severity: 'warning',
  safety: true,
  why: 'The trigger, the order in which machines leave and who tells the tower have to be known before the night. Guide specifications have a heading for emergency landings.',
  source: 'ufgs-32-01-11-51',
  bad: ['    emergency:      "operations call stop; brooms leave first, then trucks, then sweepers"\n', ''],
  *find({ job }) {
    if (job.blocks.safeties.some(safety => safety.emergency?.value.trim())) return;
    const [plan] = fullPlans(job);
    if (!plan) return;
    const block = job.blocks.safeties[0] ?? plan.work;
    yield {
      message: `Nothing says what the crew of ${plan.work.name} does when an aircraft has to land. Add \`emergency:\` to a \`safety\` block: who calls, who leaves in which order, where to.`,
      place: block.heading,
      about: refOf(block),
    };
  },
});
