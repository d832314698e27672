import { check } from '../check.ts';
import { percent, refOf } from '../help.ts';
import { clockTime, dayOf } from '../schedules.ts';

export default check({
  code: 'reserve-eaten',
  title: 'Within its tolerances the plan can run into the reserve before the hand-back',
  severity: 'hint',
  why: 'The reserve is kept for what nobody foresaw: a puncture, a spot that has to be cleaned again. Where durations that are still within their tolerances use it up, less of it is left for that than was agreed.',
  source: 'common-practice',
  bad: [
    '        takes:     20 min\n        reopening: yes',
    '        takes:     70 min ± 20 min\n        reopening: yes',
    '    recall:    3 h',
    '    recall:    6 h',
  ],
  alongside: ['hand-back-short'],
  *find(results) {
    const { review, schedule } = results;
    for (const { night, onTime } of review.odds?.nights ?? []) {
      if (onTime < 0.9 || onTime === 1) continue;
      const scheduled = schedule.nights[night]!;
      const { closure } = scheduled.night;
      yield {
        message: `On ${dayOf(scheduled)} the work runs into the reserve after ${clockTime(results, scheduled.handBack, scheduled)} in ${percent(1 - onTime)} of ${review.odds!.runs} runs with durations between their tolerances. Leave more time, or say that this is meant.`,
        place: (closure.handBack ?? { place: closure.heading }).place,
        about: refOf(closure),
      };
    }
  },
});
