import { check } from '../check.ts';
import { fullPlans, isChemical, refOf } from '../help.ts';

export default check({
  code: 'eyewash-missing',
  title: 'Nothing says where the eyewash is',
  severity: 'warning',
  safety: true,
  why: 'After a splash of an alkaline product the first seconds decide about the eye. An eyewash within ten seconds, with water for fifteen minutes, is the standard (from memory); the safety data sheet governs.',
  source: 'ansi-z358-1',
  bad: ['    eyewash:        "on the sprayer and at the store"\n', ''],
  *find({ job }) {
    if (job.blocks.safeties.some(safety => safety.eyewash?.value.trim())) return;
    const plan = [...fullPlans(job)].find(isChemical);
    if (!plan) return;
    const block = job.blocks.safeties[0] ?? plan.work;
    yield {
      message: `${plan.work.name} works with a product, and nothing says where the eyewash is. Add \`eyewash:\` to a \`safety\` block.`,
      place: block.heading,
      about: refOf(block),
    };
  },
});
