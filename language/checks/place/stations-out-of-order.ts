import { check } from '../check.ts';
import { above, refOf, say } from '../help.ts';

export default check({
  code: 'stations-out-of-order',
  title: 'The stations of a deposit do not follow each other',
  severity: 'error',
  why: 'The area is the sum of the trapezoids between neighbouring stations, so each chainage has to be greater than the one before. A station out of order is nearly always a slip of a digit, and the area between is lost.',
  source: 'geometry',
  bad: ['        300   6    6', '        130  11   11'],
  *find(results) {
    for (const deposit of results.job.blocks.deposits) {
      const rows = deposit.stations?.value ?? [];
      for (let i = 1; i < rows.length; i++) {
        const [before, row] = [rows[i - 1]!, rows[i]!];
        if (above(row.chainage, before.chainage)) continue;
        const [now, last] = [say(results, row.chainage, 'length'), say(results, before.chainage, 'length')];
        yield {
          message: `The station at ${now} does not come after the one at ${last}. Write the stations in the order of their chainage, each once.`,
          place: row.place,
          related: [{ place: before.place, message: 'The station before it.' }],
          about: refOf(deposit),
        };
      }
    }
  },
});
