import { readingsOf } from '../../quantities/runways.ts';
import { check } from '../check.ts';
import { broken, chainageRange, endOf, refOf, runwayOf, say } from '../help.ts';

export default check({
  code: 'friction-outside-runway',
  title: 'A survey has readings off the runway',
  severity: 'error',
  why: 'Chainage counts from the landing threshold that the survey names. Readings beyond the ends of the pavement mean that it counted from somewhere else, so all of them lie in the wrong place.',
  source: 'geometry',
  bad: ['        750 0.66', '        750 0.66\n        2400 0.7'],
  *find(results) {
    for (const survey of results.job.blocks.surveys) {
      const runway = runwayOf(results.job, survey.on);
      const range = runway && chainageRange(runway, endOf(runway, survey.on?.value.end));
      if (!range || !survey.readings) continue;
      const out = readingsOf(survey).find(({ from, to }) =>
        [from, to].some(s => broken(s, { least: range[0], most: range[1] })),
      );
      if (!out) continue;
      const [from, to] = range.map(s => say(results, s, 'length'));
      const row = survey.readings.value.find(each => each.chainage === out.from);
      yield {
        message: `The reading from ${say(results, out.from, 'length')} to ${say(results, out.to, 'length')} is off the pavement, which lies between ${from} and ${to} from this threshold. Check from which end the survey counts.`,
        place: row?.place ?? survey.readings.place,
        about: refOf(survey),
      };
    }
  },
});
