import { check } from '../check.ts';
import { broken, chainageRange, endOf, refOf, runwayOf, say, see } from '../help.ts';

export default check({
  code: 'deposit-beyond-end',
  title: 'A deposit lies beyond the end of the runway',
  severity: 'error',
  why: 'Chainage counts from the landing threshold, and only what lies between the two ends of the pavement can be treated. A station beyond them means that the chainage, the length or the displaced threshold is wrong, and every quantity of the work with it.',
  source: 'geometry',
  bad: ['        750   4    5', '        2500  8    9'],
  alongside: ['stands-too-long', 'job-does-not-fit'],
  *find(results) {
    for (const deposit of results.job.blocks.deposits) {
      const runway = runwayOf(results.job, deposit.on);
      const end = endOf(runway, deposit.on?.value.end);
      const range = runway && chainageRange(runway, end);
      if (!range) continue;
      for (const row of deposit.stations?.value ?? []) {
        if (!broken(row.chainage, { least: range[0], most: range[1] })) continue;
        const [from, to] = range.map(s => say(results, s, 'length'));
        yield {
          message: `The station at ${say(results, row.chainage, 'length')} is off the pavement: from threshold "${end?.name ?? ''}" the runway reaches from ${from} to ${to}. Correct the chainage, or the length of the runway.`,
          place: row.place,
          related: see(runway.length!, 'The length of the runway.'),
          about: refOf(deposit),
        };
      }
    }
  },
});
