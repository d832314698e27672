import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-missing',
  title: 'A file that is brought in is not there',
  why: 'The path starts from the folder of this file. Without the file every name from it is unknown.',
  bad: 'broomline 1\n\nuse "crew.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  good: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
});
