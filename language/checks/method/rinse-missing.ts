import { check } from '../check.ts';
import { fullPlans, refOf, stepsOf } from '../help.ts';

export default check({
  code: 'rinse-missing',
  title: 'The product is never rinsed off',
  severity: 'error',
  why: 'Product that stays on the pavement makes it slippery when it is wet again. Regulations ask that a solvent used for cleaning is removed as soon as possible (from memory), and inspectors look for a film before the runway reopens.',
  source: '14-cfr-139-305-solvent',
  bad: [
    `    step Rinse {
        does:          rinse
        by:            water
        with:          scrubbers
        speed:         6 km/h
        rate:          3 L/m2
        travel:        outward
        faces:         edge
        first-circuit: about 3, at most 5
        until:         "the water runs clear"
    }
`,
    '',
  ],
  *find({ job }) {
    for (const plan of fullPlans(job)) {
      const kinds = plan.steps.map(({ step }) => step.does?.value);
      const apply = kinds.lastIndexOf('apply');
      if (apply < 0 || plan.product?.rinse?.value === 'none') continue;
      if (kinds.slice(apply).some(kind => kind === 'rinse' || kind === 'jet')) continue;
      yield {
        message: `${plan.work.name} puts a product on and never rinses it off, so a slippery film stays. Add a rinse from the crown outward after the last agitation.`,
        place: stepsOf(plan, 'apply')[0]!.step.heading,
        about: refOf(plan.work),
      };
    }
  },
});
