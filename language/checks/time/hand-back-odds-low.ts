import { check } from '../check.ts';
import { percent, refOf } from '../help.ts';
import { clockTime, dayOf } from '../schedules.ts';

/** Below this share the hand-back counts as a gamble. A choice made by this tool. */
const LOW = 0.9;

export default check({
  code: 'hand-back-odds-low',
  title: 'With its tolerances the plan is often not clear by the hand-back',
  severity: 'warning',
  why: 'Speeds and times have tolerances, and what is late pushes what comes after it. The plan keeps the hand-back when everything goes as written; when durations fall anywhere between their tolerances it fails too often. The reserve is meant for what nobody foresaw, not for that.',
  source: 'common-practice',
  bad: [
    '        takes:     20 min\n        reopening: yes',
    '        takes:     75 min ± 30 min\n        reopening: yes',
    '    recall:    3 h',
    '    recall:    6 h',
  ],
  alongside: ['hand-back-short', 'reserve-eaten'],
  *find(results) {
    const { review, schedule } = results;
    for (const { night, onTime, keptBy90 } of review.odds?.nights ?? []) {
      if (onTime >= LOW) continue;
      const scheduled = schedule.nights[night]!;
      const { closure } = scheduled.night;
      yield {
        message: `On ${dayOf(scheduled)} the runway is clear by the hand-back at ${clockTime(results, scheduled.handBack, scheduled)} in only ${percent(onTime)} of ${review.odds!.runs} runs with durations between their tolerances; 90 % of them are clear by ${clockTime(results, keptBy90 + 59, scheduled)}. Leave more time, or narrow the tolerances.`,
        place: (closure.handBack ?? { place: closure.heading }).place,
        about: refOf(closure),
      };
    }
  },
});
