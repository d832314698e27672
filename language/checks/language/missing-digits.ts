import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-digits',
  title: 'Digits are missing after the decimal point',
  why: 'A number that ends with its point was most likely cut off while typing. Whether it is 365 or 365.5 makes a difference.',
  bad: ['    period: 365 d', '    period: 365. d'],
});
