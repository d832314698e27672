import { check } from '../check.ts';
import { lookupIn } from '../waivers.ts';

export default check({
  code: 'requirement-fails',
  title: 'A requirement of the author does not hold',
  severity: 'error',
  why: 'The author wrote down what has to hold, for example that the product comes in one delivery. It is checked with the numbers as they are computed now, whatever changed since.',
  source: 'tool-policy',
  bad: ['crew Night {', 'require North.product <= 100 L because "one delivery"\n\ncrew Night {'],
  good: ['crew Night {', 'require North.product <= 6000 L because "one delivery"\n\ncrew Night {'],
  *find(results) {
    for (const requirement of results.job.requirements) {
      const outcome = requirement.evaluate(lookupIn(results));
      if ('problem' in outcome || 'missing' in outcome || outcome.holds) continue;
      const { left, right, operator } = outcome;
      const sides = left && right ? `: it is ${left}, and has to be ${operator ?? 'as'} ${right}` : '';
      yield {
        message: `${requirement.text} does not hold${sides}.${requirement.reason ? ` It is required because ${requirement.reason}.` : ''} Change what it follows from, or the requirement.`,
        place: requirement.place,
        ...(requirement.owner && { about: requirement.owner }),
      };
    }
  },
});
