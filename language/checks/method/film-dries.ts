import { check } from '../check.ts';
import { dries, fullPlans, isDone, minutes, stepPlace, stepRef, stepsOf } from '../help.ts';

export default check({
  code: 'film-dries',
  title: 'The film dries before the dwell is over',
  severity: 'warning',
  why: 'A product that has dried does not work any more and is hard to rinse off. How long a film lasts is estimated with the Menzel equation for water; actual evaporation lies within about 40 % of such an estimate, and a product with surfactants dries otherwise. So this is a warning with a band.',
  source: 'menzel-si',
  bad: [
    '    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %',
    '    air:      24 °C\n    surface:  26 °C\n    humidity: 30 %',
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const kept = stepsOf(plan, 'keep-wet').some(each => isDone(results.job, each.step));
      if (kept) continue;
      for (const { step, life, soak } of dries(results, plan)) {
        yield {
          message: `The film of ${plan.work.name}.${step.name} is dry after about ${minutes(life)}, between ${minutes(life / 1.4)} and ${minutes(life / 0.6)} by the band of ± 40 %, but it has to stay wet for ${minutes(soak)}. Add a step that keeps it wet, put on more, or work when it is cooler or calmer.`,
          place: stepPlace(step, step.rate),
          about: stepRef(plan, step),
        };
      }
    }
  },
});
