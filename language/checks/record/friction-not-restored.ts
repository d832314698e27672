import { evaluateSurvey } from '../../friction/survey.ts';
import { readingsOf } from '../../quantities/runways.ts';
import { formatNumber } from '../../units/index.ts';
import { check } from '../check.ts';
import { markOf, refOf, say } from '../help.ts';

export default check({
  code: 'friction-not-restored',
  title: 'After the work friction is still below the published level',
  severity: 'error',
  why: 'A surface that looks clean can still be slippery. If a stretch is below the minimum, the runway stays reported as slippery when wet until a new measurement is at or above it.',
  source: 'icao-annex-14-friction',
  bad: ['    purpose:  need', '    purpose:  after'],
  *find(results) {
    for (const survey of results.job.blocks.surveys) {
      const { basis, device, speed, purpose } = survey;
      if (purpose?.value !== 'after' || !basis || !device || !speed) continue;
      const judged = evaluateSurvey(readingsOf(survey), basis.value, device.value, speed.value);
      if ('problem' in judged) continue;
      for (const { rule, action, from, to, mean, mark } of judged.findings) {
        yield {
          message: `After the work friction is ${formatNumber(mean, 2)} between ${say(results, from, 'length')} and ${say(results, to, 'length')} (${rule}: ${action}; ${markOf(mark)}). Treat this stretch again, or find what else is wrong there.`,
          place: survey.readings?.place ?? survey.heading,
          about: refOf(survey),
        };
      }
    }
  },
});
