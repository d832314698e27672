import { check } from '../check.ts';
import { refOf, today } from '../help.ts';

export default check({
  code: 'survey-in-future',
  title: 'A survey is dated after the job',
  severity: 'warning',
  why: 'A survey that was run can not be later than the job that reports it. Most likely a year was mistyped.',
  source: 'tool-policy',
  bad: ['    date:     2031-02-20', '    date:     2032-02-20'],
  *find(results) {
    const date = today(results);
    for (const survey of results.job.blocks.surveys) {
      if (!date || !survey.date || survey.date.value <= date || survey.purpose?.value === 'after') continue;
      yield {
        message: `This survey is dated ${survey.date.value}, after ${date}, the date of the job. Correct one of the dates.`,
        place: survey.date.place,
        about: refOf(survey),
      };
    }
  },
});
