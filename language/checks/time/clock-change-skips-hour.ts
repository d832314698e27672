import { dayAt } from '../../schedule/calendar.ts';
import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'clock-change-skips-hour',
  title: 'A closure begins or ends at an hour that a clock change removes',
  severity: 'error',
  why: 'In the night in which the clocks go forward, an hour does not exist. A closure that begins or ends in it has no definite length, so nothing is planned for that date.',
  source: 'mechanics',
  bad: [
    '    hours:     23:00 to 05:00, Mon to Thu\n    from:      2031-04-07',
    '    hours:     20:00 to 01:30, Sat, Sun\n    from:      2031-03-29',
  ],
  *find({ schedule }) {
    for (const { closure, kind, date } of schedule.calendar.problems) {
      if (kind !== 'clock change skips the start' && kind !== 'clock change skips the end') continue;
      yield {
        message: `On ${dayAt(date!)} the clocks go forward over the hour at which ${closure.name} ${kind.endsWith('start') ? 'begins' : 'ends'}, so that closure is left out. Take the date out with \`except\`, or change the hours.`,
        place: (closure.hours ?? { place: closure.heading }).place,
        about: refOf(closure),
      };
    }
  },
});
