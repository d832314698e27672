import { check } from '../check.ts';
import { allSteps, broken, editable, fix, listed, mixRateOf, placeOf, sayBoth, see, stepRef, write } from '../help.ts';

export default check({
  code: 'rate-outside-product',
  title: 'The rate is outside what the product is meant for',
  severity: 'error',
  why: "The maker's rates are of the mix as it is sprayed. Less does not go through the rubber, more runs off into the drains and has to be recovered. No published rate was found anywhere, so the data sheet is all there is.",
  source: 'common-practice',
  bad: ['        rate:  0.35 L/m2 of mix', '        rate:  0.2 L/m2 of mix'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'apply')) {
      const range = plan.product?.rate;
      if (!range || !step.rate) continue;
      const heavy = plan.method?.buildUps.filter(each =>
        plan.deposits.some(deposit => deposit.buildUp?.value === each.name),
      );
      const overridden = heavy?.filter(each => each.rate).map(each => each.rate!) ?? [];
      const all = plan.deposits.every(deposit =>
        heavy?.some(each => each.rate && each.name === deposit.buildUp?.value),
      );
      for (const given of [...(all ? [] : [step.rate]), ...overridden]) {
        const rate = mixRateOf(given.value, plan.product);
        const out = rate !== undefined && broken(rate, range.value);
        if (!out) continue;
        const [said, limit] = sayBoth(results, rate, out.limit, 'application rate');
        const towards = out.side === 'above' ? 'down' : 'up';
        const unit = /[a-zA-Z][^ ]*(?: ft2)?(?= of|$)/.exec(given.text)?.[0];
        const text = given.value.of === 'mix' ? write(out.limit, unit, towards) : undefined;
        const place = editable(results, given);
        yield {
          message: `${plan.work.name}.${step.name} puts on ${said} of mix, ${out.side} the ${limit} that ${plan.product!.name} is meant for. Change the rate${out.side === 'above' ? ', or put it on in more coats if the maker allows it' : ''}.`,
          place: placeOf(given),
          related: see(range, `The rates of ${listed([plan.product!.name])}.`),
          about: stepRef(plan, step),
          fixes: place && text ? fix(`Set the rate to ${text}`, [{ place, text: `${text} of mix` }]) : [],
        };
      }
    }
  },
});
