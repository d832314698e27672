import { check } from '../check.ts';
import { below, fullPlans, isChemical, refOf, sayBoth, see } from '../help.ts';

export default check({
  code: 'rain-too-soon',
  title: 'Rain is forecast before the product is off',
  severity: 'warning',
  why: 'Rain washes the product off before it has worked, and carries it where nobody recovers it. The time without rain has to cover the work and the recovery.',
  source: 'common-practice',
  bad: ['    dry-for:  12 h', '    dry-for:  3 h'],
  *find(results) {
    const { conditions, weatherStops } = results.job.blocks;
    const [plan] = [...fullPlans(results.job)].filter(isChemical);
    for (const block of conditions) {
      if (plan && (block.rain?.value ?? 'none') !== 'none') {
        yield {
          message: `The job is planned for ${block.rain!.value}, and rain washes the product of ${plan.work.name} off before it has worked. Plan for dry nights.`,
          place: block.rain!.place,
          about: refOf(block),
        };
      }
      for (const stop of weatherStops) {
        const { dryFor } = block;
        if (!dryFor || !stop.rainWithin || !below(dryFor.value, stop.rainWithin.value)) continue;
        const [dry, limit] = sayBoth(results, dryFor.value, stop.rainWithin.value, 'time', dryFor);
        yield {
          message: `It stays dry for ${dry}, but the work needs ${limit} without rain. Choose another night.`,
          place: dryFor.place,
          related: see(stop.rainWithin, 'How long no rain may be forecast.'),
          about: refOf(stop),
        };
      }
    }
  },
});
