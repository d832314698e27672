import { check } from '../check.ts';
import { allSteps, broken, machinesOf, say, see, stepPlace, stepQuantity, stepRef } from '../help.ts';

export default check({
  code: 'pressure-outside-nozzle-points',
  title: 'The nozzles would work outside the pressures they were measured at',
  severity: 'warning',
  why: 'Flow follows the square root of pressure only near the points that were measured: twice the flow takes four times the pressure. Beyond the last point the fan collapses or drifts, and nobody knows the rate.',
  source: 'sprayer-maker-page',
  bad: ['        3 24.2\n        4 28\n', ''],
  good: ['        4 28\n', '        4 28\n        5 31.3\n'],
  *find(results) {
    for (const planned of allSteps(results.job, 'apply')) {
      const { plan, step } = planned;
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const pressure = stepQuantity(results, plan, step, 'pressure', sprayer);
        const flow =
          stepQuantity(results, plan, step, 'waterFlow', sprayer) ??
          stepQuantity(results, plan, step, 'nozzleFlow', sprayer);
        const points = sprayer.nozzlePoints?.value.map(point => point.pressure) ?? [];
        if (pressure === undefined || flow === undefined || points.length === 0) continue;
        const out = broken(pressure, { least: Math.min(...points), most: Math.max(...points) });
        if (!out) continue;
        yield {
          message: `Each nozzle of ${sprayer.name} has to pass ${say(results, flow, 'flow')} of water, which takes about ${say(results, pressure, 'pressure')}; the ${out.side === 'above' ? 'highest' : 'lowest'} point measured is ${say(results, out.limit, 'pressure')}. Choose another nozzle or speed, or measure the nozzle there.`,
          place: stepPlace(step, step.speed, step.rate),
          related: see(sprayer.nozzlePoints!, 'The calibrated points.'),
          about: stepRef(plan, step),
        };
      }
    }
  },
});
