import { problemCheck, removeLine } from '../help.ts';

export default problemCheck({
  code: 'import-self',
  title: 'A file brings in itself',
  why: 'Everything in a file can be used in it without that line. The line has no effect and can go.',
  bad: 'broomline 1\n\nuse "job.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n',
  good: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  fixes: ({ place }, results) => removeLine(results, place),
});
