import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'too-many-problems',
  title: 'There are more problems than are shown',
  why: 'After the first two hundred places that can not be read, the rest would help nobody; most are consequences of the first. Mend the first ones, and look again.',
  bad: `broomline 1\n\njob Many {\n    title: "Many slips"\n    date:  2031-03-03\n}\n\ncrew Night {\n    people: 4\n    shift:  6 h\n${'    ;\n'.repeat(260)}}\n`,
  good: 'broomline 1\n\njob Few {\n    title: "Few slips"\n    date:  2031-03-03\n}\n',
  alongside: ['strange-character'],
});
