import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'more-than-fleet',
  title: 'A work uses more machines than the fleet has',
  severity: 'error',
  why: 'A machine that is there once can not work in two places. The fleet says how many there are; what it does not list is there once.',
  source: 'tool-policy',
  bad: ['    sweeper:    Sweeper1', '    sweeper:    2 of Sweeper1'],
  *find({ job }) {
    const available = new Map(
      job.blocks.fleets.flatMap(fleet => fleet.available?.value.map(row => [row.machine, row.number] as const) ?? []),
    );
    for (const plan of job.plans) {
      for (const bound of [...plan.bindings.values()].flat()) {
        const { machine, count } = bound;
        const number = available.get(machine.name) ?? 1;
        if (count <= number) continue;
        yield {
          message: `${plan.work.name} uses ${count} of ${machine.name}, but there ${number === 1 ? 'is one' : `are ${number}`}. List how many there are under \`available\` in the fleet, or use fewer.`,
          place: bound.place,
          about: refOf(plan.work),
        };
      }
    }
  },
});
