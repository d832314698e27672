import { check } from '../check.ts';
import { daysBetween, refOf, say } from '../help.ts';

export default check({
  code: 'notice-too-late',
  title: 'The first closure is too soon for the notice',
  severity: 'warning',
  why: 'The notice has to be out some time ahead; a large airport published one 72 hours before a closure. A job dated later than that can not begin on the first date.',
  source: 'closure-notice-2023',
  bad: ['    date:       2031-03-03', '    date:       2031-04-05'],
  *find(results) {
    const { job } = results;
    const lead = job.blocks.airports.find(airport => airport.noticeLead)?.noticeLead;
    if (!lead || job.date === undefined) return;
    for (const closure of job.blocks.closures) {
      const days = closure.from && daysBetween(job.date, closure.from.value);
      if (days === undefined || days < 0 || days * 86_400 >= lead.value) continue;
      yield {
        message: `${closure.name} may begin on ${closure.from!.value}, ${days === 1 ? 'a day' : `${days} days`} after the date of the job, but the notice has to be out ${say(results, lead.value, 'time', lead)} before. Begin later, or date the job earlier.`,
        place: closure.from!.place,
        related: [{ place: lead.place, message: 'How long before it has to be out.' }],
        about: refOf(closure),
      };
    }
  },
});
