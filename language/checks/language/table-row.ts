import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'table-row',
  title: 'A row of a table can not be read',
  why: 'A row has one value for each column, parted by blanks. A row with too few or too many would shift its values into other columns.',
  bad: ['        300   6    6', '        300  11 and 11'],
});
