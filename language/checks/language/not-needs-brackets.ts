import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'not-needs-brackets',
  title: '`not` needs brackets',
  why: '`not a < b` could mean that the comparison does not hold, or compare something that is not so. Brackets say which.',
  bad: ['crew Night {', 'require not North.product >= 6000 L\n\ncrew Night {'],
});
