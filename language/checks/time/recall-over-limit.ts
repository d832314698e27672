import { check } from '../check.ts';
import { refOf, say } from '../help.ts';
import { clockTime, dayOf, linksTo } from '../schedules.ts';

export default check({
  code: 'recall-over-limit',
  title: 'The runway can not be cleared within the time of recall',
  severity: 'warning',
  why: 'When an aircraft has to land, everything stops: what is wet is rinsed, picked up and inspected, and everybody leaves. The plan wets so much at a time that this takes longer than was promised. Fewer bays wet at once, shorter bays or a second rinse shorten it; only the operator can agree to a longer time.',
  source: 'common-practice',
  bad: ['    recall:    3 h', '    recall:    40 min'],
  *find(results) {
    const { review, schedule } = results;
    for (const { night, peak, limit, over } of review.recall.nights) {
      const scheduled = schedule.nights[night]!;
      const { closure } = scheduled.night;
      const first = over[0];
      if (limit === undefined || !first || !closure.recall) continue;
      const seen = review.recall.nights
        .slice(0, night)
        .some(each => each.over.length > 0 && schedule.nights[each.night]!.night.closure === closure);
      if (seen) continue;
      const wet = schedule.activities
        .filter(each => each.night === night && each.does === 'apply' && each.start <= peak.at)
        .map(each => each.id);
      yield {
        message: `If the runway is called back on ${dayOf(scheduled)} at ${clockTime(results, peak.at, scheduled)}, clearing it takes ${say(results, peak.seconds, 'time')}, more than the ${say(results, limit, 'time', closure.recall)} that \`recall\` allows; from ${clockTime(results, first.from, scheduled)} to ${clockTime(results, over.at(-1)!.to, scheduled)} it can't be kept. Spray shorter bays, or agree a longer recall with operations.`,
        place: closure.recall.place,
        related: linksTo(
          results,
          wet.map(activity => ({ activity, message: 'What is wet then was sprayed here.' })),
        ),
        about: refOf(closure),
      };
    }
  },
});
