import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'not-a-header',
  title: 'The head of a block can not be read',
  why: 'A block begins with its kind, mostly a name, and {. Anything else in its head has no meaning.',
  bad: ['crew Night {', 'crew Night shift {'],
});
