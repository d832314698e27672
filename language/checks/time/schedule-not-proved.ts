import { check } from '../check.ts';
import { counted, refOf, say } from '../help.ts';

export default check({
  code: 'schedule-not-proved',
  title: 'The schedule is not proved to be the best',
  severity: 'hint',
  why: 'The search for a schedule has a budget, so that it always ends. A job of many bays and machines may use it up: then the schedule keeps all limits, but a shorter one may exist, or none was found although there may be one.',
  source: 'tool-policy',
  bad: ['    bays:       6', '    bays:       300'],
  *find(results) {
    const { job, schedule } = results;
    const [plan] = job.plans;
    const { proof, state } = schedule;
    if (!plan || job.blocks.closures.length === 0) return;
    if (state === 'open') {
      const large = schedule.shortcomings.find(each => each.kind === 'too many activities');
      yield {
        message: large
          ? `The job has ${large.number} activities, more than a schedule is searched for. Use fewer bays.`
          : 'No schedule was found within the budget of the search, nor was it proved that there is none. Use fewer bays, or name the closures of each work.',
        place: plan.work.heading,
        about: refOf(plan.work),
      };
    } else if (state === 'scheduled' && proof && !(proof.provedLeast && proof.provedEarliest)) {
      const time = say(results, proof.end - proof.bound, 'time');
      yield {
        message: `The schedule takes ${counted(proof.closures, 'closure')}; ${proof.provedLeast ? 'fewer are proved impossible' : `at least ${proof.leastClosures} are needed`}, and no schedule ends more than ${time} earlier. It keeps all limits; a better one may exist.`,
        place: plan.work.heading,
        about: refOf(plan.work),
      };
    }
  },
});
