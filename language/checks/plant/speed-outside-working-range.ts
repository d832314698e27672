import { check } from '../check.ts';
import { allMachines, broken, drivingSteps, sayBoth, see, setNumber, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'speed-outside-working-range',
  title: 'A machine is asked to work at a speed it cannot work at',
  severity: 'error',
  why: 'A broom driven too fast for its rotation pushes instead of brushing, a truck below its least gear can not hold its speed. All times of the job rest on these speeds.',
  source: 'sweeper-manual',
  bad: ['        by:      scrubbers\n        speed:   6 km/h', '        by:      scrubbers\n        speed:   14 km/h'],
  *find(results) {
    for (const plan of results.job.plans) {
      for (const planned of drivingSteps(plan)) {
        const { step } = planned;
        for (const { machine } of allMachines(planned)) {
          const range = machine.workingSpeed;
          const out = step.speed && range && broken(step.speed.value, range.value);
          if (!out) continue;
          const [speed, limit] = sayBoth(results, step.speed.value, out.limit, 'speed', step.speed);
          yield {
            message: `${plan.work.name}.${step.name} is done at ${speed}, but ${machine.name} works ${out.side === 'above' ? 'up to' : 'from'} ${limit}. Change the speed of the step, or bind another machine.`,
            place: stepPlace(step, step.speed),
            related: see(range, `The speeds at which ${machine.name} works.`),
            about: stepRef(plan, step),
            fixes: setNumber(
              results,
              step.speed,
              out.limit,
              'speed',
              out.side === 'above' ? 'down' : 'up',
              'the speed',
            ),
          };
        }
      }
    }
  },
});
