import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'chained-comparison',
  title: 'Comparisons are chained',
  why: '`a < b < c` reads as if it were one condition, but comparisons have two sides. Two conditions joined by `and` say what is meant.',
  bad: ['crew Night {', 'require 100 L <= North.product <= 6000 L because "one delivery"\n\ncrew Night {'],
});
