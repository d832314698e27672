import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'unknown-name',
  title: 'Nothing is called by this name',
  why: 'A name leads to a block of this file or of one that is brought in. If there is none, everything that follows from it is missing.',
  bad: ['    crew:       Night', '    crew:       Nite'],
});
