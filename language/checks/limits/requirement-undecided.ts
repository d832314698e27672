import { check } from '../check.ts';
import { lookupIn } from '../waivers.ts';

export default check({
  code: 'requirement-undecided',
  title: 'A requirement of the author could not be judged',
  severity: 'warning',
  why: 'A requirement needs all the numbers it speaks of. Until they can be computed nobody knows whether it holds, and silence must not look like a pass.',
  source: 'tool-policy',
  bad: [
    'crew Night {',
    'require North.product <= 6000 L because "one delivery"\n\ncrew Night {',
    '        rate:  0.35 L/m2 of mix\n',
    '',
  ],
  good: ['crew Night {', 'require North.product <= 6000 L because "one delivery"\n\ncrew Night {'],
  alongside: ['missing-property'],
  *find(results) {
    for (const requirement of results.job.requirements) {
      const outcome = requirement.evaluate(lookupIn(results));
      if (!('missing' in outcome) || outcome.inDoubt) continue;
      yield {
        message: `It can't be said whether ${requirement.text} holds, because ${outcome.missing} could not be computed. Give what it needs; the other findings say what is missing.`,
        place: requirement.place,
        ...(requirement.owner && { about: requirement.owner }),
      };
    }
  },
});
