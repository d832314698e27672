import { check } from '../check.ts';
import { fullPlans, placeOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'prep-sweep-with-landing',
  title: 'The preparing sweep runs with the direction of landing',
  severity: 'warning',
  why: 'Tyres lay the rubber down in the direction of landing. Bristles that come against it lift its edges and open the surface; with it they stroke it flat. So the sweep is done one way, with empty returns.',
  source: 'common-practice',
  bad: ['        direction: against landing', '        direction: with landing'],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const apply = plan.steps.findIndex(({ step }) => step.does?.value === 'apply');
      for (const { step } of plan.steps.slice(0, Math.max(0, apply))) {
        const { direction } = step;
        if (step.does?.value !== 'sweep' || !direction || direction.value === 'against landing') continue;
        yield {
          message: `${plan.work.name}.${step.name} sweeps ${direction.value}${direction.value === 'with landing' ? ', which strokes the rubber flat' : ', so half of it strokes the rubber flat'}. Sweep against landing and come back empty.`,
          place: placeOf(direction),
          about: stepRef(plan, step),
          fixes: replaceValue(results, direction, 'against landing', 'Sweep against landing'),
        };
      }
    }
  },
});
