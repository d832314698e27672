import { check } from '../check.ts';
import { fullPlans, refOf, see } from '../help.ts';

export default check({
  code: 'method-not-for-pavement',
  title: 'The method is not meant for this pavement',
  severity: 'error',
  why: 'Each method, misapplied, can damage the runway and above all its grooves. A method names the surfaces it was written for; on another one its rates, pressures and speeds are guesses.',
  source: 'acrp-synthesis-11',
  bad: [
    '    suits:      asphalt, grooved asphalt\n    degree',
    '    suits:      concrete, grooved concrete\n    degree',
  ],
  *find({ job }) {
    for (const plan of fullPlans(job)) {
      const { suits } = plan.method;
      const surface = plan.runway?.pavement?.value;
      if (!suits || surface === undefined || suits.value.includes(surface)) continue;
      yield {
        message: `${plan.work.name} uses ${plan.method.name} on ${surface}, but the method is written for ${suits.value.join(', ')}. Choose another method, or prove this one on a trial patch and add the surface to it.`,
        place: plan.work.method?.place ?? plan.work.heading,
        related: [...see(suits, 'The surfaces of the method.'), ...see(plan.runway!.pavement!, 'The pavement.')],
        about: refOf(plan.work),
      };
    }
  },
});
