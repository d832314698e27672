import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'family-contradicts-steps',
  title: 'The steps are not those of the family of the method',
  severity: 'error',
  why: 'Readers judge a method by its family: what it needs in closures, what it does to the pavement, what has to be recovered. A water method that puts a product on, or a chemical one with jets, is another family.',
  source: 'icao-9137-2-removal',
  bad: ['    family:     chemical and brooms', '    family:     low-pressure water'],
  *find({ job }) {
    for (const method of job.blocks.methods) {
      const family = method.family?.value;
      const has = (kind: string) => method.steps.find(step => step.does?.value === kind);
      const [apply, jet] = [has('apply'), has('jet')];
      const fault =
        family === 'low-pressure water' && apply
          ? `puts a product on in ${apply.name}`
          : family === 'chemical and brooms' && jet
            ? `works with jets in ${jet.name}`
            : family !== 'chemical and brooms' && family !== undefined && method.steps.length > 0 && !jet
              ? 'has no step with jets'
              : family === 'chemical then low-pressure water' && !apply && method.steps.length > 0
                ? 'puts no product on'
                : undefined;
      if (fault === undefined || !method.family) continue;
      yield {
        message: `${method.name} is said to be ${family}, but it ${fault}. Correct the family or the steps.`,
        place: method.family.place,
        about: refOf(method),
      };
    }
  },
});
