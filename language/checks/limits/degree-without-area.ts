import { check } from '../check.ts';
import { addLine, refOf } from '../help.ts';

export default check({
  code: 'degree-without-area',
  title: 'A share of the deposit is asked for without the share of the area',
  severity: 'hint',
  why: '85 % of the build-up can mean all of the area nearly clean, or most of it clean and the rest untouched. A guide specification asks for 85 % of the build-up from 100 % of the covered area.',
  source: 'etl-97-17',
  bad: ['    of-area:  100 %\n', ''],
  *find(results) {
    for (const block of results.job.blocks.acceptances) {
      if (!block.removed || block.ofArea) continue;
      yield {
        message: `${block.removed.text} of the deposit is asked for, but not from how much of the area. Add \`of-area: 100 %\`, or the share that is meant.`,
        place: block.removed.place,
        about: refOf(block),
        fixes: addLine(results, block, 'of-area: 100 %', 'Ask for it from all of the area'),
      };
    }
  },
});
