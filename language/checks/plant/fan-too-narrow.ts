import { fanWidth } from '../../formulas/application.ts';
import { radians } from '../../units/index.ts';
import { check } from '../check.ts';
import { below, refOf, say } from '../help.ts';

export default check({
  code: 'fan-too-narrow',
  title: 'The fans of neighbouring nozzles do not meet on the pavement',
  severity: 'error',
  why: 'A fan of a given angle is as wide as twice the height times the tangent of half the angle. If that is less than the spacing, dry stripes stay between the nozzles; guides ask for twice the spacing, so that every point is under two fans.',
  source: 'boom-spacing-guide',
  bad: [
    '    spacing:          0.5 m',
    '    spacing:          0.5 m\n    fan:              80 °\n    height:           0.25 m',
  ],
  good: [
    '    spacing:          0.5 m',
    '    spacing:          0.5 m\n    fan:              110 °\n    height:           0.5 m',
  ],
  *find(results) {
    for (const sprayer of results.job.blocks.sprayers) {
      const { fan, height, spacing } = sprayer;
      if (!fan || !height || !spacing) continue;
      const width = fanWidth(height.value, radians(fan.value));
      if (!below(width, spacing.value)) continue;
      const height2 = (height.value * 2 * spacing.value) / width;
      yield {
        message: `A fan is ${say(results, width, 'length', spacing)} wide on the pavement, but the nozzles are ${say(results, spacing.value, 'length', spacing)} apart, so dry stripes stay. Raise the boom to ${say(results, height2, 'length', height)} for double coverage, or use a wider fan.`,
        place: height.place,
        about: refOf(sprayer),
      };
    }
  },
});
