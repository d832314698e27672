import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'out-of-range',
  title: 'A number is out of any reasonable range',
  why: 'The range is what runways, plant and people can be. Outside it a digit or a unit is wrong.',
  bad: ['    length:    2450 m', '    length:    24500 m'],
});
