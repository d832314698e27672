import { check } from '../check.ts';

/** Reported where checks are run, in language/checks/run.ts; its test breaks a check on purpose. */
export default check({
  code: 'check-failed',
  title: 'A check could not be carried out',
  severity: 'error',
  waivable: false,
  why: 'A check has an error of its own and stopped on this job. Nothing is known of what it looks for; all other checks were carried out. Please report it with the text that made it stop.',
  source: 'tool-policy',
  bad: '',
  find: () => [],
});
