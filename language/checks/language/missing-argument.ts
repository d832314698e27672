import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'missing-argument',
  title: 'An argument is missing',
  why: 'A parameter without a default has to be given at each call, because the method can not know it. A default in the method would do as well.',
  bad: [
    'BroomAndRinse(soak: time = 40 min)',
    'BroomAndRinse(soak: time)',
    'BroomAndRinse(soak: 40 min)',
    'BroomAndRinse',
  ],
});
