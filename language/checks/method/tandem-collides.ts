import type { MachineRun } from '../../tracks/fromPlan.ts';
import { check } from '../check.ts';
import { replaceValue, say, stepPlace, stepRef, stepsOf, write } from '../help.ts';
import { trackedWorks } from '../tracked.ts';

export default check({
  code: 'tandem-collides',
  title: 'Brooms in tandem meet head-on',
  severity: 'error',
  why: 'The leader turns round at the end of its lane and comes back close beside the lane it left. A follower that has not reached the end by then meets it, where the lanes of a circuit are nearer than the brooms are wide. The headway has to be shorter than the leader takes to turn.',
  source: 'geometry',
  bad: ['        cycles:  2', '        cycles:  2\n        tandem:  same lane 80 m apart'],
  good: ['        cycles:  2', '        cycles:  2\n        tandem:  same lane 15 m apart'],
  *find(results) {
    for (const { plan, bays } of trackedWorks(results)) {
      for (const planned of stepsOf(plan, 'agitate')) {
        const { step } = planned;
        const activities = bays.flatMap(bay => bay.activities.filter(each => each.planned === planned));
        const met = activities.flatMap(({ machines }) =>
          machines.slice(1).flatMap((follower, j) => meeting(machines[j]!, follower) ?? []),
        )[0];
        const speed = step.speed?.value;
        if (!met || speed === undefined) continue;
        const turns = activities.flatMap(({ machines }) =>
          machines.flatMap(({ run }) => run.turns.map(each => each.end - each.start)),
        );
        const least = Math.min(...turns) * speed;
        const written = write(Math.floor(least), 'm', 'down');
        const lane = step.tandem?.value.lane === 'next' ? 'next lane' : 'same lane';
        yield {
          message: `${met.leader} turns in ${plan.work.name}.${step.name} and comes back past ${met.follower}, which is still on its way out, on lanes only ${say(results, met.apart, 'length')} apart. Keep the headway under ${say(results, least, 'length')}, so that the follower has left its lane by then.`,
          place: stepPlace(step, step.tandem),
          about: stepRef(plan, step),
          fixes:
            written === undefined
              ? []
              : replaceValue(results, step.tandem, `${lane} ${written} apart`, `Follow ${written} apart`),
        };
      }
    }
  },
});

/** The first time a leader starts back on a lane before its follower has left the one beside it. */
function meeting(
  leader: MachineRun,
  follower: MachineRun,
): { readonly leader: string; readonly follower: string; readonly apart: number } | undefined {
  const width = ((leader.machine.width?.value ?? 0) + (follower.machine.width?.value ?? 0)) / 2;
  const count = Math.min(leader.run.passes.length - 1, follower.run.passes.length);
  for (let i = 0; i < count; i++) {
    const [back, out] = [leader.run.passes[i + 1]!, follower.run.passes[i]!];
    const apart = Math.abs(back.from.t - out.from.t);
    if (back.start < out.end - 1e-6 && apart < width) return { leader: leader.name, follower: follower.name, apart };
  }
  return undefined;
}
