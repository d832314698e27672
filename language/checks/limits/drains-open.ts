import { check } from '../check.ts';
import { fullPlans, refOf, replaceValue } from '../help.ts';

export default check({
  code: 'drains-open',
  title: 'The drains stay open while the pavement is washed',
  severity: 'error',
  why: 'Airport wash rules ask for blocked storm drains and removal of the collected water. Through an open drain product and rubber are in the next stream within minutes, and can not be taken back.',
  source: 'maryland-wash-rules',
  bad: ['    drains:    blocked', '    drains:    open'],
  *find(results) {
    const [plan] = fullPlans(results.job);
    for (const block of results.job.blocks.environments) {
      if (block.drains?.value !== 'open' || !plan) continue;
      yield {
        message: `The drains that the water of ${plan.work.name} can reach stay open. Have them blocked before the first water, and take up what stands before them.`,
        place: block.drains.place,
        about: refOf(block),
        fixes: replaceValue(results, block.drains, 'blocked', 'Block the drains'),
      };
    }
  },
});
