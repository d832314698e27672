import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'operator-at-line-start',
  title: 'A line begins with an operator',
  why: 'A line ends a statement unless it ends with a comma or an operator. A line that begins with an operator belongs to nothing.',
  bad: ['    length:    2450 m', '    length:    2400 m\n        + 50 m'],
});
