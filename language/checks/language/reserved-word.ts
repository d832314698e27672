import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'reserved-word',
  title: 'A word with a meaning of its own is used as a name',
  why: '`and`, `or`, `not` and `table` mean something in expressions, so nothing can be called by them. Another word, or a capital letter in front, will do.',
  bad: ['crew Night {', 'crew table {'],
  alongside: ['name-missing', 'unknown-name'],
});
