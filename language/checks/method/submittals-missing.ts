import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'submittals-missing',
  title: 'The method asks the contractor for no submittals',
  severity: 'hint',
  why: 'A specification says what has to be handed in before the work: process plan, equipment data, safety data sheets, disposal plan. A current federal solicitation asks for a written process plan.',
  source: 'federal-solicitation',
  bad: ['    submittals: "process plan", "safety data sheets", "disposal plan"\n', ''],
  *find({ job }) {
    const seen = new Set<number>();
    for (const { method } of fullPlans(job)) {
      if ((method.submittals?.value.length ?? 0) > 0 || seen.has(method.heading.start)) continue;
      seen.add(method.heading.start);
      yield {
        message: `${method.name} does not say what the contractor has to hand in before the work. Add \`submittals:\`, at least the process plan, the safety data sheets and the disposal plan.`,
        place: method.heading,
        about: refOf(method),
      };
    }
  },
});
