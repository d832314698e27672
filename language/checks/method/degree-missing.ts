import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'degree-missing',
  title: 'Nothing says how much of the deposit has to come off',
  severity: 'warning',
  why: 'Guide specifications ask for a share of the deposit from a share of the area, for example 85 % of the build-up from all of the covered area. Without it a contractor may stop whenever the colour looks right.',
  source: 'etl-97-17',
  bad: ['    degree:     85 %\n', '', '    removed:  85 %\n    of-area:  100 %\n', ''],
  *find({ job }) {
    const seen = new Set<number>();
    if (job.blocks.acceptances.some(acceptance => acceptance.removed)) return;
    for (const { method } of fullPlans(job)) {
      if (method.degree || seen.has(method.heading.start)) continue;
      seen.add(method.heading.start);
      yield {
        message: `Neither ${method.name} nor the acceptance says how much of the deposit has to come off. Add \`degree:\` to the method or \`removed:\` to the acceptance; 85 % of the build-up is what a guide specification asks for.`,
        place: method.heading,
        about: refOf(method),
      };
    }
  },
});
