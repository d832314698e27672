import { check } from '../check.ts';
import { refOf, replaceValue } from '../help.ts';

export default check({
  code: 'grooves-contradict-pavement',
  title: 'Grooves are given for a pavement that has none',
  severity: 'error',
  why: 'The surface decides which methods it can bear, and grooves hold water and rubber that a flat surface does not. Either the pavement is grooved, or the dimensions of the grooves belong to another runway.',
  source: 'tool-policy',
  bad: ['    pavement:  grooved asphalt', '    pavement:  asphalt\n    groove-depth: 6 mm'],
  good: ['    pavement:  grooved asphalt', '    pavement:  grooved asphalt\n    groove-depth: 6 mm'],
  *find(results) {
    for (const runway of results.job.blocks.runways) {
      const grooves = runway.grooveDepth ?? runway.grooveSpacing;
      const surface = runway.pavement?.value;
      if (!grooves || surface === undefined || surface.startsWith('grooved')) continue;
      const grooved = surface === 'asphalt' || surface === 'concrete' ? `grooved ${surface}` : undefined;
      yield {
        message: `The pavement is ${surface}, but its grooves are described. Write ${grooved ?? 'a grooved surface'}, or take the grooves out.`,
        place: grooves.place,
        about: refOf(runway),
        fixes: grooved === undefined ? [] : replaceValue(results, runway.pavement, grooved, `Write \`${grooved}\``),
      };
    }
  },
});
