import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'import-cyclic',
  title: 'Two files bring in each other',
  why: 'What both need belongs into a third file. Otherwise neither can be read without the other.',
  bad: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nuse "job.broom"\n\ncrew Day {\n    people: 6\n    shift:  8 h\n}\n',
  good: 'broomline 1\n\nuse "limits.broom"\n\njob Small {\n    title: "Small"\n    date:  2031-03-03\n}\n// file: limits.broom\nbroomline 1\n\nweather-stop {\n    wind:    <= 25 km/h\n    wind-at: "wind sock at the work"\n}\n',
});
