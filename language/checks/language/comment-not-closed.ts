import { addAtLineEnd, problemCheck } from '../help.ts';

export default problemCheck({
  code: 'comment-not-closed',
  title: 'A comment has no end',
  why: 'Everything after /* is a comment until */ comes. Without it the rest of the job is not read, and none of it is checked.',
  bad: ['        reopening: yes\n    }\n}\n', '        reopening: yes\n    }\n}\n/* agreed on site\n'],
  fixes: ({ place }, results) => addAtLineEnd(results, place, ' */'),
});
