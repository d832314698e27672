import { check } from '../check.ts';
import { allSteps, broken, machinesOf, sayBoth, see, stepPlace, stepQuantity, stepRef } from '../help.ts';

export default check({
  code: 'flow-outside-truck',
  title: 'The water truck cannot deliver the flow that the step needs',
  severity: 'error',
  why: 'The spray bar has to deliver rate times speed times width. A truck that delivers less leaves dirty water on the crown, one that delivers more empties its tank before the end of the bay.',
  source: 'mechanics',
  bad: ['    flow:          60 to 2000 L/min', '    flow:          60 to 240 L/min'],
  *find(results) {
    for (const planned of allSteps(results.job, 'pre-wet', 'keep-wet', 'rinse')) {
      const { plan, step } = planned;
      for (const truck of machinesOf(planned, 'water-truck')) {
        const flow = stepQuantity(results, plan, step, 'flow', truck);
        const out = flow !== undefined && truck.flow && broken(flow, truck.flow.value);
        if (!out) continue;
        const [needed, limit] = sayBoth(results, flow, out.limit, 'flow');
        yield {
          message: `${plan.work.name}.${step.name} needs ${needed} at the spray bar, but ${truck.name} delivers ${out.side === 'above' ? 'at most' : 'at least'} ${limit}. Change the speed or the rate, or use another truck.`,
          place: stepPlace(step, step.rate, step.speed),
          related: see(truck.flow!, `The flows that ${truck.name} delivers.`),
          about: stepRef(plan, step),
        };
      }
    }
  },
});
