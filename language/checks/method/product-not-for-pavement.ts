import { check } from '../check.ts';
import { allSteps, refOf, see } from '../help.ts';

export default check({
  code: 'product-not-for-pavement',
  title: 'The product is not released for this pavement',
  severity: 'error',
  why: 'What loosens rubber can loosen bitumen too: alkaline products are used on asphalt, others only on concrete. The maker says for which surfaces the product is released, and harm to the pavement costs far more than the job.',
  source: 'faa-12c-removal',
  bad: ['    suits:             asphalt, grooved asphalt', '    suits:             concrete, grooved concrete'],
  *find({ job }) {
    const seen = new Set<string>();
    for (const { plan } of allSteps(job, 'apply')) {
      const { product, runway } = plan;
      const surface = runway?.pavement?.value;
      if (!product?.suits || surface === undefined || product.suits.value.includes(surface) || seen.has(plan.work.id))
        continue;
      seen.add(plan.work.id);
      yield {
        message: `${plan.work.name} puts ${product.name} on ${surface}, but it is released only for ${product.suits.value.join(', ')}. Choose another product, or get the maker's written release.`,
        place: plan.work.product?.place ?? plan.work.heading,
        related: [
          ...see(product.suits, 'The surfaces it is released for.'),
          ...see(runway!.pavement!, 'The pavement.'),
        ],
        about: refOf(plan.work),
      };
    }
  },
});
