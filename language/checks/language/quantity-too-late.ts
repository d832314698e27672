import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'quantity-too-late',
  title: 'A value uses a quantity that is only computed after it',
  why: 'Inputs may use quantities of earlier stages, such as areas; those that depend on the inputs would go round in a circle. A requirement may use any.',
  bad: ['    width:            8 m', '    width:            North.Spray.flow / 40 L/min * 1 m'],
});
