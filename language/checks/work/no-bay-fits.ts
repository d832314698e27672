import { check } from '../check.ts';
import { refOf } from '../help.ts';
import { standLimit, time } from '../tracked.ts';

export default check({
  code: 'no-bay-fits',
  title: 'No length of bay keeps the dwell limits',
  severity: 'error',
  why: 'Bays left to the tool are as long as the limit on how long product may stand allows. Where even the shortest take longer, turns and repetitions alone use the time up, and the method itself has to change.',
  source: 'geometry',
  bad: ['        at-most:  4 h', '        at-most:  55 min', '    bays:       6', '    bays:       auto'],
  alongside: ['job-does-not-fit'],
  *find(results) {
    for (const { plan, problems } of results.works) {
      const limit = standLimit(plan);
      if (!limit || !problems.some(each => each.kind === 'no bay fits')) continue;
      yield {
        message: `${plan.work.name} leaves the bays to be chosen, but even the shortest bay stands for longer than the limit of ${time(results, limit.seconds)}: turns and repetitions alone take the time. Use fewer cycles, machines that turn faster, or a longer limit if the product allows it.`,
        place: plan.work.bays?.place ?? plan.work.heading,
        related: [{ place: limit.given.place, message: 'The limit.' }],
        about: refOf(plan.work),
      };
    }
  },
});
