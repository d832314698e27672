import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'duplicate-property',
  title: 'A property is given twice',
  why: 'Two lines for one property contradict each other sooner or later, and readers see only one of them. Only the first counts.',
  bad: ['    crossfall: 1.5 %', '    crossfall: 1.5 %\n    crossfall: 1.2 %'],
});
