import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-value',
  title: 'A value is missing',
  why: 'A property was begun and not finished. It counts as not given, and what is computed from it is missing too.',
  bad: ['    radio:       "escort on the ground channel"', '    radio:'],
});
