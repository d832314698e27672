import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'brace-missing',
  title: 'A block has no opening brace',
  why: 'The lines of a block stand between { and }. Without the opening brace they look like lines of the block around it.',
  bad: ['crew Night {', 'crew Night'],
});
