import { calibrationFault, flowAtPressure } from '../../formulas/application.ts';
import { check } from '../check.ts';
import { percent, refOf, say } from '../help.ts';

/** The tolerance that extension services put on a nozzle against its boom. */
const tolerance = 0.05;

export default check({
  code: 'nozzle-points-stray',
  title: 'A calibration point strays from the root law',
  severity: 'warning',
  why: 'For a sound nozzle flow follows the square root of pressure, so all points tell of the same opening. A point more than 5 % off, the tolerance for replacing a nozzle, is a slip of writing, a bad gauge or a worn nozzle.',
  source: 'alberta-606-1',
  bad: ['        2 19.8', '        2 22.8'],
  *find(results) {
    for (const sprayer of results.job.blocks.sprayers) {
      const points = sprayer.nozzlePoints?.value ?? [];
      if (points.length < 3 || calibrationFault(points)) continue;
      const openings = points.map(point => point.flow / Math.sqrt(point.pressure)).toSorted((a, b) => a - b);
      const middle = openings[Math.floor((openings.length - 1) / 2)]!;
      for (const point of points) {
        const expected = flowAtPressure(middle, 1, point.pressure);
        const off = point.flow / expected - 1;
        if (Math.abs(off) <= tolerance) continue;
        yield {
          message: `The flow of ${say(results, point.flow, 'flow')} at ${say(results, point.pressure, 'pressure')} is ${percent(Math.abs(off))} ${off > 0 ? 'above' : 'below'} the ${say(results, expected, 'flow')} that the other points lead to. Measure this point again.`,
          place: point.place,
          about: refOf(sprayer),
        };
      }
    }
  },
});
