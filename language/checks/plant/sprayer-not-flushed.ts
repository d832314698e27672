import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'sprayer-not-flushed',
  title: 'The applicator still carries what it sprayed before',
  severity: 'error',
  why: 'De-icing vehicles serve well as applicators, but what is left in tank and lines can react with the product, foam, or make the runway slippery. They have to be flushed first.',
  source: 'common-practice',
  bad: ['    flushed:          yes', '    flushed:          no'],
  *find({ job }) {
    for (const sprayer of job.blocks.sprayers) {
      if (sprayer.flushed?.value !== 'no') continue;
      yield {
        message: `${sprayer.name} is not flushed of what it carried before. Have tank, pump and boom flushed before the product goes in, and write \`flushed: yes\` when that is agreed.`,
        place: sprayer.flushed.place,
        about: refOf(sprayer),
      };
    }
  },
});
