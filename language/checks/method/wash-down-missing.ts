import { check } from '../check.ts';
import { addBlock, fullPlans, refOf } from '../help.ts';

export default check({
  code: 'wash-down-missing',
  title: 'The plant is not washed down after the work',
  severity: 'warning',
  why: 'Machines carry product and rubber away on wheels, brooms and decks, drop them on taxiways and public roads, and corrode. The plant is washed where the water can be taken up.',
  source: 'common-practice',
  bad: [
    '    step Wash {\n        does:  wash-down\n        by:    sweeper\n        of:    plant\n        takes: 30 min\n    }\n',
    '',
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      if (plan.steps.some(({ step }) => step.does?.value === 'wash-down')) continue;
      const last = plan.steps.filter(({ step }) => step.does?.value !== 'inspect').at(-1)?.step;
      yield {
        message: `No step of ${plan.work.name} washes the plant, so product and rubber leave on its wheels. Add a wash-down at the wash pad.`,
        place: plan.method.heading,
        about: refOf(plan.work),
        fixes: addBlock(
          results,
          plan.method.steps.find(each => each.name === last?.name),
          'after',
          'step Wash {\n    does: wash-down\n    of:   plant\n}',
          'Add a wash-down',
        ),
      };
    }
  },
});
