import { check } from '../check.ts';
import { above, addLine, below, refOf, see, stepsOf, write } from '../help.ts';
import { firstStep, standLimit, time, trackedWorks } from '../tracked.ts';

export default check({
  code: 'dwell-worst-case',
  title: 'Within the tolerances of the speeds a dwell limit breaks',
  severity: 'warning',
  why: 'The crew starts by the clock. If the sprayer is slow and the brooms are fast, each within its tolerance, some point is worked too early; if all are slow, some point stands too long. The nominal job keeps its limits, the worst case does not.',
  source: 'geometry',
  bad: ['        by:    applicator\n        speed: 8 km/h', '        by:    applicator\n        speed: 8 km/h ± 10 %'],
  *find(results) {
    for (const { plan, bays } of trackedWorks(results)) {
      const soak = stepsOf(plan, 'soak')[0]?.step;
      const tool = firstStep(plan, 'agitate', 'jet');
      const least = results.quantities.get(`${plan.work.name}.${soak?.name ?? ''}.least`);
      const wanted = Math.max(...bays.map(bay => bay.limits.soak ?? Number.NEGATIVE_INFINITY));
      if (
        soak &&
        tool &&
        least?.interval &&
        !below(least.value, wanted - 1e-6) &&
        below(least.interval[0], wanted - 1e-6)
      ) {
        const lacking = wanted - least.interval[0];
        const wait = write(lacking, 'min', 'up');
        yield {
          message: `${plan.work.name} keeps its least soak of ${time(results, wanted)} at nominal speeds, but within their tolerances a point may get only ${time(results, least.interval[0])}. Let ${tool.step.name} wait ${wait ?? time(results, lacking)} more, or hold the speeds closer.`,
          place: soak.atLeast ? soak.atLeast.place : soak.heading,
          about: refOf(plan.work),
          fixes:
            tool.step.interval || wait === undefined
              ? []
              : addLine(results, tool.step, `interval: >= ${wait}`, `Let ${tool.step.name} wait ${wait} more`),
        };
      }
      const limit = standLimit(plan);
      const stands = results.quantities.get(`${plan.work.name}.residence`);
      if (
        limit &&
        stands?.interval &&
        !above(stands.value, limit.seconds) &&
        above(stands.interval[1], limit.seconds)
      ) {
        yield {
          message: `${plan.work.name} keeps the limit of ${time(results, limit.seconds)} from first product to last rinse at nominal speeds (${time(results, stands.value)}), but within their tolerances it may take ${time(results, stands.interval[1])}. Use shorter bays, or hold the speeds closer.`,
          place: plan.work.heading,
          related: see(limit.given, 'The limit.'),
          about: refOf(plan.work),
        };
      }
    }
  },
});
