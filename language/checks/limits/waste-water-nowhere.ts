import { check } from '../check.ts';
import { fullPlans, refOf, stepsOf } from '../help.ts';

export default check({
  code: 'waste-water-nowhere',
  title: 'Nothing says where the waste water goes',
  severity: 'error',
  why: 'Rinse water carries rubber, product and whatever was in the pavement. Airport contracts ask for immediate recovery of all standing and running wash water and proper disposal of water and rubber; washing into a storm drain is an offence in many places.',
  source: 'state-solicitation',
  bad: ['    goes-to:   "tanker to a treatment works"\n', ''],
  *find({ job }) {
    if (job.blocks.environments.some(environment => environment.goesTo)) return;
    for (const plan of fullPlans(job)) {
      const wet = stepsOf(plan, 'rinse', 'jet', 'apply')[0];
      if (!wet) continue;
      const block = job.blocks.environments[0] ?? plan.work;
      yield {
        message: `${plan.work.name} leaves waste water from ${wet.step.name} on, and nothing says where it goes. Add \`goes-to:\` to the \`environment\`, and the permit for it.`,
        place: block.heading,
        about: refOf(block),
      };
      return;
    }
  },
});
