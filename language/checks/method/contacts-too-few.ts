import { interiorContacts, sweptWidth } from '../../formulas/brooms.ts';
import { radians } from '../../units/index.ts';
import { check } from '../check.ts';
import { advanceOf, allSteps, counted, machinesOf, stepPlace, stepRef } from '../help.ts';

export default check({
  code: 'contacts-too-few',
  title: 'The circuits give fewer contacts than the method asks for',
  severity: 'error',
  why: 'How often a point is brushed follows from the swept width over the advance, the runs out and in, the cycles, and the brooms that follow in the same lane. The demand and the circuits have to agree.',
  source: 'geometry',
  bad: ['        cycles:  2', '        cycles:  1\n        contacts: >= 8'],
  good: ['        cycles:  2', '        cycles:  2\n        contacts: >= 8'],
  *find(results) {
    for (const planned of allSteps(results.job, 'agitate')) {
      const { plan, step } = planned;
      const broom = machinesOf(planned, 'broom')[0];
      const wanted = step.contacts?.value.least;
      if (wanted === undefined || !broom?.width || !broom.angle || !step.advance) continue;
      const swept = sweptWidth(broom.width.value, radians(broom.angle.value));
      const advance = advanceOf(step.advance.value, broom.width.value, swept);
      const each = interiorContacts(swept, advance);
      const tandem =
        step.tandem?.value.lane === 'next' ? 1 : planned.machines.reduce((sum, { count }) => sum + count, 0);
      const runs = (step.returns?.value === false ? 1 : 2) * (step.cycles?.value ?? 1);
      const least = each && each.least * runs * (step.tandem ? tandem : 1);
      if (least === undefined || least >= wanted) continue;
      yield {
        message: `${plan.work.name}.${step.name} gives every point at least ${counted(least, 'contact')}, but ${wanted} are asked for. Add cycles, advance less, or let the brooms follow in the same lane.`,
        place: stepPlace(step, step.contacts),
        about: stepRef(plan, step),
      };
    }
  },
});
