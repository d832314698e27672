import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'machine-in-two-places',
  title: 'A step takes the same machine twice',
  severity: 'error',
  why: 'A machine that leads a convoy can not also follow in it. The times, contacts and people of the step are computed for two machines where there is one.',
  source: 'mechanics',
  bad: ['    scrubbers:  Broom1, Broom2', '    scrubbers:  Broom1, Broom1'],
  alongside: ['unused-block'],
  *find({ schedule }) {
    for (const each of schedule.shortcomings) {
      if (each.kind !== 'machine twice') continue;
      const { plan, activity } = each.task;
      const { step } = activity.planned;
      const bound = [...activity.planned.machines, ...activity.planned.with].filter(
        one => one.machine === each.machine,
      );
      yield {
        message: `${plan.work.name}.${step.name} takes ${each.machine.name} twice at a time, as one machine of the convoy and as another. Bind another machine to one of the roles.`,
        place: bound.at(-1)!.place,
        related: [{ place: step.heading, message: 'The step.' }],
        about: refOf(plan.work),
      };
    }
  },
});
