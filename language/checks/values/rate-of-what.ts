import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'rate-of-what',
  title: 'A rate does not say of what',
  why: '0.35 L/m² of mix and 0.35 L/m² of product differ by the dilution, often fivefold. The rate says which.',
  bad: ['        rate:  0.35 L/m2 of mix', '        rate:  0.35 L/m2'],
});
