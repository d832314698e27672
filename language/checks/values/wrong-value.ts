import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'wrong-value',
  title: 'A value is written in another way than its property takes',
  why: 'Each property takes values of one form: a number, a word of a list, a name, a date, a text.',
  bad: ['    people:      10', '    people:      "ten"'],
});
