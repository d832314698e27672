import { check } from '../check.ts';
import { broken, isChemical, refOf, see } from '../help.ts';

export default check({
  code: 'ph-outside-limit',
  title: 'The mix is more acid or alkaline than may be discharged',
  severity: 'warning',
  why: 'Airport wash rules allow wash chemicals between pH 6.0 and 9.0. Rinse water dilutes the mix, but the scale is logarithmic: ten times the water is one step.',
  source: 'maryland-wash-rules',
  bad: ['    ph:                9', '    ph:                12.5'],
  *find({ job }) {
    for (const plan of job.plans) {
      const { product } = plan;
      if (!isChemical(plan) || !product?.ph || product.rinse?.value === 'neutralise') continue;
      for (const block of job.blocks.environments) {
        const out = block.ph && broken(product.ph.value, block.ph.value);
        if (!out || !block.ph) continue;
        yield {
          message: `The mix of ${product.name} has pH ${product.ph.value}, but only ${block.ph.text} may be discharged. Say how the water is brought there: \`rinse: neutralise\`, or take all of it away.`,
          place: product.ph.place,
          related: see(block.ph, 'What may be discharged.'),
          about: refOf(product),
        };
      }
    }
  },
});
