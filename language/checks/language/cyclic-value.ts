import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'cyclic-value',
  title: 'A value depends on itself',
  why: 'A value may be computed from others, but not from itself, straight or by way of others. Break the circle by giving one of them a value of its own.',
  bad: ['    width:         2.4 m', '    width:         Broom1.width + 0.2 m'],
});
