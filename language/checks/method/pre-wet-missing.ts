import { check } from '../check.ts';
import { addBlock, dries, fullPlans, isDone, minutes, percent, say, stepPlace, stepRef, stepsOf } from '../help.ts';

export default check({
  code: 'pre-wet-missing',
  title: 'The pavement is hot and is not wetted before the product comes',
  severity: 'warning',
  why: 'Hot, dry pavement sucks the product up and dries it before it has worked. Pavement is hot, for this purpose, when the film would be dry before the soak is over, which follows from temperature, humidity and wind. Then one pass of water comes first.',
  source: 'hover-evaporation',
  bad: [
    '    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %',
    '    air:      24 °C\n    surface:  24 °C\n    humidity: 30 %',
    '    wind:     8 km/h',
    '    wind:     14 km/h',
  ],
  alongside: ['film-dries'],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      for (const { step, life, soak } of dries(results, plan)) {
        const wetted = stepsOf(plan, 'pre-wet').some(each => isDone(results.job, each.step));
        if (wetted) continue;
        const left = stepsOf(plan, 'pre-wet')[0]?.step;
        const truck = [...plan.bindings].find(([, machines]) => machines[0]?.machine.kind === 'water-truck');
        yield {
          message: `The film is dry after about ${minutes(life)} (± ${percent(0.4)}), before the soak of ${minutes(soak)} is over, so the pavement counts as hot, and ${
            left?.when
              ? `${left.name} is left out at this temperature. Lower its threshold`
              : 'it is not wetted first. Add a step that pre-wets'
          }.`,
          place: left?.when ? stepPlace(left, left.when) : step.heading,
          about: stepRef(plan, step),
          fixes:
            left || !truck
              ? []
              : addBlock(
                  results,
                  plan.method.steps.find(each => each.does?.value === 'apply'),
                  'before',
                  `step PreWet {\n    does:  pre-wet\n    by:    ${truck[0]}\n    speed: ${say(results, 8 / 3.6, 'speed')}\n    rate:  ${results.system === 'us' ? '0.012 gal/ft2' : '0.5 L/m2'}\n}`,
                  'Add a step that pre-wets',
                ),
        };
        break;
      }
    }
  },
});
