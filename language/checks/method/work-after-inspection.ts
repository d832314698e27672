import { check } from '../check.ts';
import { drivingSteps, fullPlans, stepRef } from '../help.ts';

export default check({
  code: 'work-after-inspection',
  title: 'Machines go over the runway after it was inspected',
  severity: 'error',
  safety: true,
  why: 'The inspection before handing back is worth something only if nothing comes after it. A machine that crosses the runway later can lose stones, wire or oil where nobody looks any more.',
  source: 'reopening-inspection',
  bad: [
    '    step PickUp {',
    `    step Early {
        does:      inspect
        of:        pavement
        takes:     5 min
        reopening: yes
    }
    step PickUp {`,
    '        takes:     20 min\n        reopening: yes',
    '        takes:     20 min',
  ],
  *find({ job }) {
    for (const plan of fullPlans(job)) {
      const inspection = plan.steps.findLastIndex(({ step }) => step.reopening?.value);
      if (inspection < 0) continue;
      const after = drivingSteps(plan).find(planned => plan.steps.indexOf(planned) > inspection);
      if (!after) continue;
      const { name } = plan.steps[inspection]!.step;
      yield {
        message: `${plan.work.name}.${after.step.name} drives over the runway after ${name}, the inspection before handing back. Move the inspection to the end.`,
        place: after.step.heading,
        related: [{ place: plan.steps[inspection]!.step.heading, message: 'The inspection.' }],
        about: stepRef(plan, after.step),
      };
    }
  },
});
