import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'acceptance-missing',
  title: 'Nothing says how the finished work is judged',
  severity: 'warning',
  why: 'The aim is wet friction, not a black or a grey surface. Without a device, a speed and a value, or at least a degree of removal, every dispute about payment is open.',
  source: 'federal-solicitation',
  bad: [
    'acceptance {\n    removed:  85 %\n    of-area:  100 %\n    device:   Surface Friction Tester\n    speed:    65 km/h\n    friction: 0.60\n    stretch:  100 m\n    within:   48 h\n    by:       "airport engineer"\n}\n',
    '',
  ],
  *find({ job }) {
    if (job.blocks.acceptances.length > 0) return;
    const [plan] = fullPlans(job);
    if (!plan) return;
    yield {
      message: `Nothing says how ${plan.work.name} is judged when it is done. Add an \`acceptance\` with device, speed and least friction, or with the degree of removal.`,
      place: plan.work.heading,
      about: refOf(plan.work),
    };
  },
});
