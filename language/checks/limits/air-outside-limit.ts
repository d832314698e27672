import { check } from '../check.ts';
import { broken, refOf, sayBoth, see } from '../help.ts';

export default check({
  code: 'air-outside-limit',
  title: 'The air is colder or warmer than the product or the job allows',
  severity: 'error',
  why: 'Products work slowly in the cold and dry off in the heat, and their makers release them for a range. No published limit for rubber removal was found, so the data sheet and the specification are all there is.',
  source: 'common-practice',
  bad: ['    air:      12 °C', '    air:      3 °C'],
  *find(results) {
    const { conditions, products, weatherStops } = results.job.blocks;
    for (const { air } of conditions) {
      for (const limits of [...products, ...weatherStops]) {
        const out = air && limits.air && broken(air.value, limits.air.value);
        if (!out || !limits.air) continue;
        const [planned, limit] = sayBoth(results, air.value, out.limit, 'temperature', air);
        const whose = limits.kind === 'product' ? `${limits.name} may be used` : 'work goes on';
        yield {
          message: `The job is planned for air at ${planned}, but ${whose} only ${out.side === 'below' ? 'from' : 'up to'} ${limit}. Choose other nights, or another product.`,
          place: air.place,
          related: see(limits.air, 'The limit.'),
          about: refOf(limits),
        };
      }
    }
  },
});
