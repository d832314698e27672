import { check } from '../check.ts';
import { broken, refOf, sayBoth, see } from '../help.ts';

export default check({
  code: 'wind-outside-limit',
  title: 'The job is planned for a wind in which spraying stops',
  severity: 'error',
  why: 'A plan for weather in which the work may not go on is no plan. Either the limit is too strict for the place, or the nights have to be chosen otherwise.',
  source: 'tool-policy',
  bad: ['    wind:     8 km/h', '    wind:     30 km/h'],
  *find(results) {
    const { conditions, weatherStops } = results.job.blocks;
    for (const { wind } of conditions) {
      for (const stop of weatherStops) {
        const out = wind && stop.wind && broken(wind.value, stop.wind.value);
        if (!out || !stop.wind) continue;
        const [planned, limit] = sayBoth(results, wind.value, out.limit, 'speed', wind);
        yield {
          message: `The job is planned for a wind of ${planned}, but spraying stops ${out.side} ${limit}. Plan for calmer nights, or set another limit if it is safe.`,
          place: wind.place,
          related: see(stop.wind, 'The limit.'),
          about: refOf(stop),
        };
      }
    }
  },
});
