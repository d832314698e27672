import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'digits-apart',
  title: 'The digits of a number stand apart',
  why: 'Blanks and commas part values, so 2 450 reads as two numbers. Results are shown with groups of three; in the text a number is written in one piece.',
  bad: ['    length:    2450 m', '    length:    2 450 m'],
});
