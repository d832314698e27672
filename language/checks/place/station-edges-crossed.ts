import { check } from '../check.ts';
import { below, refOf, say } from '../help.ts';

export default check({
  code: 'station-edges-crossed',
  title: 'The left edge of a deposit lies to the right of its right edge',
  severity: 'error',
  why: 'Left offsets count to the left and right offsets to the right of the centreline. A deposit that lies wholly on one side has one negative offset, and it must not be greater than the other one.',
  source: 'geometry',
  bad: ['        300   6    6', '        300   -7    6'],
  *find(results) {
    for (const deposit of results.job.blocks.deposits) {
      for (const row of deposit.stations?.value ?? []) {
        if (!below(row.left + row.right, 0)) continue;
        const [left, right] = [say(results, row.left, 'length'), say(results, row.right, 'length')];
        yield {
          message: `With left ${left} and right ${right} the edges cross at this station. Left counts to the left of the centreline and right to the right: turn the sign of the one that is wrong.`,
          place: row.place,
          about: refOf(deposit),
        };
      }
    }
  },
});
