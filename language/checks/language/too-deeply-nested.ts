import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'too-deeply-nested',
  title: 'Something is nested too deeply',
  why: 'Blocks in blocks in blocks, or brackets in brackets, beyond any use. Whoever generates such text has made an error.',
  bad: ['    width:            8 m', `    width:            ${'('.repeat(120)}8 m${')'.repeat(120)}`],
});
