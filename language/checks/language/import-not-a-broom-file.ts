import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-not-a-broom-file',
  title: 'A file of another kind is brought in',
  why: 'Only files of this language, ending in .broom, can be brought in. Data of other kinds has to be copied into one.',
  bad: 'broomline 1\n\nuse "limits.txt"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.txt\ncrew Day\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
});
