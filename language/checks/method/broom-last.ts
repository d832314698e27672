import { check } from '../check.ts';
import { addBlock, drivingSteps, fullPlans, machinesOf, say, stepRef } from '../help.ts';

export default check({
  code: 'broom-last',
  title: 'A broom is the last tool on the runway',
  severity: 'error',
  safety: true,
  why: 'A rotary broom can not collect, it only moves what lies there, and it leaves dirt and fines in cracks and bristles on the pavement. What is left can be drawn into an engine. The last pass is made by a sweeper that picks up.',
  source: 'acrp-synthesis-26',
  bad: [
    '    step PickUp {\n        does:   pick-up\n        by:     sweeper\n        speed:  6 km/h\n        magnet: yes\n    }\n',
    '',
  ],
  *find(results) {
    for (const plan of fullPlans(results.job)) {
      const last = drivingSteps(plan).at(-1);
      const broom = last && machinesOf(last, 'broom')[0];
      if (!last || !broom) continue;
      const sweeper = [...plan.bindings].find(([, machines]) => machines[0]?.machine.kind === 'sweeper');
      yield {
        message: `${broom.name} in ${last.step.name} is the last tool of ${plan.work.name}, and a broom only moves debris, it can not collect it. Add a pick-up with a sweeper after it.`,
        place: last.step.heading,
        about: stepRef(plan, last.step),
        fixes: sweeper
          ? addBlock(
              results,
              plan.method.steps.find(each => each.name === last.step.name),
              'after',
              `step PickUp {\n    does:   pick-up\n    by:     ${sweeper[0]}\n    speed:  ${say(results, 6 / 3.6, 'speed')}\n    magnet: yes\n}`,
              'Add a pick-up after it',
            )
          : [],
      };
    }
  },
});
