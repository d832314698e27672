import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-property',
  title: 'There is no such property',
  why: 'Each kind of block has its own properties. A misspelt one counts as not given, which is easy to overlook.',
  bad: ['    crossfall: 1.5 %', '    crosfall:  1.5 %'],
});
