import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-not-a-broom-file',
  title: 'A file of another kind is brought in',
  why: 'Only files of this language, ending in .broom, can be brought in. Data of other kinds has to be copied into one.',
  bad: 'broomline 1\n\nuse "crews.txt"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.txt\ncrew Day\n',
  good: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
});
