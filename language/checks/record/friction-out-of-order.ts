import { check } from '../check.ts';
import { above, refOf, say } from '../help.ts';

export default check({
  code: 'friction-out-of-order',
  title: 'The readings of a survey do not follow each other',
  severity: 'error',
  why: 'Each reading lasts to the next chainage. A reading out of order, or one given twice, puts its value onto the wrong stretch.',
  source: 'tool-policy',
  bad: ['        550 0.58', '        450 0.58'],
  *find(results) {
    for (const survey of results.job.blocks.surveys) {
      const rows = survey.readings?.value ?? [];
      for (let i = 1; i < rows.length; i++) {
        const [before, row] = [rows[i - 1]!, rows[i]!];
        if (above(row.chainage, before.chainage)) continue;
        yield {
          message: `The reading at ${say(results, row.chainage, 'length')} does not come after the one at ${say(results, before.chainage, 'length')}. Write the readings in the order of their chainage, each once.`,
          place: row.place,
          related: [{ place: before.place, message: 'The reading before it.' }],
          about: refOf(survey),
        };
      }
    }
  },
});
