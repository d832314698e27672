import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'duplicate-argument',
  title: 'An argument is given twice',
  why: 'One parameter takes one value. With two nobody can tell which one holds.',
  bad: ['BroomAndRinse(soak: 40 min)', 'BroomAndRinse(soak: 40 min, soak: 50 min)'],
});
