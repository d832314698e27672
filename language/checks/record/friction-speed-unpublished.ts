import { findFrictionLevels, frictionLevels } from '../../friction/levels.ts';
import { check } from '../check.ts';
import { listed, refOf } from '../help.ts';

export default check({
  code: 'friction-speed-unpublished',
  title: 'A survey was run with a device or at a speed that no table has',
  severity: 'warning',
  why: 'The published levels are for each device at 40 and 60 mph, or 65 and 95 km/h. Values of another speed or device can not be compared with them, and no level is not a pass.',
  source: 'icao-annex-14-friction',
  bad: ['    speed:    65 km/h\n    basis:    ICAO', '    speed:    80 km/h\n    basis:    ICAO'],
  *find({ job }) {
    for (const survey of job.blocks.surveys) {
      const { basis, device, speed } = survey;
      if (!basis || !device || !speed || basis.value === 'TP 312') continue;
      if (findFrictionLevels(basis.value, device.value, speed.value)) continue;
      const rows = frictionLevels.filter(row => row.basis === basis.value && row.device === device.value);
      const others = [...new Set(frictionLevels.filter(row => row.device === device.value).map(row => row.basis))];
      yield {
        message:
          rows.length > 0
            ? `${basis.value} has levels for ${device.value} at ${listed(
                rows.map(row => row.printedSpeed),
                'and',
              )}, not at ${speed.text}, so this survey can't be judged. Run it at one of these.`
            : `${basis.value} has no levels for ${device.value}, so this survey can't be judged.${others.length > 0 ? ` ${listed(others)} ${others.length === 1 ? 'has' : 'have'}.` : ''}`,
        place: (rows.length > 0 ? speed : device).place,
        about: refOf(survey),
      };
    }
  },
});
