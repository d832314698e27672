import { check } from '../check.ts';
import { allSteps, machinesOf, refOf } from '../help.ts';

export default check({
  code: 'calibrated-with-another',
  title: 'The applicator was calibrated with something else than water or this product',
  severity: 'warning',
  why: 'Flow depends on density, and the pattern on how thick the liquid is. Points measured with water can be carried over by the density of the mix; points measured with a de-icer or a herbicide can not.',
  source: 'common-practice',
  bad: ['    calibrated-with:  "water"', '    calibrated-with:  "potassium acetate"'],
  *find({ job }) {
    for (const planned of allSteps(job, 'apply')) {
      const { product } = planned.plan;
      for (const sprayer of machinesOf(planned, 'sprayer')) {
        const said = sprayer.calibratedWith?.value.toLowerCase();
        if (said === undefined || !product) continue;
        const names = ['water', 'product', product.name, product.class?.value ?? ''].map(name => name.toLowerCase());
        if (names.some(name => name !== '' && said.includes(name))) continue;
        yield {
          message: `${sprayer.name} was calibrated with "${sprayer.calibratedWith!.value}", but it puts on ${product.name}. Calibrate it with water or with the product itself.`,
          place: sprayer.calibratedWith!.place,
          about: refOf(sprayer),
        };
      }
    }
  },
});
