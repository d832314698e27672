import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'version-unknown',
  title: 'The version of the language is not known',
  why: 'This release reads one version. A later one may mean something else by the same words, so nothing is taken for granted.',
  bad: ['broomline 1\n', 'broomline 9\n'],
});
