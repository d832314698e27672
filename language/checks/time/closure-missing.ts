import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'closure-missing',
  title: 'No closure says when the runway is closed for a work',
  severity: 'warning',
  why: 'Nobody works on a runway in use, and only the operator of the airport can close it. Without a closure nothing can be planned: not the bays, not the recall, not the hand-back.',
  source: 'faa-notam-order',
  bad: [
    `closure Nights {
    on:        Main
    hours:     23:00 to 05:00, Mon to Thu
    from:      2031-04-07
    to:        2031-05-01
    hand-back: 45 min
    recall:    3 h
    set-up:    20 min
    notice:    "issued by airport operations"
    spare:     2
}
`,
    '',
    '    closure:    Nights\n',
    '',
  ],
  alongside: ['spare-nights-missing'],
  *find({ job }) {
    for (const { work, runway } of fullPlans(job)) {
      if (!runway || job.blocks.closures.some(({ on }) => on?.value.some(ref => ref.id === runway.id))) continue;
      yield {
        message: `No closure closes runway ${runway.name}, so nothing says when ${work.name} can be done. Add a \`closure\` with its hours, dates and hand-back, as agreed with the operator.`,
        place: work.heading,
        about: refOf(work),
      };
    }
  },
});
