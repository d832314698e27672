import { check } from '../check.ts';
import { addBlock, fullPlans, refOf, stepsOf } from '../help.ts';

export default check({
  code: 'prep-sweep-missing',
  title: 'Nothing is swept before the product is put on',
  severity: 'warning',
  why: 'Sweeping takes off loose matter, which would soak up the product, and opens the surface of the rubber. As taught, the chemical method begins with it.',
  source: 'chemical-method-slides',
  bad: [
    '    step Sweep {\n        does:      sweep\n        by:        sweeper\n        speed:     8 km/h\n        direction: against landing\n    }\n',
    '',
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const kinds = plan.steps.map(({ step }) => step.does?.value);
      const apply = kinds.indexOf('apply');
      if (apply < 0 || kinds.slice(0, apply).includes('sweep')) continue;
      const first = stepsOf(plan, 'apply')[0]!.step;
      const sweeper = [...plan.bindings].find(([, machines]) => machines[0]?.machine.kind === 'sweeper');
      yield {
        message: `${plan.work.name} puts the product on pavement that was not swept, so loose matter soaks it up. Add a sweep against the direction of landing before ${first.name}.`,
        place: first.heading,
        about: refOf(plan.work),
        fixes: sweeper
          ? addBlock(
              results,
              plan.method.steps[0],
              'before',
              `step Sweep {\n    does:      sweep\n    by:        ${sweeper[0]}\n    speed:     8 km/h\n    direction: against landing\n}`,
              'Add a step that sweeps',
            )
          : [],
      };
    }
  },
});
