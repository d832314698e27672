import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'bracket-not-closed',
  title: 'A bracket is not closed',
  why: 'Arguments and groups stand between ( and ). Until the bracket is closed, what follows on the line may belong to it or not.',
  bad: ['BroomAndRinse(soak: 40 min)', 'BroomAndRinse(soak: 40 min'],
});
