import { problemCheck, removeLine } from '../help.ts';

export default problemCheck({
  code: 'out-of-place',
  title: 'A property does not belong to this kind of step',
  why: 'What a step takes goes by what it does: a soak has no speed, and a sweep no rate. Out of place the line would have no effect.',
  bad: ['        at-most:  4 h', '        at-most:  4 h\n        speed:    6 km/h'],
  fixes: ({ place }, results) => removeLine(results, place),
});
