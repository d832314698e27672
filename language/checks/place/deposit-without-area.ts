import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'deposit-without-area',
  title: 'A deposit has no area',
  severity: 'error',
  why: 'A deposit lies between at least two stations, and somewhere its edges have to lie apart. Without an area there is nothing to treat, to measure or to pay.',
  source: 'geometry',
  bad: ['        150   5    5\n        300   6    6\n        750   4    5', '        300   6    6'],
  alongside: ['friction-not-covered'],
  *find({ job }) {
    for (const deposit of job.blocks.deposits) {
      const rows = deposit.stations?.value;
      if (!rows) continue;
      const wide = rows.some(row => row.left + row.right > 0);
      if (rows.length > 1 && wide) continue;
      yield {
        message:
          rows.length < 2
            ? 'This deposit has fewer than two stations, so it covers no area. Add the station where it ends.'
            : 'The edges of this deposit lie on each other, so it covers no area. Write how far it reaches to either side.',
        place: deposit.stations!.place,
        about: refOf(deposit),
      };
    }
  },
});
