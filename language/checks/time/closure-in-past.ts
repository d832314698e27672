import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'closure-in-past',
  title: 'The closures lie before the date of the job',
  severity: 'warning',
  why: 'A closure that is over when the job is issued was most likely copied from the last job, and with it perhaps the hours and the notice. Whoever reads it can not tell which of it still holds.',
  source: 'tool-policy',
  bad: ['    from:      2031-04-07\n    to:        2031-05-01', '    from:      2030-04-07\n    to:        2030-05-01'],
  *find({ job }) {
    const { date } = job;
    if (date === undefined || job.blocks.jobs[0]?.issue?.value === 'record') return;
    for (const closure of job.blocks.closures) {
      const given = closure.to ?? closure.from;
      if (!given || given.value >= date) continue;
      yield {
        message: `${closure.name} ${closure.to ? 'ends' : 'begins'} on ${given.value}, before ${date}, the date of the job. Correct the dates, or the date of the job.`,
        place: given.place,
        about: refOf(closure),
      };
    }
  },
});
