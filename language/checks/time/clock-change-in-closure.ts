import { dayAt } from '../../schedule/calendar.ts';
import { check } from '../check.ts';
import { refOf, say } from '../help.ts';

export default check({
  code: 'clock-change-in-closure',
  title: 'The clocks change during a closure',
  severity: 'hint',
  why: 'When the clocks go forward, a closure from 23:00 to 05:00 is an hour shorter than on other nights, and when they go back an hour longer. The schedule reckons with the real length; crews, notices and the times on paper have to say which clock they mean.',
  source: 'mechanics',
  bad: [
    '    hours:     23:00 to 05:00, Mon to Thu\n    from:      2031-04-07',
    '    hours:     23:00 to 05:00, Sat, Sun\n    from:      2031-03-29',
  ],
  *find(results) {
    for (const { closure, offsets, date, start, end, spare } of results.schedule.calendar.nights) {
      const by = offsets[1] - offsets[0];
      if (by === 0 || spare) continue;
      yield {
        message: `The clocks go ${by > 0 ? 'forward' : 'back'} during the closure of ${dayAt(date)}, so it really lasts ${say(results, end - start, 'time')}. The schedule reckons with that; say in the notice which clock its hours mean.`,
        place: (closure.hours ?? { place: closure.heading }).place,
        about: refOf(closure),
      };
    }
  },
});
