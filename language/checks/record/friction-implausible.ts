import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'friction-implausible',
  title: 'A friction reading can not be right',
  severity: 'error',
  why: 'Devices read friction coefficients between 0 and a little over 1. A reading of 56 is a percentage, one of 0 is a gap in the record.',
  source: 'common-practice',
  bad: ['        550 0.58', '        550 58'],
  *find({ job }) {
    for (const survey of job.blocks.surveys) {
      for (const row of survey.readings?.value ?? []) {
        if (row.friction > 0 && row.friction <= 1.2) continue;
        const hundredth =
          row.friction > 1.2 && row.friction <= 120 ? ` Write ${row.friction / 100} if it is in hundredths.` : '';
        yield {
          message: `A friction of ${row.friction} can't be right; coefficients lie between 0 and about 1.${hundredth || ' Correct it, or leave the row out.'}`,
          place: row.place,
          about: refOf(survey),
        };
      }
    }
  },
});
