import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'misplaced-statement',
  title: 'A statement stands where it can not',
  why: '`use` and `waive` stand at the top of a file, `without` in a block that is like another. Elsewhere they would change nothing.',
  bad: ['crew Night {', 'without Night\n\ncrew Night {'],
});
