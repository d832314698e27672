import { check } from '../check.ts';
import { allSteps, refOf } from '../help.ts';

export default check({
  code: 'no-water-point',
  title: 'The work uses water, but the airport has no water point',
  severity: 'warning',
  why: 'Rinsing takes far more water than one tank holds, and the way to the hydrant and its flow often decide how long a night is. Without a water point no refill can be planned.',
  source: 'common-practice',
  bad: ['    water-point Hydrant {\n        distance: 600 m\n        flow:     1200 L/min\n    }\n', ''],
  *find({ job }) {
    const airport = job.blocks.airports[0];
    if (job.isLibrary || !airport || job.blocks.airports.some(each => each.waterPoints.length > 0)) return;
    for (const { plan, step } of allSteps(job, 'pre-wet', 'rinse', 'jet', 'keep-wet')) {
      yield {
        message: `The step ${step.name} of ${plan.work.name} needs water, but no water point is described, so no refill can be planned. Add a \`water-point\` with its distance and flow to the airport.`,
        place: airport.heading,
        about: refOf(airport),
      };
      return;
    }
  },
});
