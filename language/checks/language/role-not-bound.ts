import { bindRole, problemCheck } from '../help.ts';

export default problemCheck({
  code: 'role-not-bound',
  title: 'A role of the method has no machine',
  why: 'The method says which machines it needs, and the work says which take these roles. A step without a machine is not done.',
  bad: ['    water:      Tanker\n', ''],
  alongside: ['unused-block'],
  fixes: bindRole,
});
