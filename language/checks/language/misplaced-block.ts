import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'misplaced-block',
  title: 'A block stands where it can not',
  why: 'Some blocks stand only inside others: an end in its runway, a step in its method. Elsewhere they belong to nothing.',
  bad: ['crew Night {', 'end "13" {\n}\n\ncrew Night {'],
});
