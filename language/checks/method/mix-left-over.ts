import { check } from '../check.ts';
import { below, percent, refOf, say, setNumber } from '../help.ts';
import { mixOfJob } from '../tracked.ts';

/** Of what is ordered; less is what an engineer keeps in hand on purpose. */
const KEPT_IN_HAND = 0.15;

export default check({
  code: 'mix-left-over',
  title: 'Much more product is ordered than the passes lay',
  severity: 'hint',
  why: 'The allotment is meant to be used up on the deposit. Mixed product does not keep, and what is left over has to be stored or disposed of by its safety data sheet. The passes are known, so the contingency need only cover what can go wrong.',
  source: 'common-practice',
  bad: ['    date:       2031-03-03\n}\n', '    date:       2031-03-03\n    contingency: 50 %\n}\n'],
  *find(results) {
    const head = results.job.blocks.jobs[0];
    const contingency = head?.contingency;
    if (!head || !contingency || contingency.value === 0) return;
    const { laid, byArea: mix } = mixOfJob(results);
    const ordered = mix * (1 + contingency.value);
    if (!(laid > 0) || !below(laid, ordered * (1 - KEPT_IN_HAND))) return;
    // Enough that what is kept in hand is just the share that raises no finding.
    const enough = Math.ceil((laid / mix / (1 - KEPT_IN_HAND / 2) - 1) * 100) / 100;
    yield {
      message: `A contingency of ${percent(contingency.value)} orders ${say(results, ordered, 'volume')} of mix, but the passes lay ${say(results, laid, 'volume')}: ${percent(1 - laid / ordered)} is left over. Order less, or say in the text what the rest is for.`,
      place: contingency.place,
      about: refOf(head),
      fixes: setNumber(results, contingency, Math.max(enough, 0), 'share', 'up', 'the contingency'),
    };
  },
});
