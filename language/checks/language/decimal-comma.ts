import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'decimal-comma',
  title: 'A decimal comma is used',
  why: 'A comma parts the items of a list, so 0,5 reads as 0 and 5. Numbers have a decimal point, in every country, so that a job can be passed on.',
  bad: ['    spacing:          0.5 m', '    spacing:          0,5 m'],
});
