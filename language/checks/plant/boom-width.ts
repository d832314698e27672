import { boomWidth } from '../../formulas/application.ts';
import { check } from '../check.ts';
import { percent, refOf, say, sayBoth, see, setNumber } from '../help.ts';

export default check({
  code: 'boom-width',
  title: 'The width of the boom is not its nozzles times their spacing',
  severity: 'warning',
  why: 'The width that counts is nozzles times spacing, half a spacing beyond the last nozzle on each side. A published manual shows that a spacing of 0.508 m entered as 0.500 m already shifts the rate by 1.6 %.',
  source: 'grdc-spray-manual',
  bad: ['    width:            8 m', '    width:            9 m'],
  *find(results) {
    for (const sprayer of results.job.blocks.sprayers) {
      const { width, nozzles, spacing } = sprayer;
      if (!width || !nozzles || !spacing) continue;
      const built = boomWidth(nozzles.value, spacing.value);
      const off = Math.abs(built / width.value - 1);
      if (off <= 0.01) continue;
      const [given, computed] = sayBoth(results, width.value, built, 'length', width);
      yield {
        message: `The boom is said to be ${given} wide, but ${nozzles.value} nozzles at ${say(results, spacing.value, 'length', spacing)} cover ${computed}, and the rate is off by ${percent(off)}. Correct whichever was not measured.`,
        place: width.place,
        related: see(nozzles, 'The number of nozzles.'),
        about: refOf(sprayer),
        fixes: setNumber(results, width, built, 'length', 'down', 'the width'),
      };
    }
  },
});
