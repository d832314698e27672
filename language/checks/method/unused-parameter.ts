import { SYNTAX_CODES } from '../../grammar/problems.ts';
import type { Place } from '../../vocabulary/given.ts';
import { check } from '../check.ts';
import { fix, refOf } from '../help.ts';

const syntaxCodes: ReadonlySet<string> = new Set(SYNTAX_CODES);

export default check({
  code: 'unused-parameter',
  title: 'A method never uses one of its parameters',
  severity: 'hint',
  why: 'A work that gives a value for such a parameter changes nothing, but whoever reads the work takes the value for what is done. Often the step that should use it still has a number of its own. A method that is like another one and declares a parameter of the same name anew does not set that of the other one: hand it on in the brackets after `like`.',
  source: 'tool-policy',
  bad: [
    'method BroomAndRinse(soak: time = 40 min) {',
    'method BroomAndRinse(soak: time = 40 min, scrub: time = 5 min) {',
  ],
  *find({ job }) {
    const methods = job.blocks.methods.filter(method => !method.fromLibrary && method.place.file === job.file);
    // Where a name in a method can't be read, that may be the one.
    const isIn = ({ file, start, end }: Place) =>
      methods.some(({ place }) => file === place.file && start >= place.start && end <= place.end);
    if (job.problems.some(({ code, place }) => (code === 'unknown-name' || syntaxCodes.has(code)) && isIn(place)))
      return;
    for (const { name, method, place, cuts } of job.unused.parameters) {
      const about = methods.find(each => each.name === method);
      yield {
        message: `The method ${method} never uses its parameter ${name}: a work that gives it changes nothing. Use it in a step, or remove it.`,
        place,
        ...(about && { about: refOf(about) }),
        unused: true,
        // Calls in other files would be left with an argument that nobody takes.
        fixes: fix(
          `Remove the parameter ${name}`,
          cuts.map(cut => ({ place: cut, text: '' })),
          !job.isLibrary,
        ),
      };
    }
  },
});
