import { check } from '../check.ts';
import { closureDates, refOf } from '../help.ts';

export default check({
  code: 'closure-never',
  title: 'No date of the closures is one of their weekdays',
  severity: 'error',
  why: 'A closure begins on the weekdays that its hours name, between its first and last date, less the dates that are taken out. If none is left, the runway is never closed.',
  source: 'tool-policy',
  bad: ['    from:      2031-04-07\n    to:        2031-05-01', '    from:      2031-04-11\n    to:        2031-04-13'],
  *find({ job }) {
    for (const closure of job.blocks.closures) {
      const dates = closureDates(closure);
      const crossed = closure.from && closure.to && closure.from.value > closure.to.value;
      if (dates === undefined || dates.length > 0 || crossed) continue;
      yield {
        message: `No date from ${closure.from!.value} to ${closure.to!.value} is one of the weekdays in \`hours\`, so ${closure.name} never happens. Correct the weekdays or the dates.`,
        place: closure.hours!.place,
        related: [{ place: closure.from!.place, message: 'The first date.' }],
        about: refOf(closure),
      };
    }
  },
});
