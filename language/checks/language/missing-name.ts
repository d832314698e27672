import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-name',
  title: 'A name is missing',
  why: 'What is dropped, waived or brought in has to be named. Until then the line says nothing.',
  bad: ['broom Broom2 like Broom1 {\n}', 'broom Broom2 like Broom1 {\n    without\n}'],
});
