import { problemCheck } from '../help.ts';

export default problemCheck({
  code: 'clause-order',
  title: 'The clauses stand in another order',
  why: 'A waiver is read aloud in one order: on what, while what holds, because of what, by whom, until when. One order keeps every waiver comparable with the next.',
  bad: ['crew Night {', 'waive no-spare-broom by "A. Engineer" because "the depot is next door"\n\ncrew Night {'],
  alongside: ['waiver-without-effect', 'waiver-without-reason'],
});
