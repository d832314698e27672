import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'table-header',
  title: 'The head of a table can not be read',
  why: 'The head names the columns, parted by commas, each with the unit of its numbers. All rows are read by it.',
  bad: ['table chainage m, left m, right m', 'table chainage m left m right m'],
});
