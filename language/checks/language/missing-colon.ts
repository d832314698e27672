import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-colon',
  title: 'A colon is missing',
  why: 'A property and its value are parted by a colon. Without it the line could be a property or the beginning of a block.',
  bad: ['    crossfall: 1.5 %', '    crossfall 1.5 %'],
});
