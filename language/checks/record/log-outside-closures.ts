import { check } from '../check.ts';
import { closureDates, refOf } from '../help.ts';

export default check({
  code: 'log-outside-closures',
  title: 'The record is of a night on which there was no closure',
  severity: 'error',
  why: 'The record is what payment and the next inspection rest on. A night that is in no closure means a wrong date, or work on a runway that was not closed.',
  source: 'tool-policy',
  bad: ['warranty {', 'log Night1 {\n    work: North\n    date: 2031-04-12\n}\n\nwarranty {'],
  good: ['warranty {', 'log Night1 {\n    work: North\n    date: 2031-04-14\n}\n\nwarranty {'],
  *find({ job }) {
    for (const log of job.blocks.logs) {
      const work = job.blocks.works.find(each => each.id === log.work?.value.id);
      if (!log.date || !work) continue;
      const closures = job.blocks.closures.filter(
        each => !work.closure || work.closure.value.some(ref => ref.id === each.id),
      );
      const dates = closures.map(closureDates);
      if (dates.length === 0 || dates.includes(undefined) || dates.some(each => each!.includes(log.date!.value)))
        continue;
      yield {
        message: `${log.name} records the night of ${log.date.value}, on which no closure of ${work.name} begins. Correct the date: it is that on which the closure began.`,
        place: log.date.place,
        about: refOf(log),
      };
    }
  },
});
