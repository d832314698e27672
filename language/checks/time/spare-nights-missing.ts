import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'spare-nights-missing',
  title: 'No closure is kept in reserve for weather',
  severity: 'hint',
  why: 'Wind and rain stop the work, and a closure that was lost has to be made up. If none is in reserve, the next one needs a new notice and a new agreement with everybody.',
  source: 'common-practice',
  bad: ['    spare:     2\n', ''],
  *find({ job }) {
    const { closures, weatherStops } = job.blocks;
    const kept = [...closures.map(each => each.spare?.value), ...weatherStops.map(each => each.spareNights?.value)];
    const [plan] = fullPlans(job);
    if (!plan || kept.some(number => (number ?? 0) > 0)) return;
    const block = closures[0] ?? plan.work;
    yield {
      message:
        'No closure is kept in reserve for weather. Add `spare:` to the closure or `spare-nights:` to the weather stop.',
      place: block.heading,
      about: refOf(block),
    };
  },
});
