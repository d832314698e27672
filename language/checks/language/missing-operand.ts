import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-operand',
  title: 'An operator has nothing to work on',
  why: 'An operator stands between two values. One of them is missing, so the value of the whole can not be known.',
  bad: ['    width:            8 m', '    width:            4 m *'],
});
