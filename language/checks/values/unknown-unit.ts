import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-unit',
  title: 'There is no such unit',
  why: 'A number with a unit that is not known has no value. Units are written as engineers write them, and many spellings are read.',
  bad: ['    length:    2450 m', '    length:    2450 metr'],
});
