import { problemCheck, removeLine } from '../help.ts';

export default problemCheck({
  code: 'import-duplicate',
  title: 'A file is brought in twice',
  severity: 'warning',
  why: 'One line is enough. Two prefixes for one file would make two names for one thing.',
  bad: 'broomline 1\n\nuse "limits.broom"\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
  fixes: ({ place }, results) => removeLine(results, place),
});
