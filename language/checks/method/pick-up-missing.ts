import { check } from '../check.ts';
import { drivingSteps, fullPlans, machinesOf, refOf } from '../help.ts';

export default check({
  code: 'pick-up-missing',
  title: 'Nothing picks up the rubber and the water',
  severity: 'error',
  why: 'What was loosened has to leave the runway. Rubber left in the water settles in the texture again when it dries, and standing water and debris keep the runway closed.',
  source: 'reopening-inspection',
  bad: {
    water: [
      '    step PickUp {\n        does:   pick-up\n        by:     sweeper\n        speed:  6 km/h\n        magnet: yes\n    }\n',
      '',
    ],
  },
  *find({ job }) {
    for (const plan of fullPlans(job)) {
      const driving = drivingSteps(plan);
      const last = driving.at(-1);
      if (!last || driving.some(({ step }) => step.does?.value === 'pick-up')) continue;
      // A broom that comes last is a finding of its own.
      if (machinesOf(last, 'broom').length > 0) continue;
      yield {
        message: `No step of ${plan.work.name} picks up what was loosened, so rubber, water and debris stay on the runway. Add a pick-up with a sweeper after ${last.step.name}.`,
        place: last.step.heading,
        about: refOf(plan.work),
      };
    }
  },
});
