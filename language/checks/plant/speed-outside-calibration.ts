import { check } from '../check.ts';
import { allSteps, broken, machinesOf, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'speed-outside-calibration',
  title: 'The spraying speed is outside the calibration of the applicator',
  severity: 'error',
  why: 'The rate on the pavement goes with flow over speed. At a speed for which nobody measured the applicator, the rate is a guess: 10 % too slow puts on 11 % too much. Published surveys found only about one operator in three within 5 % of the rate meant.',
  source: 'nebraska-g1756',
  bad: ['        by:    applicator\n        speed: 8 km/h', '        by:    applicator\n        speed: 11 km/h'],
  alongside: ['flow-outside-sprayer', 'pressure-outside-nozzle-points'],
  *find(results) {
    for (const planned of allSteps(results.job, 'apply')) {
      const { plan, step } = planned;
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const range = sprayer.calibratedSpeed;
        const out = step.speed && range && broken(step.speed.value, range.value);
        if (!out) continue;
        const [speed, limit] = sayBoth(results, step.speed.value, out.limit, 'speed', step.speed);
        yield {
          message: `${plan.work.name}.${step.name} sprays at ${speed}, but ${sprayer.name} is calibrated only ${out.side === 'above' ? 'up to' : 'from'} ${limit}. Choose a speed within the calibration, or have the applicator calibrated at this one.`,
          place: stepPlace(step, step.speed),
          related: see(range, `The speeds for which ${sprayer.name} is calibrated.`),
          about: stepRef(plan, step),
          fixes: setNumber(results, step.speed, out.limit, 'speed', out.side === 'above' ? 'down' : 'up', 'the speed'),
        };
      }
    }
  },
});
