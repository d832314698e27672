import { isBelow } from '../../friction/classify.ts';
import { findFrictionLevels } from '../../friction/levels.ts';
import { check } from '../check.ts';
import { frictionBasis, markOf, refOf, setNumber } from '../help.ts';

export default check({
  code: 'acceptance-below-level',
  title: 'The friction asked for is below the published maintenance level',
  severity: 'error',
  why: 'Below the maintenance planning level work is due, below the minimum the runway has to be reported as slippery when wet. A removal that may end there has to be done again at once. The levels hold for the device and the speed; each carries how well it was verified.',
  source: 'icao-friction-levels',
  bad: ['    friction: 0.60', '    friction: 0.45'],
  *find(results) {
    const basis = frictionBasis(results.job);
    for (const block of results.job.blocks.acceptances) {
      const { device, speed, friction } = block;
      const levels = device && speed && basis && findFrictionLevels(basis, device.value, speed.value);
      if (!friction || !levels || !isBelow(friction.value, levels.maintenance)) continue;
      const minimum = isBelow(friction.value, levels.minimum);
      const [name, level] = minimum ? ['minimum', levels.minimum] : ['maintenance planning', levels.maintenance];
      yield {
        message: `A friction of ${friction.text} is below the ${name} level of ${level} for ${device.value} at ${levels.printedSpeed} (${basis}, ${markOf(levels.mark)}). Ask for at least ${levels.maintenance}.`,
        place: friction.place,
        about: refOf(block),
        fixes: setNumber(results, friction, levels.maintenance, 'number', 'up', 'the friction'),
      };
    }
  },
});
