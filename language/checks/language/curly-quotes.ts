import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'curly-quotes',
  title: 'A text stands between typographic quotes',
  severity: 'warning',
  why: 'Word processors turn quotes round. The text is read all the same, but straight quotes keep it the same in every tool.',
  bad: ['    revision:   "C"', '    revision:   “C”'],
});
