import { check } from '../check.ts';
import { counted, refOf } from '../help.ts';
import { clockTime, dayOf, linksTo } from '../schedules.ts';

export default check({
  code: 'wrong-light',
  title: 'Work is scheduled in daylight or darkness against the closure',
  severity: 'warning',
  why: 'A closure may ask for darkness, because traffic is by day, or for daylight, because residue is looked for by eye. The sun of that date and place decides, not the clock: at high latitudes a summer night has little darkness.',
  source: 'noaa-solar',
  bad: ['    recall:    3 h', '    recall:    3 h\n    light:     daylight'],
  *find(results) {
    const { review, schedule } = results;
    for (const [night, scheduled] of schedule.nights.entries()) {
      const wrong = review.wrongLight.filter(each => each.night === night);
      const [first] = wrong;
      const { closure } = scheduled.night;
      if (!first || !closure.light) continue;
      const found =
        first.found === 'day' ? 'the sun is up' : first.found === 'night' ? 'it is night' : 'there is twilight only';
      yield {
        message: `${closure.name} asks for ${first.wanted}, but on ${dayOf(scheduled)} ${counted(wrong.length, 'activity').replace('activitys', 'activities')} fall outside it: ${first.activity} is under way at ${clockTime(results, first.at, scheduled)}, when ${found}. Change the hours or the dates.`,
        place: closure.light.place,
        related: linksTo(
          results,
          wrong.map(each => ({ activity: each.activity, message: 'Under way in the wrong light.' })),
        ),
        about: refOf(closure),
      };
    }
  },
});
