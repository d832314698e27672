import { check } from '../check.ts';
import { above, refOf, sayBoth } from '../help.ts';

export default check({
  code: 'work-backwards',
  title: 'The stretch of a work ends before it begins',
  severity: 'error',
  why: 'Chainage counts from the landing threshold, so `from` is the smaller number whatever the direction of travel. Otherwise the stretch holds nothing.',
  source: 'tool-policy',
  bad: ['    closure:    Nights', '    closure:    Nights\n    from:       750 m\n    to:         150 m'],
  alongside: ['work-leaves-deposit'],
  *find(results) {
    for (const work of results.job.blocks.works) {
      if (!work.from || !work.to || above(work.to.value, work.from.value)) continue;
      const [from, to] = sayBoth(results, work.from.value, work.to.value, 'length', work.from);
      yield {
        message: `${work.name} goes from ${from} to ${to}, which is no stretch. Write the smaller chainage under \`from\`.`,
        place: work.from.place,
        about: refOf(work),
      };
    }
  },
});
