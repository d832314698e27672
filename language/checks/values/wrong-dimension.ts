import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'wrong-dimension',
  title: 'A value has the wrong dimension',
  why: 'A volume can not stand where a length belongs. Dimensions are checked everywhere, also inside expressions.',
  bad: ['    length:    2450 m', '    length:    2450 L'],
});
