import { check } from '../check.ts';
import { broken, refOf, sayBoth, see } from '../help.ts';

export default check({
  code: 'surface-outside-limit',
  title: 'The pavement is colder or hotter than the product or the job allows',
  severity: 'error',
  why: 'It is the pavement, and not the air, that decides how fast a product works and how fast it dries; after a summer day it stays hot for hours. The limits are those of the data sheet and of the specification.',
  source: 'common-practice',
  bad: ['    surface:  12 °C', '    surface:  48 °C'],
  alongside: ['film-dries'],
  *find(results) {
    const { conditions, products, weatherStops } = results.job.blocks;
    for (const { surface } of conditions) {
      for (const limits of [...products, ...weatherStops]) {
        const out = surface && limits.surface && broken(surface.value, limits.surface.value);
        if (!out || !limits.surface) continue;
        const [planned, limit] = sayBoth(results, surface.value, out.limit, 'temperature', surface);
        const whose = limits.kind === 'product' ? `${limits.name} may be used` : 'work goes on';
        yield {
          message: `The job is planned for pavement at ${planned}, but ${whose} only ${out.side === 'below' ? 'from' : 'up to'} ${limit}. Choose other nights or hours, or another product.`,
          place: surface.place,
          related: see(limits.surface, 'The limit.'),
          about: refOf(limits),
        };
      }
    }
  },
});
