import { check } from '../check.ts';
import { closureDates, counted, refOf, setNumber } from '../help.ts';

export default check({
  code: 'closure-number-too-large',
  title: 'More closures are promised than there are dates for',
  severity: 'warning',
  why: 'The dates and weekdays allow only so many closures. A larger number will be taken for a promise that nobody can keep.',
  source: 'tool-policy',
  bad: ['    spare:     2', '    spare:     2\n    number:    40'],
  good: ['    spare:     2', '    spare:     2\n    number:    8'],
  *find(results) {
    for (const closure of results.job.blocks.closures) {
      const dates = closureDates(closure);
      if (!dates || dates.length === 0 || !closure.number || closure.number.value <= dates.length) continue;
      yield {
        message: `${closure.name} promises ${counted(closure.number.value, 'closure')}, but its dates and weekdays allow ${dates.length}. Lower the number, or allow more dates.`,
        place: closure.number.place,
        about: refOf(closure),
        fixes: setNumber(results, closure.number, dates.length, 'count', 'down', 'the number'),
      };
    }
  },
});
