import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'version-missing',
  title: 'The file does not say which version of the language it is written in',
  severity: 'warning',
  why: 'The language will grow. A file that names its version reads the same for ever, and a newer tool can tell what to change.',
  bad: ['broomline 1\n\n', ''],
});
