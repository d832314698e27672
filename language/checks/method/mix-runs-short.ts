import { check } from '../check.ts';
import { above, percent, refOf, say, setNumber } from '../help.ts';
import { mixOfJob } from '../tracked.ts';

export default check({
  code: 'mix-runs-short',
  title: 'The passes lay more mix than is ordered',
  severity: 'warning',
  why: 'Product is ordered by rate and area, with a contingency. The sprayer covers rectangles, so it lays more where the deposit narrows, and twice where passes overlap. A contingency that is smaller than that runs out before the work is done.',
  source: 'geometry',
  bad: ['    date:       2031-03-03\n}\n', '    date:       2031-03-03\n    contingency: 1 %\n}\n'],
  *find(results) {
    const contingency = results.job.blocks.jobs[0]?.contingency;
    if (!contingency || contingency.value === 0) return;
    const { laid, byArea: mix } = mixOfJob(results);
    if (!(mix > 0) || !above(laid, mix * (1 + contingency.value))) return;
    const head = results.job.blocks.jobs[0]!;
    const needed = laid / mix - 1;
    yield {
      message: `The passes lay ${say(results, laid, 'volume')} of mix, but ${say(results, mix, 'volume')} by area and a contingency of ${percent(contingency.value)} make ${say(results, mix * (1 + contingency.value), 'volume')}. Order ${percent(Math.ceil(needed * 100) / 100)} more than by area, or overlap less.`,
      place: contingency.place,
      about: refOf(head),
      fixes: setNumber(results, contingency, Math.ceil(needed * 100) / 100, 'share', 'up', 'the contingency'),
    };
  },
});
