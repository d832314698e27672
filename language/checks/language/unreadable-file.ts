import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unreadable-file',
  title: 'The file can not be read',
  why: 'The file is not there any more, is no text, or may not be opened. Nothing in it was checked.',
  bad: "// file: job.broom (can't be read)\n",
  good: 'broomline 1\n\ncrew Night {\n    people: 4\n    shift:  6 h\n}\n',
});
