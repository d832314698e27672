import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'role-limit',
  title: 'A machine does not meet what its role asks for',
  why: 'The method sets limits for its machines, so that its times and rates hold. A machine outside them makes it another method.',
  bad: ['        width:   >= 6 m', '        width:   >= 10 m'],
});
