import { SYNTAX_CODES } from '../../grammar/problems.ts';
import { check } from '../check.ts';
import { removeLines } from '../help.ts';

const syntaxCodes: ReadonlySet<string> = new Set(SYNTAX_CODES);

export default check({
  code: 'unused-import',
  title: 'A file is brought in, and nothing of it is used',
  severity: 'hint',
  why: 'Readers look for what such a file adds to the job, and it adds nothing: no name of it is used, and nothing in it holds by standing there, as weather limits and closures do. With a prefix only names count.',
  source: 'tool-policy',
  bad: 'broomline 1\n\nuse "crews.broom" as Crews\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  good: 'broomline 1\n\nuse "crews.broom" as Crews\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n\ncrew Late like Crews.Day {\n    people: 4\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  *find(results) {
    const { job, doubt } = results;
    // What can't be read may be what names it.
    if (doubt || job.problems.some(problem => syntaxCodes.has(problem.code))) return;
    for (const { place, path } of job.unused.uses) {
      yield {
        message: `Nothing of ${path} is used here. Take the line out, or name what it is for.`,
        place,
        unused: true,
        fixes: removeLines(results, place, 'Remove the line'),
      };
    }
  },
});
