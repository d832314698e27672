import { check } from '../check.ts';
import { above, dries, isDone, minutes, see, stepQuantity, stepRef, stepsOf } from '../help.ts';
import { at, exposuresOf, standLimit, trackedWorks } from '../tracked.ts';

export default check({
  code: 'film-dry-at-broom',
  title: 'The film is dry before the last broom has gone over it',
  severity: 'warning',
  why: 'Product that dries under the brooms is not worked in and is hard to rinse off. The wet gap is the longest time since any wetting until the last broom or jet at a point. Film life is estimated with the Menzel equation for water, within about 40 %, so this is a warning with a band.',
  source: 'menzel-si',
  bad: [
    '    air:      12 °C\n    surface:  12 °C\n    humidity: 80 %',
    '    air:      16 °C\n    surface:  17 °C\n    humidity: 55 %',
  ],
  *find(results) {
    for (const { plan } of trackedWorks(results)) {
      // A film that does not even last for the soak is film-dries' finding.
      if (dries(results, plan).length > 0) continue;
      const apply = stepsOf(plan, 'apply').at(-1)?.step;
      const life = apply && stepQuantity(results, plan, apply, 'filmLife');
      const exposures = exposuresOf(results, plan).filter(each => each.exposure.wetGap);
      // Where product stands too long in any case, shorter bays come first.
      const limit = standLimit(plan)?.seconds ?? Number.POSITIVE_INFINITY;
      if (exposures.some(each => above(each.exposure.residence?.greatest.seconds ?? 0, limit))) continue;
      const worst = exposures.toSorted(
        (a, b) => b.exposure.wetGap!.greatest.seconds - a.exposure.wetGap!.greatest.seconds,
      )[0];
      if (!apply || life === undefined || !worst) continue;
      const gap = worst.exposure.wetGap!.greatest;
      const wets = stepsOf(plan, 'keep-wet').filter(each => isDone(results.job, each.step));
      const runs = worst.tracks.activities.filter(each => each.does === 'keep-wet').length;
      const each = wets.length > 0 ? (stepQuantity(results, plan, wets[0]!.step, 'filmLife') ?? 0) : 0;
      // Where water is added, the last of it or all liquid together has to last.
      const stood = worst.exposure.residence?.greatest.seconds ?? gap.seconds;
      const dry = runs > 0 ? above(gap.seconds, each) && above(stood, life + runs * each) : above(gap.seconds, life);
      if (!dry) continue;
      const lasts = runs > 0 ? each : life;
      yield {
        message: `At ${at(results, gap, worst.tracks)} ${minutes(gap.seconds)} pass without wetting until the last broom, but the film of ${plan.work.name}.${apply.name} is dry after about ${minutes(lasts)}, between ${minutes(lasts / 1.4)} and ${minutes(lasts / 0.6)} by the band of ± 40 %. Use shorter bays, keep the brooming wet, or work when it is cooler or calmer.`,
        place: apply.heading,
        related: results.job.blocks.conditions[0]?.air
          ? see(results.job.blocks.conditions[0].air, 'The weather it is planned for.')
          : [],
        about: stepRef(plan, apply),
      };
    }
  },
});
