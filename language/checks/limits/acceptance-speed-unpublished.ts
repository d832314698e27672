import { findFrictionLevels, frictionLevels } from '../../friction/levels.ts';
import { check } from '../check.ts';
import { frictionBasis, listed, refOf } from '../help.ts';

export default check({
  code: 'acceptance-speed-unpublished',
  title: 'There is no published level for the device at this speed',
  severity: 'warning',
  why: 'Levels are published for 40 and 60 mph, or 65 and 95 km/h. At another speed the same surface reads otherwise, and no authority says what is enough; no level is not a pass.',
  source: 'icao-annex-14-friction',
  bad: [
    '    device:   Surface Friction Tester\n    speed:    65 km/h\n    friction',
    '    device:   Surface Friction Tester\n    speed:    80 km/h\n    friction',
  ],
  *find({ job }) {
    const basis = frictionBasis(job);
    for (const block of job.blocks.acceptances) {
      const { device, speed, friction } = block;
      if (!basis || !device || !speed || !friction || findFrictionLevels(basis, device.value, speed.value)) continue;
      const rows = frictionLevels.filter(row => row.basis === basis && row.device === device.value);
      const speeds = listed(
        rows.map(row => row.printedSpeed),
        'or',
      );
      yield {
        message: `${basis} has no level for ${device.value} at ${speed.text}, so nobody can say whether ${friction.text} is enough. ${rows.length > 0 ? `Run it at ${speeds}` : 'Choose a device of its table'}, or name another basis in the survey.`,
        place: (rows.length > 0 ? speed : device).place,
        about: refOf(block),
      };
    }
  },
});
