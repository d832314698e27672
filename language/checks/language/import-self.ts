import { problemCheck, removeLine } from '../help.ts';

export default problemCheck({
  code: 'import-self',
  title: 'A file brings in itself',
  why: 'Everything in a file can be used in it without that line. The line has no effect and can go.',
  bad: 'broomline 1\n\nuse "job.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
  fixes: ({ place }, results) => removeLine(results, place),
});
