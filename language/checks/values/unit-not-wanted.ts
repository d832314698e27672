import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unit-not-wanted',
  title: 'A plain number has a unit',
  why: 'A count or a coefficient has no unit. Either the unit is too much, or the number belongs to another property.',
  bad: ['    nozzles:          16', '    nozzles:          16 m'],
});
