import { check } from '../check.ts';
import { fullPlans, stepRef } from '../help.ts';

export default check({
  code: 'steps-out-of-order',
  title: 'The steps of the method stand in an order that can not work',
  severity: 'error',
  why: 'Steps are done in the order in which they stand, bay by bay. A product can only be worked in after it was put on and has soaked, rinsed off after it was worked in, and picked up after it was rinsed.',
  source: 'chemical-method-slides',
  bad: [
    '    step Spray {\n        does:  apply\n        by:    applicator\n        speed: 8 km/h\n        rate:  0.35 L/m2 of mix\n    }\n',
    '',
    '    step PickUp {',
    '    step Spray {\n        does:  apply\n        by:    applicator\n        speed: 8 km/h\n        rate:  0.35 L/m2 of mix\n    }\n    step PickUp {',
  ],
  alongside: ['rinse-missing'],
  *find({ job }) {
    for (const plan of fullPlans(job)) {
      const kinds = plan.steps.map(({ step }) => step.does?.value);
      for (const [first, then, why] of order) {
        const [a, b] = [kinds.indexOf(first), kinds.indexOf(then)];
        if (a < 0 || b < 0 || a < b) continue;
        const [earlier, later] = [plan.steps[a]!.step, plan.steps[b]!.step];
        yield {
          message: `${plan.work.name}.${later.name} comes before ${earlier.name}, but ${why}. Change the order of the steps.`,
          place: later.heading,
          related: [{ place: earlier.heading, message: 'This has to come first.' }],
          about: stepRef(plan, later),
        };
        break;
      }
    }
  },
});

const order = [
  ['apply', 'soak', 'nothing can soak that was not put on'],
  ['apply', 'agitate', 'there is nothing to work in before the product is on'],
  ['apply', 'rinse', 'there is nothing to rinse off before the product is on'],
  ['soak', 'agitate', 'the product has to soak before it is worked in'],
  ['agitate', 'rinse', 'the product is rinsed off after it was worked in'],
  ['rinse', 'pick-up', 'what is picked up is what was rinsed off'],
  ['jet', 'pick-up', 'what is picked up is what the jets took off'],
] as const;
