import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unreadable-text',
  title: 'A line can not be read',
  why: 'The line is neither a property nor a block nor a statement. All other lines keep their findings.',
  bad: ['    period: 365 d', '    period: 365 d\n    "one year"'],
});
