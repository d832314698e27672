import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'hidden-character',
  title: 'There is a character that can not be seen',
  why: 'Invisible characters come with text copied from web pages and documents. They can make a line read as what it is not, so they are never ignored.',
  bad: ['    length:    2450 m', '    length:    ​2450 m'],
});
