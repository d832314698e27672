import { check } from '../check.ts';
import { above, refOf, runwayOf, say, see } from '../help.ts';

export default check({
  code: 'deposit-beyond-edge',
  title: 'A deposit reaches beyond the edge of the runway',
  severity: 'error',
  why: 'Offsets count from the centreline, so none can be more than half the width of the runway. Often the whole width of the deposit was written where the distance of one edge belongs, which doubles the area, the product and the price.',
  source: 'geometry',
  bad: ['        300   6    6', '        300  26    6'],
  alongside: ['stands-too-long', 'job-does-not-fit'],
  *find(results) {
    for (const deposit of results.job.blocks.deposits) {
      const width = runwayOf(results.job, deposit.on)?.width;
      if (!width) continue;
      for (const row of deposit.stations?.value ?? []) {
        for (const side of ['left', 'right'] as const) {
          if (!above(row[side], width.value / 2)) continue;
          yield {
            message: `${say(results, row[side], 'length')} to the ${side} is off the pavement: half the width of the runway is ${say(results, width.value / 2, 'length', width)}. Write the distance of this edge from the centreline.`,
            place: row.place,
            related: see(width, 'The width of the runway.'),
            about: refOf(deposit),
          };
        }
      }
    }
  },
});
