import { airportOf } from '../../tracks/fromPlan.ts';
import { check } from '../check.ts';
import { listed, percent, refOf, replaceValue, say } from '../help.ts';
import { linksTo } from '../schedules.ts';

/** Trips that take more than this share of a step. A choice made by this tool. */
const MOST = 0.75;

export default check({
  code: 'water-out-of-reach',
  title: 'The water that a work needs is not in reach',
  severity: 'warning',
  why: 'A step that spends more time on the way to the water than on the runway is planned for the wrong hydrant or the wrong tank. And a water point that the airport does not have can be planned for by nobody.',
  source: 'common-practice',
  bad: ['    crew:       Night', '    crew:       Night\n    water-point: "Hydrant9"'],
  *find(results) {
    const airport = airportOf(results.job);
    for (const { plan, bays } of results.works) {
      const named = plan.work.waterPoint;
      const points = airport?.waterPoints.map(each => each.name) ?? [];
      if (named && points.length > 0 && !points.includes(named.value)) {
        yield {
          message: `${plan.work.name} is to take its water at ${named.value}, but the airport has ${listed(points)}; trips are planned to ${points[0]}. Correct the name, or add the water point.`,
          place: named.place,
          about: refOf(plan.work),
          fixes: points.flatMap(point => replaceValue(results, named, `"${point}"`, `Take the water at ${point}`)),
        };
      }
      const activities = bays.flatMap(each => each.activities);
      for (const step of new Set(activities.map(each => each.planned.step))) {
        const own = activities.filter(each => each.planned.step === step);
        const total = own.reduce((sum, each) => sum + each.end - each.start, 0);
        const trips = own.reduce(
          (sum, each) =>
            sum +
            Math.max(
              0,
              ...each.machines.map(({ run }) =>
                run.trips.filter(trip => trip.why === 'refill').reduce((of, trip) => of + trip.end - trip.start, 0),
              ),
            ),
          0,
        );
        if (!(trips > MOST * total)) continue;
        yield {
          message: `${plan.work.name}.${step.name} spends ${percent(trips / total)} of its time, ${say(results, trips, 'time')} in all bays, on the way to fill up and filling. Use a nearer water point, a larger tank, or a second machine.`,
          place: step.heading.file === results.job.file ? step.heading : plan.work.heading,
          related: linksTo(results, [{ activity: own[0]!.id, message: 'The step.' }]),
          about: refOf(plan.work),
        };
      }
    }
  },
});
