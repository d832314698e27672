import { check } from '../check.ts';
import { allSteps, below, machinesOf, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'jet-too-slow',
  title: 'The jet moves slower than the pavement can bear',
  severity: 'error',
  why: 'A jet that stops or crawls cuts into the surface: it loosens stones, opens joints and rounds the edges of grooves. Each unit has a speed below which it has to be shut off.',
  source: 'federal-solicitation',
  bad: { water: ['        speed:          1.5 km/h', '        speed:          0.3 km/h'] },
  alongside: ['job-does-not-fit', 'speed-outside-working-range'],
  *find(results) {
    for (const planned of allSteps(results.job, 'jet')) {
      const { plan, step } = planned;
      for (const jet of machinesOf(planned, 'jet')) {
        if (!step.speed || !jet.leastSpeed || !below(step.speed.value, jet.leastSpeed.value)) continue;
        const [speed, limit] = sayBoth(results, step.speed.value, jet.leastSpeed.value, 'speed', step.speed);
        yield {
          message: `${plan.work.name}.${step.name} moves at ${speed}, but below ${limit} the jet of ${jet.name} harms the surface. Drive faster and make another pass if need be.`,
          place: stepPlace(step, step.speed),
          related: see(jet.leastSpeed, `The least speed of ${jet.name}.`),
          about: stepRef(plan, step),
          fixes: setNumber(results, step.speed, jet.leastSpeed.value, 'speed', 'up', 'the speed'),
        };
      }
    }
  },
});
