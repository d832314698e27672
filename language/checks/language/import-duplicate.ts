import { problemCheck, removeLine } from '../help.ts';

export default problemCheck({
  code: 'import-duplicate',
  title: 'A file is brought in twice',
  severity: 'warning',
  why: 'One line is enough. Two prefixes for one file would make two names for one thing.',
  bad: 'broomline 1\n\nuse "crews.broom"\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  good: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  fixes: ({ place }, results) => removeLine(results, place),
});
