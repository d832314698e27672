import { check } from '../check.ts';
import { refOf, say } from '../help.ts';

/** Widths of the design tables: 18, 23, 30, 45 and 60 m; 60, 75, 100, 150 and 200 ft. */
const widths = [18, 23, 30, 45, 60, ...[60, 75, 100, 150, 200].map(feet => feet * 0.3048)];

export default check({
  code: 'runway-width-unusual',
  title: 'The width of the runway is not one that runways are built to',
  severity: 'hint',
  why: 'Design tables know few widths: 18, 23, 30, 45 and 60 m, or 60, 75, 100, 150 and 200 ft. Another one may be real, but more often it is a slip, or the width with the shoulders.',
  source: 'planning-and-design-of-airports',
  bad: ['    width:     45 m', '    width:     54 m'],
  *find(results) {
    for (const runway of results.job.blocks.runways) {
      const { width } = runway;
      if (!width || widths.some(each => Math.abs(each - width.value) <= 0.5)) continue;
      const nearest = widths.reduce((a, b) => (Math.abs(b - width.value) < Math.abs(a - width.value) ? b : a));
      yield {
        message: `Few runways are ${say(results, width.value, 'length', width)} wide; the nearest width of the design tables is ${say(results, nearest, 'length', width)}. Check that this is the pavement without its shoulders.`,
        place: width.place,
        about: refOf(runway),
      };
    }
  },
});
