import { check } from '../check.ts';
import { addLine, isChemical, refOf } from '../help.ts';

export default check({
  code: 'product-missing',
  title: 'A work puts a product on without saying which',
  severity: 'error',
  why: 'Rate, dwell, temperature limits and everything about safety and waste come from the product. Without it nothing of the job can be judged.',
  source: 'ufgs-32-01-11-52',
  bad: ['    product:    Detergent\n', ''],
  alongside: ['unused-block'],
  *find(results) {
    for (const plan of results.job.plans) {
      if (!isChemical(plan) || plan.work.product || plan.steps.some(({ step }) => step.product)) continue;
      // A product that was named but is not known is a finding already.
      const { file, start, end } = plan.work.place;
      if (results.job.problems.some(({ place: at }) => at.file === file && at.start >= start && at.end <= end))
        continue;
      const { products } = results.job.blocks;
      yield {
        message: `${plan.work.name} puts a product on, but nothing says which. Add \`product:\` to the work.`,
        place: plan.work.heading,
        about: refOf(plan.work),
        fixes:
          products.length === 1 && !products[0]!.fromLibrary
            ? addLine(results, plan.work, `product: ${products[0]!.name}`, `Use ${products[0]!.name}`)
            : [],
      };
    }
  },
});
