import { check } from '../check.ts';
import { addBlock, addLine, fullPlans, refOf, replaceValue } from '../help.ts';

export default check({
  code: 'reopening-inspection-missing',
  title: 'Nobody inspects the runway before it is handed back',
  severity: 'error',
  safety: true,
  why: 'Before aircraft use it again, somebody has to see that there is no debris, standing water, foam or film, that lights and markings are sound, and that people and vehicles are off. A special inspection is due after any work on the movement area. Only the airport operator reopens it.',
  source: 'self-inspection-items',
  bad: ['        reopening: yes\n', ''],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const inspections = plan.steps.filter(({ step }) => step.does?.value === 'inspect');
      if (inspections.some(({ step }) => step.reopening?.value)) continue;
      const last = inspections.at(-1)?.step;
      const own = plan.method.steps.find(each => each.name === last?.name);
      yield {
        message: last
          ? `${last.name} of ${plan.work.name} is not said to be the inspection before the runway is handed back. Write \`reopening: yes\` if it is, or add one.`
          : `No step of ${plan.work.name} inspects the runway before it is handed back. Add an inspection with \`reopening: yes\` as the last step.`,
        place: last?.heading ?? plan.method.heading,
        about: refOf(plan.work),
        fixes: !own
          ? addBlock(
              results,
              plan.method.steps.at(-1),
              'after',
              'step Inspect {\n    does:      inspect\n    of:        pavement, lights, markings, debris, residue\n    takes:     20 min\n    reopening: yes\n}',
              'Add the inspection',
            )
          : own.reopening?.origin.by === 'own line'
            ? replaceValue(results, own.reopening, 'yes', 'Say that it is the inspection before handing back')
            : addLine(results, own, 'reopening: yes', 'Say that it is the inspection before handing back'),
      };
    }
  },
});
