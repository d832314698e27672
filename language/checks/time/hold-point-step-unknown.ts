import { nearestAll } from '../../words/nearest.ts';
import { check } from '../check.ts';
import { fullPlans, refOf, replaceValue } from '../help.ts';

export default check({
  code: 'hold-point-step-unknown',
  title: 'A hold point stands before a step that no method has',
  severity: 'error',
  why: 'Work stops at a hold point until somebody releases it. If no method has the step it names, nobody stops.',
  source: 'tool-policy',
  bad: ['    released-by: "engineer on site"', '    released-by: "engineer on site"\n    step:        "Sprey"'],
  good: ['    released-by: "engineer on site"', '    released-by: "engineer on site"\n    step:        "Spray"'],
  *find(results) {
    const names = [...fullPlans(results.job)].flatMap(({ work, steps }) =>
      steps.flatMap(({ step }) => [step.name, `${work.name}.${step.name}`]),
    );
    if (names.length === 0) return;
    for (const point of results.job.blocks.holdPoints) {
      if (!point.step || names.includes(point.step.value)) continue;
      const meant = nearestAll(point.step.value, names);
      yield {
        message: `${point.name} stands before a step "${point.step.value}", but no work has one, so nobody stops there.${meant[0] ? ` Did you mean ${meant.join(' or ')}?` : ' Name one of the steps.'}`,
        place: point.step.place,
        about: refOf(point),
        fixes: meant.flatMap(name => replaceValue(results, point.step, `"${name}"`, `Write "${name}"`)),
      };
    }
  },
});
