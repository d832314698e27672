import { interiorContacts } from '../../formulas/brooms.ts';
import { check } from '../check.ts';
import { allSteps, below, machinesOf, percent, replaceValue, say, stepPlace, stepQuantity, stepRef } from '../help.ts';

export default check({
  code: 'broom-overlap',
  title: 'The overlap of the broom circuits is under half the swept width',
  severity: 'warning',
  why: 'Each circuit is wider by half a broom, so that every point is brushed twice on the way out. A broom set at an angle sweeps less than its nominal width: at 30° half the nominal width leaves 42 % overlap, and over a quarter of the ground is brushed only once.',
  source: 'geometry',
  bad: ['        advance: half swept', '        advance: half nominal'],
  *find(results) {
    for (const planned of allSteps(results.job, 'agitate')) {
      const { plan, step } = planned;
      for (const broom of machinesOf(planned, 'broom')) {
        const [swept, advance, share] = ['swept', 'advance', 'overlapShare'].map(name =>
          stepQuantity(results, plan, step, name),
        );
        if (swept === undefined || advance === undefined || share === undefined || !below(share, 0.5)) continue;
        const once = interiorContacts(swept, advance);
        const effect =
          once && once.least >= 1
            ? `, and ${percent(once.shareAtLeast)} of the ground is brushed only ${once.least === 1 ? 'once' : `${once.least} times`} on a run`
            : ', and strips stay that no broom touches';
        yield {
          message: `${plan.work.name}.${step.name} advances ${say(results, advance, 'length')} a circuit where ${broom.name} sweeps ${say(results, swept, 'length')}: an overlap of ${share > 0 ? percent(share) : 'nothing'}${effect}. Advance by half the swept width, ${say(results, swept / 2, 'length')}.`,
          place: stepPlace(step, step.advance),
          about: stepRef(plan, step),
          fixes: replaceValue(results, step.advance, 'half swept', 'Advance by half the swept width'),
        };
        break;
      }
    }
  },
});
