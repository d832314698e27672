import { check } from '../check.ts';
import { allSteps, counted, stepPlace, stepQuantity, stepRef } from '../help.ts';

export default check({
  code: 'contacts-too-few',
  title: 'The circuits give fewer contacts than the method asks for',
  severity: 'error',
  why: 'How often a point is brushed follows from the swept width over the advance, the runs out and in, the cycles, and the brooms that follow in the same lane. The demand and the circuits have to agree.',
  source: 'geometry',
  bad: ['        cycles:  2', '        cycles:  1\n        contacts: >= 9'],
  good: ['        cycles:  2', '        cycles:  3\n        contacts: >= 9'],
  *find(results) {
    for (const { plan, step } of allSteps(results.job, 'agitate')) {
      const wanted = step.contacts?.value.least;
      const least = stepQuantity(results, plan, step, 'contacts');
      if (wanted === undefined || least === undefined || least >= wanted) continue;
      yield {
        message: `${plan.work.name}.${step.name} gives every point at least ${counted(least, 'contact')}, but ${wanted} are asked for. Add cycles, advance less, or let the brooms follow in the same lane.`,
        place: stepPlace(step, step.contacts),
        about: stepRef(plan, step),
      };
    }
  },
});
