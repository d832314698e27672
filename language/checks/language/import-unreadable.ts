import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-unreadable',
  title: 'A file that is brought in can not be read',
  why: 'The file is there, but it is no text or may not be opened. Names from it are unknown.',
  bad: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom (can\'t be read)\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
  good: 'broomline 1\n\nuse "crews.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: crews.broom\nbroomline 1\n\ncrew Day {\n    people: 6\n    shift:  8 h\n    break-after: 4 h\n    break-of: 30 min\n}\n',
});
