import { nearest } from '../../words/nearest.ts';
import { check } from '../check.ts';
import { allMachines, refOf } from '../help.ts';

export default check({
  code: 'log-unknown-names',
  title: 'The record names a machine or a step that the work does not have',
  severity: 'error',
  why: 'The record is held against the specification pass by pass. A name that the work does not know can not be compared, so the pass counts for nothing.',
  source: 'tool-policy',
  bad: [
    'warranty {',
    'log Night1 {\n    work:   North\n    date:   2031-04-14\n    passes: table machine, step, bay, from, to\n        "Boom" "Sprey" 1 23:40 00:05\n}\n\nwarranty {',
  ],
  good: [
    'warranty {',
    'log Night1 {\n    work:   North\n    date:   2031-04-14\n    passes: table machine, step, bay, from, to\n        "Boom" "Spray" 1 23:40 00:05\n}\n\nwarranty {',
  ],
  *find({ job }) {
    for (const log of job.blocks.logs) {
      const plan = job.plans.find(({ work }) => work.id === log.work?.value.id);
      if (!plan || plan.steps.length === 0) continue;
      const steps = plan.steps.map(({ step }) => step.name);
      const machines = plan.steps.flatMap(planned => allMachines(planned).map(({ machine }) => machine.name));
      for (const row of log.passes?.value ?? []) {
        for (const [what, name, known] of [
          ['machine', row.machine, machines],
          ['step', row.step, steps],
        ] as const) {
          if (known.includes(name)) continue;
          const meant = nearest(name, known);
          yield {
            message: `${plan.work.name} has no ${what} ${name}, so this pass can't be held against it.${meant ? ` Did you mean ${meant}?` : ''}`,
            place: row.place,
            about: refOf(log),
          };
        }
      }
    }
  },
});
