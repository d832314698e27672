import { check } from '../check.ts';
import { below, fullPlans, refOf, sayBoth, setNumber } from '../help.ts';

export default check({
  code: 'hand-back-short',
  title: 'The reserve for the hand-back is shorter than the inspection',
  severity: 'warning',
  why: 'By the time the reserve begins the runway is clear and inspected, but whatever goes wrong goes wrong at the end. A reserve that is shorter than one inspection leaves no room to clean a spot and look again.',
  source: 'common-practice',
  bad: ['    hand-back: 45 min', '    hand-back: 10 min'],
  *find(results) {
    const inspections = [...fullPlans(results.job)].flatMap(plan =>
      plan.steps.filter(({ step }) => step.reopening?.value && step.takes).map(({ step }) => step),
    );
    const longest = inspections.reduce<(typeof inspections)[number] | undefined>(
      (a, b) => (a && a.takes!.value >= b.takes!.value ? a : b),
      undefined,
    );
    if (!longest?.takes) return;
    for (const closure of results.job.blocks.closures) {
      if (!closure.handBack || !below(closure.handBack.value, longest.takes.value)) continue;
      const [reserve, takes] = sayBoth(results, closure.handBack.value, longest.takes.value, 'time', closure.handBack);
      yield {
        message: `The reserve of ${reserve} before the end of ${closure.name} is shorter than one inspection (${takes}), so nothing that is found can be mended and looked at again. Lengthen it.`,
        place: closure.handBack.place,
        related: [{ place: longest.heading, message: 'The inspection.' }],
        about: refOf(closure),
        fixes: setNumber(results, closure.handBack, longest.takes.value, 'time', 'up', 'the reserve'),
      };
    }
  },
});
