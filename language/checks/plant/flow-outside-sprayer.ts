import { check } from '../check.ts';
import {
  allSteps,
  broken,
  machinesOf,
  say,
  sayBoth,
  see,
  setNumber,
  stepPlace,
  stepQuantity,
  stepRef,
} from '../help.ts';

export default check({
  code: 'flow-outside-sprayer',
  title: 'The applicator cannot deliver the flow that the rate needs',
  severity: 'error',
  why: 'The boom has to deliver rate times speed times width. Removal rates are ten to a hundred times those of field spraying, so pumps and nozzles made for fields often fall short, and the pavement gets less product than specified without anyone seeing it.',
  source: 'sprayer-manual-metric',
  bad: ['    flow:             150 to 450 L/min', '    flow:             150 to 350 L/min'],
  *find(results) {
    for (const planned of allSteps(results.job, 'apply')) {
      const { plan, step } = planned;
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const flow = stepQuantity(results, plan, step, 'flow', sprayer);
        const out = flow !== undefined && sprayer.flow && broken(flow, sprayer.flow.value);
        if (!out || !step.speed || !sprayer.width) continue;
        const [needed, limit] = sayBoth(results, flow, out.limit, 'flow');
        const speed = (step.speed.value * out.limit) / flow;
        const side = out.side === 'above' ? 'at most' : 'at least';
        const allowed = sprayer.calibratedSpeed && broken(speed, sprayer.calibratedSpeed.value);
        yield {
          message: `${plan.work.name}.${step.name} needs ${needed} at the boom, but ${sprayer.name} delivers ${side} ${limit}. Drive at ${say(results, speed, 'speed', step.speed)}, put the rate on in more coats, or use another applicator.`,
          place: stepPlace(step, step.speed, step.rate),
          related: see(sprayer.flow!, `The flows that ${sprayer.name} delivers.`),
          about: stepRef(plan, step),
          fixes: allowed
            ? []
            : setNumber(results, step.speed, speed, 'speed', out.side === 'above' ? 'down' : 'up', 'the speed'),
        };
      }
    }
  },
});
