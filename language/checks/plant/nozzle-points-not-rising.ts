import { calibrationFault } from '../../formulas/application.ts';
import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'nozzle-points-not-rising',
  title: 'The calibration points of a nozzle do not rise together',
  severity: 'error',
  why: 'More pressure gives more flow. Points that do not rise together are a slip or a worn nozzle, and no pressure can be read from them.',
  source: 'sprayer-maker-page',
  bad: ['        3 24.2', '        3 17.2'],
  *find({ job }) {
    for (const sprayer of job.blocks.sprayers) {
      const points = sprayer.nozzlePoints;
      const fault = points && calibrationFault(points.value);
      if (!fault) continue;
      const what = {
        'no points': 'The table of calibrated points is empty. Add at least one point, measured with water.',
        'not positive': 'A pressure or a flow is zero or less. Write what was measured.',
        'not increasing':
          'Flow does not rise with pressure from point to point. Check the points, or replace the nozzle.',
      }[fault];
      yield { message: what, place: points.place, about: refOf(sprayer) };
    }
  },
});
