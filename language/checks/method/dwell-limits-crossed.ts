import { check } from '../check.ts';
import { above, refOf, sayBoth, see } from '../help.ts';

export default check({
  code: 'dwell-limits-crossed',
  title: 'The shortest dwell of the product is longer than its longest',
  severity: 'error',
  why: 'The two limits come from the data sheet. If the shortest is the longer one, they were exchanged or one of them was misread, and every soak of the job is judged by them.',
  source: 'tool-policy',
  bad: [
    '    dwell-least:       30 min\n    dwell-most:        5 h',
    '    dwell-least:       120 min\n    dwell-most:        30 min',
  ],
  alongside: ['soak-under-minimum', 'soak-over-maximum'],
  *find(results) {
    for (const product of results.job.blocks.products) {
      const { dwellLeast, dwellMost } = product;
      if (!dwellLeast || !dwellMost || !above(dwellLeast.value, dwellMost.value)) continue;
      const [least, most] = sayBoth(results, dwellLeast.value, dwellMost.value, 'time', dwellLeast);
      yield {
        message: `${product.name} has to stand at least ${least} but at most ${most}. Look both up in the data sheet.`,
        place: dwellLeast.place,
        related: see(dwellMost, 'The longest time.'),
        about: refOf(product),
      };
    }
  },
});
