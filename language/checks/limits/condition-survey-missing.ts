import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'condition-survey-missing',
  title: 'Nobody records the condition of the runway before the work',
  severity: 'hint',
  why: 'After the work nobody can tell an old crack from a new one. Specifications ask for an inspection of the existing conditions with photographs: joints, sealant, cracks, lights.',
  source: 'federal-solicitation',
  bad: ['    survey: "joints and lights photographed before the work"\n', ''],
  *find({ job }) {
    if (job.blocks.warranties.some(warranty => warranty.survey)) return;
    const [plan] = fullPlans(job);
    if (!plan) return;
    const block = job.blocks.warranties[0] ?? plan.work;
    yield {
      message:
        "Nobody records the condition of joints, lights and pavement before the work, so damage can't be told from what was there. Add `survey:` to a `warranty` block.",
      place: block.heading,
      about: refOf(block),
    };
  },
});
