import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-condition',
  title: 'A requirement has no condition',
  why: '`require` says what has to hold, as a comparison. Without it there is nothing to judge.',
  bad: ['crew Night {', 'require because "one delivery"\n\ncrew Night {'],
});
