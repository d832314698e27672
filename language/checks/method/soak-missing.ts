import { check } from '../check.ts';
import { addBlock, fullPlans, stepRef } from '../help.ts';

export default check({
  code: 'soak-missing',
  title: 'The product is given no time to work',
  severity: 'error',
  why: 'The product has to stand until it has gone through the rubber; 30 minutes at least is usual. Without a soak the brooms come when it has only wetted the surface.',
  source: 'chemical-method-slides',
  bad: [
    '    step Soak {\n        does:     soak\n        at-least: soak\n        at-most:  4 h\n    }\n',
    '',
    'BroomAndRinse(soak: time = 40 min)',
    'BroomAndRinse',
    'BroomAndRinse(soak: 40 min)',
    'BroomAndRinse',
  ],
  alongside: ['soak-short'],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const kinds = plan.steps.map(({ step }) => step.does?.value);
      const apply = kinds.lastIndexOf('apply');
      const tool = kinds.findIndex(
        (kind, i) => i > apply && (kind === 'agitate' || kind === 'rinse' || kind === 'jet'),
      );
      if (apply < 0 || tool < 0 || kinds.slice(apply, tool).includes('soak')) continue;
      const [applied, step] = [plan.steps[apply]!.step, plan.steps[tool]!.step];
      const least = plan.product?.dwellLeast;
      yield {
        message: `${plan.work.name}.${step.name} follows ${applied.name} with no soak between, so the product is not given time to work. Add a soak step with its shortest time.`,
        place: step.heading,
        related: [{ place: applied.heading, message: 'The product is put on here.' }],
        about: stepRef(plan, step),
        fixes: least
          ? addBlock(
              results,
              plan.method.steps.find(each => each.name === step.name),
              'before',
              `step Soak {\n    does:     soak\n    at-least: ${least.text}\n}`,
              'Add a soak of the shortest time of the product',
            )
          : [],
      };
    }
  },
});
