import type { Machine, Step } from '../../job/job.ts';
import type { Turn } from '../../tracks/track.ts';
import { check } from '../check.ts';
import { refOf, say, see } from '../help.ts';
import { trackedWorks } from '../tracked.ts';

export default check({
  code: 'turn-room-short',
  title: 'A turn needs more room than the pavement gives',
  severity: 'warning',
  why: 'A machine that works to the end of a lane turns beyond it. How far it goes out follows from its turning radius and the distance of the lanes: a loop between close lanes takes up to 2.7 radii. Beyond the end of the pavement, or beside it, that room is not there.',
  source: 'geometry',
  bad: ['        150   5    5', '        -118  5    5'],
  *find(results) {
    for (const { plan, bays, ground } of trackedWorks(results)) {
      const pavement = ground?.pavement;
      const half = plan.runway?.width && plan.runway.width.value / 2;
      const offPavement = bays.some(
        ({ bay }) =>
          (pavement && (bay.s[0] < pavement[0] || bay.s[1] > pavement[1])) ||
          (half !== undefined && Math.max(-bay.t[0], bay.t[1]) > half),
      );
      // Deposits that are themselves off the pavement are findings of their own.
      if (!pavement || offPavement) continue;
      let worst: { lacks: number; beyond: boolean; turn: Turn; machine: Machine; step: Step } | undefined;
      for (const { activities } of bays) {
        for (const activity of activities) {
          for (const { machine, run } of activity.machines) {
            for (const turn of run.turns) {
              const beyond =
                turn.heading === 1
                  ? Math.max(turn.from.s, turn.to.s) + turn.reach - pavement[1]
                  : pavement[0] - Math.min(turn.from.s, turn.to.s) + turn.reach;
              const beside =
                half === undefined || plan.runway?.shoulder?.value === 'paved'
                  ? Number.NEGATIVE_INFINITY
                  : Math.max(turn.across[1], -turn.across[0]) - half;
              const lacks = Math.max(beyond, beside);
              if (lacks <= Math.max(1e-6, worst?.lacks ?? 0)) continue;
              worst = { lacks, beyond: beyond >= beside, turn, machine, step: activity.planned.step };
            }
          }
        }
      }
      if (!worst) continue;
      const { lacks, beyond, turn, machine, step } = worst;
      const where = `${beyond ? 'beyond the end' : 'beside the runway'} at chainage ${say(results, turn.from.s, 'length')}`;
      yield {
        message: `${machine.name} leaves the pavement by ${say(results, lacks, 'length')} in a turn of ${plan.work.name}.${step.name}, ${where}: it turns up to ${say(results, turn.reach, 'length')} beyond its lane. End the work further in, or let it reverse (turns: reverse).`,
        place: plan.work.heading,
        related: machine.turningRadius ? see(machine.turningRadius, 'Its turning radius.') : [],
        about: refOf(plan.work),
      };
    }
  },
});
