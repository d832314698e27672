import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-argument',
  title: 'The method has no such parameter',
  why: 'An argument goes to the parameter of its name. A misspelt one would leave the default in force unnoticed.',
  bad: ['BroomAndRinse(soak: 40 min)', 'BroomAndRinse(soek: 40 min)'],
});
