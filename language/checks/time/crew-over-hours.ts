import { nightsInARow, restsOf } from '../../schedule/duty.ts';
import { check } from '../check.ts';
import { above, below, refOf, sayBoth } from '../help.ts';
import { dayOf } from '../schedules.ts';

export default check({
  code: 'crew-over-hours',
  title: 'The schedule keeps a crew longer than its hours, or gives it too little rest',
  severity: 'warning',
  why: 'Tired people drive machines beside open lights at night. Duty counts from the opening of the closure to the last wash-down; rest from there to the next opening. No published limit for airside maintenance crews was found, so it is the limit of the specification that is held.',
  source: 'common-practice',
  bad: ['    shift:       8 h', '    shift:       3 h'],
  alongside: ['shift-shorter-than-closure'],
  *find(results) {
    const { duties } = results.review;
    const { nights } = results.schedule;
    for (const crew of new Set(duties.map(each => each.crew))) {
      const own = duties.filter(each => each.crew === crew);
      const longest = own.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
      if (crew.shift && above(longest.to - longest.from, crew.shift.value)) {
        const [is, may] = sayBoth(results, longest.to - longest.from, crew.shift.value, 'time', crew.shift);
        yield {
          message: `${crew.name} is on duty for ${is} on ${dayOf(nights[longest.night]!)}, from the opening of the closure to the end of its last activity, but its longest shift is ${may}. Plan a relief, or less work for that closure.`,
          place: crew.shift.place,
          about: refOf(crew),
        };
      }
      const short = restsOf(own).find(each => crew.rest && below(each.seconds, crew.rest.value));
      if (short && crew.rest) {
        const [is, should] = sayBoth(results, short.seconds, crew.rest.value, 'time', crew.rest);
        yield {
          message: `${crew.name} rests ${is} before the closure of ${dayOf(nights[short.after.night]!)}, less than its ${should}. Use a second crew, or leave a night free.`,
          place: crew.rest.origin.by === 'default' ? crew.heading : crew.rest.place,
          about: refOf(crew),
        };
      }
      const row = nightsInARow(own, crew);
      if (crew.nights && row.length > crew.nights.value) {
        yield {
          message: `${crew.name} works ${row.length} nights in a row from ${dayOf(nights[row[0]!.night]!)}, but ${crew.nights.value} are allowed. Leave a night free, or use a second crew.`,
          place: crew.nights.place,
          about: refOf(crew),
        };
      }
    }
  },
});
