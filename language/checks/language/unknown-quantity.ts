import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-quantity',
  title: 'There is no such quantity',
  why: 'Requirements may use every computed quantity by its path. A misspelt one can not be judged.',
  bad: ['crew Night {', 'require North.prodct <= 6000 L because "one delivery"\n\ncrew Night {'],
});
