import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'strange-character',
  title: 'A character means nothing here',
  why: 'The language is written with letters, digits and few signs. Any other one is most likely from another notation.',
  bad: ['    length:    2450 m', '    length:    2450 m;'],
});
