import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'time-zone-missing',
  title: 'The hours of a closure have no time zone',
  severity: 'warning',
  why: 'Notices to air missions count in universal time, and crews in local time. Without the zone the two can not be set beside each other, and a night with a clock change has the wrong length.',
  source: 'faa-notam-order',
  bad: ['    time-zone:   "Europe/Dublin"\n', ''],
  *find({ job }) {
    if (job.isLibrary || job.blocks.airports.some(airport => airport.timeZone)) return;
    for (const closure of job.blocks.closures) {
      if (closure.timeZone || !closure.hours) continue;
      yield {
        message: `The hours of ${closure.name} are local, but nothing says in which time zone. Add \`time-zone:\` to the airport or the closure, for example "Europe/Dublin".`,
        place: closure.hours.place,
        about: refOf(closure),
      };
    }
  },
});
