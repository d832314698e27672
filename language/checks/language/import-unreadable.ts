import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-unreadable',
  title: 'A file that is brought in can not be read',
  why: 'The file is there, but it is no text or may not be opened. Names from it are unknown.',
  bad: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom (can\'t be read)\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
});
