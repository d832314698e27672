import { check } from '../check.ts';
import { allSteps, refOf } from '../help.ts';

export default check({
  code: 'exclusion-zone-missing',
  title: 'No distance is named that people keep from the jets',
  severity: 'warning',
  safety: true,
  why: 'Injuries by water jets can look minor and be as serious as gunshot wounds. An exclusion zone is set, and the jets stop when anyone enters it.',
  source: 'water-jetting-injuries',
  bad: { water: ['    exclusion-zone: 15 m\n', ''] },
  *find({ job }) {
    if (job.blocks.safeties.some(safety => safety.exclusionZone)) return;
    for (const { plan, step } of allSteps(job, 'jet')) {
      const block = job.blocks.safeties[0] ?? plan.work;
      yield {
        message: `${plan.work.name}.${step.name} works with water jets, and no distance is named that people keep from them. Add \`exclusion-zone:\` to a \`safety\` block; the jets stop when anyone enters it.`,
        place: block.heading,
        about: refOf(block),
      };
      return;
    }
  },
});
