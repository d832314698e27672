import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'rate-of-payment-missing',
  title: 'Payment is by area, but no rate for the area is given',
  severity: 'hint',
  why: 'A schedule by area needs a rate, and says what counts once and what is deducted. In a tender the contractor fills it in; in the contract it has to be there.',
  source: 'ufgs-32-01-11-52',
  bad: ['warranty {', 'cost {\n    paid-by: area\n}\n\nwarranty {'],
  good: ['warranty {', 'cost {\n    paid-by: area\n    rate:    2 EUR/m2\n}\n\nwarranty {'],
  *find({ job }) {
    const issue = job.blocks.jobs[0]?.issue?.value;
    for (const cost of job.blocks.costs) {
      if (cost.paidBy?.value !== 'area' || cost.rate || issue === 'draft') continue;
      yield {
        message:
          'Payment is by area, but there is no rate for it. Add `rate:`, or leave the block out until it is agreed.',
        place: cost.paidBy.place,
        about: refOf(cost),
      };
    }
  },
});
