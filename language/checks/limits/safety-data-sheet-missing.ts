import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'safety-data-sheet-missing',
  title: 'The product has no safety data sheet',
  severity: 'error',
  safety: true,
  why: 'The safety data sheet says what the product does to people, what to wear, what to do after a splash or a spill, and how to dispose of it. Nobody may handle the product without it, and it governs over anything written here.',
  source: 'sds-sections',
  bad: ['    safety-data-sheet: "SDS 12, 2030-11-04"\n', ''],
  *find({ job }) {
    for (const product of job.blocks.products) {
      if (product.safetyDataSheet?.value.trim()) continue;
      yield {
        message: `${product.name} has no safety data sheet, so nobody knows what to wear or what to do after a splash. Add \`safety-data-sheet:\` with its reference and date.`,
        place: product.safetyDataSheet?.place ?? product.heading,
        about: refOf(product),
      };
    }
  },
});
