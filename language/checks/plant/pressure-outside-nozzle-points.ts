import { calibratedPressure, equivalentWaterFlow } from '../../formulas/application.ts';
import { waterDensity } from '../../formulas/jets.ts';
import { check } from '../check.ts';
import { allSteps, machinesOf, say, see, stepPlace, stepQuantity, stepRef } from '../help.ts';

export default check({
  code: 'pressure-outside-nozzle-points',
  title: 'The nozzles would work outside the pressures they were measured at',
  severity: 'warning',
  why: 'Flow follows the square root of pressure only near the points that were measured: twice the flow takes four times the pressure. Beyond the last point the fan collapses or drifts, and nobody knows the rate.',
  source: 'sprayer-maker-page',
  bad: ['        4 28\n', ''],
  good: ['        4 28\n', '        4 28\n        5 31.3\n'],
  *find(results) {
    for (const planned of allSteps(results.job, 'apply')) {
      const { plan, step } = planned;
      const flow = stepQuantity(results, plan, step, 'flow');
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const { nozzlePoints, nozzles } = sprayer;
        if (flow === undefined || !nozzlePoints || !nozzles) continue;
        const density = (plan.product?.density?.value ?? waterDensity) / waterDensity;
        const each = equivalentWaterFlow(flow / nozzles.value, density);
        const found = calibratedPressure(nozzlePoints.value, each);
        const points = nozzlePoints.value.map(point => point.pressure);
        if (!found || found.range === 'inside') continue;
        const edge = found.range === 'above' ? Math.max(...points) : Math.min(...points);
        yield {
          message: `Each nozzle of ${sprayer.name} has to pass ${say(results, each, 'flow')} of water, which takes about ${say(results, found.value, 'pressure')}; the ${found.range === 'above' ? 'highest' : 'lowest'} point measured is ${say(results, edge, 'pressure')}. Choose another nozzle or speed, or measure the nozzle there.`,
          place: stepPlace(step, step.speed, step.rate),
          related: see(nozzlePoints, 'The calibrated points.'),
          about: stepRef(plan, step),
        };
      }
    }
  },
});
