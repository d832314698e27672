import { contactPatternFit, contactPatterns } from '../../formulas/brooms.ts';
import { check } from '../check.ts';
import { refOf, say, setNumber } from '../help.ts';

export default check({
  code: 'bristle-pattern',
  title: 'The contact pattern of the broom is out of range',
  severity: 'warning',
  why: 'Only the tips of the bristles work. A strip of 2 to 4 in, measured with the broom running on the spot, is right for a main broom. Pressed harder the sides do the work, and the life of the broom falls by up to 95 %; lighter, the tips miss.',
  source: 'broom-pattern-guide',
  bad: ['    pattern:       75 mm', '    pattern:       180 mm'],
  *find(results) {
    const { from, to } = contactPatterns['main broom'];
    for (const broom of results.job.blocks.brooms) {
      const { pattern } = broom;
      const fit = pattern && contactPatternFit(pattern.value, 'main broom');
      if (!fit || fit === 'right') continue;
      const [least, most] = [from, to].map(limit => say(results, limit, 'length', pattern));
      yield {
        message: `A contact pattern of ${say(results, pattern.value, 'length', pattern)} is ${fit}: ${least} to ${most} is right for a main broom. ${fit === 'too heavy' ? 'Raise' : 'Lower'} the broom until only the tips touch, and measure the strip again.`,
        place: pattern.place,
        about: refOf(broom),
        fixes: setNumber(
          results,
          pattern,
          fit === 'too heavy' ? to : from,
          'length',
          fit === 'too heavy' ? 'down' : 'up',
          'the pattern',
        ),
      };
    }
  },
});
