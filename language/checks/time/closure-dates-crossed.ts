import { check } from '../check.ts';
import { fix, refOf } from '../help.ts';

export default check({
  code: 'closure-dates-crossed',
  title: 'The closures end before they begin',
  severity: 'error',
  why: '`from` is the first date on which a closure may begin and `to` the last. The wrong way round there is no closure at all.',
  source: 'tool-policy',
  bad: ['    from:      2031-04-07\n    to:        2031-05-01', '    from:      2031-05-01\n    to:        2031-04-07'],
  *find(results) {
    for (const closure of results.job.blocks.closures) {
      const { from, to } = closure;
      if (!from || !to || from.value <= to.value) continue;
      const own = [from, to].every(given => given.literal && given.place.file === results.job.file);
      yield {
        message: `${closure.name} may begin from ${from.value} until ${to.value}, so never. Exchange the two dates, or correct one.`,
        place: to.place,
        related: [{ place: from.place, message: 'The first date.' }],
        about: refOf(closure),
        fixes: own
          ? fix('Exchange the dates', [
              { place: from.place, text: to.value },
              { place: to.place, text: from.value },
            ])
          : [],
      };
    }
  },
});
