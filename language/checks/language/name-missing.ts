import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'name-missing',
  title: 'A block has no name',
  why: 'Works, findings and waivers speak of blocks by their names. A block without one can not be used.',
  bad: ['crew Night {', 'crew {'],
  alongside: ['unknown-name'],
});
