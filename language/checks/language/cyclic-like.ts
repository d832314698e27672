import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'cyclic-like',
  title: 'Blocks are like each other',
  why: 'A block that is like another takes over its lines. If the other is like the first, there is no beginning.',
  bad: ['broom Broom1 {', 'broom Broom1 like Broom2 {'],
});
