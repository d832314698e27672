import { check } from '../check.ts';
import { above, say, see, stepPlace, stepRef } from '../help.ts';
import { trackedWorks } from '../tracked.ts';

export default check({
  code: 'rinse-into-soil',
  title: 'The rinse reaches into the strip that has to be kept from the soil',
  severity: 'error',
  why: 'Rinse water carries product and rubber. Where grass or gravel lies beside the pavement the rinse has to stop short of it, and the water is swept back and taken up. The outermost circuit decides how near it comes.',
  source: 'common-practice',
  bad: ['    ph:        6 to 9.5', '    ph:        6 to 9.5\n    edge:      18 m'],
  *find(results) {
    const environment = results.job.blocks.environments[0];
    for (const { plan, bays } of trackedWorks(results)) {
      const { runway } = plan;
      if (!runway?.width || runway.shoulder?.value === 'paved') continue;
      const half = runway.width.value / 2;
      // A deposit that is itself off the pavement is deposit-beyond-edge's finding.
      if (bays.some(({ bay }) => Math.max(-bay.t[0], bay.t[1]) > half)) continue;
      const keep = environment?.edge?.value ?? 0;
      const rinses = bays.flatMap(bay => bay.activities.filter(each => each.does === 'rinse'));
      const reach = Math.max(
        ...rinses.flatMap(each =>
          each.machines.flatMap(({ run }) => run.passes.map(({ band }) => Math.max(-band[0], band[1]))),
        ),
      );
      const step = rinses[0]?.planned.step;
      if (!step || !above(reach, half - keep)) continue;
      const beyond =
        reach > half
          ? 'beyond the edge of the pavement'
          : `within ${say(results, half - reach, 'length')} of the edge of the pavement`;
      yield {
        message: `The outermost circuit of ${plan.work.name}.${step.name} reaches ${say(results, reach, 'length')} from the centreline, ${beyond}, beside ${runway.shoulder?.value ?? 'soil'}${keep > 0 ? `; rinsing has to stop ${say(results, keep, 'length', environment?.edge)} before it` : ''}. End the circuits further in, and sweep the water back.`,
        place: stepPlace(step, step.advance),
        related: environment?.edge ? see(environment.edge, 'How far from the soil the rinse has to stop.') : [],
        about: stepRef(plan, step),
      };
    }
  },
});
