import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-word',
  title: 'A word is not one of those that the property takes',
  why: 'The words of a property are a closed list, because what is computed and checked depends on them. A word of another list, or a misspelt one, would switch a rule off unseen.',
  bad: ['    pavement:  grooved asphalt', '    pavement:  groved asphalt'],
});
