import { check } from '../check.ts';
import { allSteps, machinesOf, replaceValue, stepRef } from '../help.ts';

export default check({
  code: 'metal-pick-up',
  title: 'The sweeper that picks up has metal bristles',
  severity: 'error',
  why: 'The last pass over the runway has to take debris away and not leave any. Metal bristles shed wire, so the sweeper that picks up has bristles without metal.',
  source: 'common-practice',
  bad: [
    '    picks-up-by:   regenerative air\n    bristles:      polypropylene',
    '    picks-up-by:   regenerative air\n    bristles:      steel',
  ],
  *find(results) {
    for (const planned of allSteps(results.job, 'pick-up')) {
      const { plan, step } = planned;
      for (const sweeper of machinesOf(planned, 'sweeper')) {
        const bristles = sweeper.bristles;
        if (bristles?.value !== 'steel' && bristles?.value !== 'mixed') continue;
        yield {
          message: `${plan.work.name}.${step.name} picks up with ${sweeper.name}, whose ${bristles.value} bristles shed wire where the last debris should be taken away. Use bristles without metal.`,
          place: bristles.place,
          about: stepRef(plan, step),
          fixes: replaceValue(results, bristles, 'polypropylene', 'Use polypropylene bristles'),
        };
      }
    }
  },
});
