import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'minus-needs-blanks',
  title: 'A minus has no blanks round it',
  why: 'Names may hold hyphens, so a minus between two values has a blank on either side; a sign belongs to the number after it. Without the blanks the sign may join two words into one name.',
  bad: ['crew Night {', 'require North.product -100 L <= 6000 L\n\ncrew Night {'],
});
