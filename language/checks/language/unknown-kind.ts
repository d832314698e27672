import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-kind',
  title: 'There is no such kind of block',
  why: 'What a block may hold goes by its kind. A block of an unknown kind is left out, with everything in it.',
  bad: ['warranty {', 'warantee {'],
  alongside: ['condition-survey-missing'],
});
