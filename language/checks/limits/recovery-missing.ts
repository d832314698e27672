import { check } from '../check.ts';
import { fullPlans, refOf, stepsOf } from '../help.ts';

export default check({
  code: 'recovery-missing',
  title: 'Nothing takes the wash water up',
  severity: 'warning',
  why: 'Contracts ask for immediate recovery of standing and running wash water. Water that is only pushed to the edge ends in the soil beside the runway.',
  source: 'state-solicitation',
  bad: ['    recovery:  sweeper', '    recovery:  none'],
  *find({ job }) {
    const plan = [...fullPlans(job)].find(each => stepsOf(each, 'rinse', 'jet').length > 0);
    for (const block of job.blocks.environments) {
      if (!plan || (block.recovery?.value ?? 'none') !== 'none') continue;
      yield {
        message: `Nothing takes up the water of ${plan.work.name}, so it ends beside the runway. Say under \`recovery:\` how it is taken up: sweeper, vacuum or trench.`,
        place: block.recovery?.place ?? block.heading,
        about: refOf(block),
      };
    }
  },
});
