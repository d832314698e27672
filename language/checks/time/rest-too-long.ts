import { check } from '../check.ts';
import { above, refOf, say } from '../help.ts';

export default check({
  code: 'rest-too-long',
  title: 'Shift and rest do not fit into a day',
  severity: 'warning',
  why: 'A crew that works every night has 24 hours for shift and rest. If the two are longer, the crew can come only every other night, and the plan needs a second one.',
  source: 'mechanics',
  bad: ['    shift:       8 h\n    rest:        11 h', '    shift:       14 h\n    rest:        11 h'],
  *find(results) {
    for (const crew of results.job.blocks.crews) {
      const { shift, rest } = crew;
      if (!shift || !rest || !above(shift.value + rest.value, 86_400)) continue;
      yield {
        message: `A shift of ${say(results, shift.value, 'time', shift)} and a rest of ${say(results, rest.value, 'time', rest)} are more than a day, so ${crew.name} can't work two nights in a row. Shorten the shift, or plan a second crew.`,
        place: shift.place,
        about: refOf(crew),
      };
    }
  },
});
