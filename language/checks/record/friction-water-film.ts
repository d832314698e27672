import { findFrictionLevels } from '../../friction/levels.ts';
import { check } from '../check.ts';
import { refOf, sayBoth } from '../help.ts';

export default check({
  code: 'friction-water-film',
  title: 'A survey was run with another water film than the levels are for',
  severity: 'warning',
  why: 'The levels hold for the water film that the device lays itself: 1 mm for most, less in one national scheme. With less water every surface reads better.',
  source: 'icao-annex-14-friction',
  bad: ['    speed:    65 km/h\n    basis:    ICAO', '    speed:    65 km/h\n    water:    0.5 mm\n    basis:    ICAO'],
  *find(results) {
    for (const survey of results.job.blocks.surveys) {
      const { basis, device, speed, water } = survey;
      if (!basis || !device || !speed || !water || basis.value === 'TP 312') continue;
      const levels = findFrictionLevels(basis.value, device.value, speed.value);
      if (!levels || water.origin.by === 'default' || Math.abs(water.value - levels.waterDepth) < 1e-5) continue;
      const [laid, meant] = sayBoth(results, water.value, levels.waterDepth, 'depth', water);
      yield {
        message: `This survey was run with a film of ${laid}, but the ${basis.value} levels for ${device.value} are for ${meant}. Run it again with that film, or judge it by the scheme it was run for.`,
        place: water.place,
        about: refOf(survey),
      };
    }
  },
});
