import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'colon-doubled',
  title: 'There are two colons',
  why: 'One colon stands between a property and its value. With two, nobody can tell whether something is missing between them.',
  bad: ['    length:    2450 m', '    length::   2450 m'],
});
