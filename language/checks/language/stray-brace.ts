import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'stray-brace',
  title: 'A brace closes nothing',
  why: 'Every } closes a block. One too many most often means that a block above was closed too early, and its last lines stand outside.',
  bad: ['crew Night {', '}\n\ncrew Night {'],
});
