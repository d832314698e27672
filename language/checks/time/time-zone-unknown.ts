import { isTimeZone } from '../../schedule/calendar.ts';
import { nearestAll } from '../../words/nearest.ts';
import { check } from '../check.ts';
import { refOf, replaceValue } from '../help.ts';

export default check({
  code: 'time-zone-unknown',
  title: 'There is no such time zone',
  severity: 'error',
  why: 'Hours of a closure are local. Without a time zone of the IANA list nobody can tell which they are in universal time, which the notice to air missions needs, or how long a night with a clock change is.',
  source: 'tool-policy',
  bad: ['    time-zone:   "Europe/Dublin"', '    time-zone:   "Europe/Dublyn"'],
  *find(results) {
    const { airports, closures } = results.job.blocks;
    for (const block of [...airports, ...closures]) {
      const { timeZone } = block;
      if (!timeZone || knowsChanges(timeZone.value)) continue;
      const meant = nearestAll(timeZone.value, Intl.supportedValuesOf('timeZone'));
      yield {
        message: `"${timeZone.value}" is no time zone of the IANA list.${meant[0] ? ` Did you mean ${meant.join(' or ')}?` : ' Write one such as "Europe/Dublin".'}`,
        place: timeZone.place,
        about: refOf(block),
        fixes: meant.flatMap(zone => replaceValue(results, timeZone, `"${zone}"`, `Write "${zone}"`)),
      };
    }
  },
});

/** Offsets such as +01:00 are accepted as zones, but know no clock changes. */
function knowsChanges(zone: string): boolean {
  return /^[A-Za-z]/.test(zone) && isTimeZone(zone);
}
