import { check } from '../check.ts';
import { above, allSteps, minutes, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'soak-leaves-no-time',
  title: 'After the shortest soak there is no time left to broom and rinse',
  severity: 'warning',
  why: 'The longest time counts until the last rinse. Once the shortest soak is over, one run of the brooms and one of the rinse over the bay still have to fit in, and that is the least: turns and further circuits come on top.',
  source: 'mechanics',
  bad: ['        at-most:  4 h', '        at-most:  40.5 min'],
  alongside: ['stands-too-long'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'soak')) {
      const { atLeast, atMost } = step;
      const most = Math.min(
        atMost?.value ?? Number.POSITIVE_INFINITY,
        plan.product?.dwellMost?.value ?? Number.POSITIVE_INFINITY,
      );
      const bay = bayLength(plan);
      if (!atLeast || bay === undefined || atLeast.value > most) continue;
      const speeds = plan.steps
        .filter(each => each.step.does?.value === 'agitate' || each.step.does?.value === 'rinse')
        .map(each => each.step.speed?.value ?? Number.POSITIVE_INFINITY);
      const runs = speeds.reduce((sum, speed) => sum + bay / speed, 0);
      if (!above(atLeast.value + runs, most)) continue;
      yield {
        message: `After the shortest soak of ${minutes(atLeast.value)} only ${minutes(most - atLeast.value)} are left until the product has to be off, but one run of brooms and rinse over the bay alone takes ${minutes(runs)}. Use shorter bays, or a longer limit if the product allows it.`,
        place: stepPlace(step, atMost, atLeast),
        about: stepRef(plan, step),
      };
    }
  },
});

type Planned = Parameters<typeof stepRef>[0];

/** Length of a bay, where the number of bays is not left to the tool. */
function bayLength(plan: Planned): number | undefined {
  const bays = plan.work.bays?.value;
  const stations = plan.deposits.flatMap(deposit => deposit.stations?.value.map(row => row.chainage) ?? []);
  const from = plan.work.from?.value ?? Math.min(...stations);
  const to = plan.work.to?.value ?? Math.max(...stations);
  if (!Number.isFinite(to - from)) return undefined;
  if (bays === undefined) return to - from;
  return bays.by === 'auto'
    ? undefined
    : bays.by === 'count'
      ? (to - from) / bays.count
      : Math.min(bays.length, to - from);
}
