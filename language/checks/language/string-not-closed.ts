import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'string-not-closed',
  title: 'A text has no closing quote',
  why: 'A text without its closing quote runs to the end of the line and takes in whatever stands there. A text never goes on in the next line.',
  bad: ['    revision:   "C"', '    revision:   "C'],
});
