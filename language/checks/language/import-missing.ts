import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-missing',
  title: 'A file that is brought in is not there',
  why: 'The path starts from the folder of this file. Without the file every name from it is unknown.',
  bad: 'broomline 1\n\nuse "limit.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
});
