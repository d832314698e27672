import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'stray-bracket',
  title: 'A bracket closes nothing',
  why: 'Every ) belongs to a ( before it. One too many changes how an expression is read, or was left over from a call.',
  bad: ['    length:    2450 m', '    length:    2450 m)'],
});
