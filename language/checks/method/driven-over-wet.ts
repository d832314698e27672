import { check } from '../check.ts';
import { stepRef } from '../help.ts';
import { trackedWorks } from '../tracked.ts';

export default check({
  code: 'driven-over-wet',
  title: 'A machine drives over product that soaks',
  severity: 'error',
  why: 'Wheels and brushes carry product off, spread it beyond the deposit, and leave tracks that have not soaked. Between spraying and the first tool only the truck that keeps it wet belongs there.',
  source: 'common-practice',
  bad: [
    '    step Soak {',
    '    step Again {\n        does:      sweep\n        by:        sweeper\n        speed:     8 km/h\n        direction: against landing\n    }\n    step Soak {',
  ],
  *find(results) {
    for (const { plan, bays } of trackedWorks(results)) {
      const seen = new Set<string>();
      for (const { activities } of bays) {
        const apply = activities.find(each => each.does === 'apply');
        const tool = activities.find(each => each.does === 'agitate' || each.does === 'jet');
        if (!apply || !tool) continue;
        for (const each of activities) {
          const { step } = each.planned;
          const crosses =
            (each.does === 'sweep' || each.does === 'pick-up') && each.end > apply.start && each.start < tool.start;
          if (!crosses || each.start < apply.start || seen.has(step.id)) continue;
          seen.add(step.id);
          yield {
            message: `${plan.work.name}.${step.name} drives over the bay while the product of ${apply.planned.step.name} soaks. Do it before ${apply.planned.step.name}, or after ${tool.planned.step.name}.`,
            place: step.heading,
            related: [{ place: apply.planned.step.heading, message: 'The product goes on here.' }],
            about: stepRef(plan, step),
          };
        }
      }
    }
  },
});
