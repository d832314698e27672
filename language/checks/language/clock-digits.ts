import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'clock-digits',
  title: 'The hour has one digit',
  why: 'A time of day has two digits for the hour, so that 7:00 can not be taken for a ratio. The same goes for a day that begins at 0:30.',
  bad: ['23:00 to 05:00, Mon to Thu', '23:00 to 5:00, Mon to Thu'],
  alongside: ['wrong-value'],
});
