import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'stray-comma',
  title: 'A comma has nothing after it',
  severity: 'warning',
  why: 'A comma parts the items of a list. At the end of a line it would draw the next line into the list.',
  bad: ['    width:     45 m\n', '    width:     45 m,\n'],
});
