import { check } from '../check.ts';
import { above, allSteps, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'pressure-above-pavement',
  title: 'The water pressure is above what the pavement can bear',
  severity: 'error',
  why: 'Too much pressure lifts aggregate, opens joints and rounds grooves, and what is washed out does not come back. The limit of the pavement holds for every step, also after pre-treatment.',
  source: 'federal-solicitation',
  bad: { water: ['    pressure-limit: 340 bar', '    pressure-limit: 250 bar'] },
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'jet', 'rinse')) {
      const limit = plan.runway?.pressureLimit;
      if (!step.pressure || !limit || !above(step.pressure.value, limit.value)) continue;
      const [pressure, most] = sayBoth(results, step.pressure.value, limit.value, 'pressure', step.pressure);
      yield {
        message: `${plan.work.name}.${step.name} works at ${pressure}, but runway ${plan.runway!.name} may be worked with at most ${most}. Lower the pressure; a slower pass or a second one makes up for it.`,
        place: stepPlace(step, step.pressure),
        related: see(limit, 'The limit of the pavement.'),
        about: stepRef(plan, step),
        fixes: setNumber(results, step.pressure, limit.value, 'pressure', 'down', 'the pressure'),
      };
    }
  },
});
