import { check } from '../check.ts';
import { allSteps, refOf, see } from '../help.ts';

export default check({
  code: 'jetting-on-porous',
  title: 'Water jets are used on a porous friction course',
  severity: 'error',
  safety: true,
  why: 'Jets drive rubber into the pores of an open surface and tear stones out of it, and those stones are foreign objects on a runway. A current federal solicitation forbids blasting with water on porous friction course.',
  source: 'federal-solicitation',
  bad: {
    water: [
      '    pavement:  grooved asphalt',
      '    pavement:  porous friction course',
      '    suits:      asphalt, grooved asphalt',
      '    suits:      asphalt, porous friction course',
    ],
  },
  *find({ job }) {
    for (const { plan, step } of allSteps(job, 'jet')) {
      const pavement = plan.runway?.pavement;
      if (pavement?.value !== 'porous friction course') continue;
      yield {
        message: `${plan.work.name}.${step.name} works with jets on a porous friction course, which they open and tear. Use another method on this runway.`,
        place: plan.work.method?.place ?? plan.work.heading,
        related: [...see(pavement, 'The pavement.'), { place: step.heading, message: 'The step with jets.' }],
        about: refOf(plan.work),
      };
    }
  },
});
