import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'wrong-kind',
  title: 'A name leads to a block of the wrong kind',
  why: 'The property wants one kind of block and the name is that of another. Most often the names of two blocks are alike.',
  bad: ['    airport:    TernSands', '    airport:    Main'],
});
