import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'duplicate-name',
  title: 'Two things have the same name',
  why: 'A name has to say which block is meant. With two of the same name, half of the job would follow the wrong one.',
  bad: ['crew Night {', 'crew Night {\n    people: 4\n    shift:  6 h\n}\n\ncrew Night {'],
});
