import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'role-kind',
  title: 'A machine of the wrong kind takes a role',
  why: 'A role asks for a kind of machine, because its step can only be done by that kind. Most often two names were exchanged.',
  bad: ['    sweeper:    Sweeper1', '    sweeper:    Tanker'],
});
