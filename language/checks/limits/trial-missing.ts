import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'trial-missing',
  title: 'No trial patch shows that the method works here',
  severity: 'warning',
  why: 'Rubber, pavement and water differ from place to place. A current federal solicitation asks for a demonstration in the touchdown area, at least one a runway, judged beside untrafficked pavement; it freezes rate, soak and passes.',
  source: 'federal-solicitation',
  bad: [
    `trial Patch {
    on:          Main from "04"
    chainage:    300 to 330 m
    left:        5 m
    right:       5 m
    work:        North
    freezes:     rate, soak
    accepted-by: "airport engineer"
    accepts:     "friction and texture beside an untrafficked strip"
}
`,
    '',
  ],
  *find({ job }) {
    for (const { work, runway } of fullPlans(job)) {
      const tried = job.blocks.trials.some(
        ({ on, work: of }) => of?.value.id === work.id || on?.value.runway.id === runway?.id,
      );
      if (!runway || tried) continue;
      yield {
        message: `No trial patch shows that ${work.name} works on runway ${runway.name}. Add a \`trial\` in the touchdown zone, with who accepts it and what it freezes.`,
        place: work.heading,
        about: refOf(work),
      };
    }
  },
});
