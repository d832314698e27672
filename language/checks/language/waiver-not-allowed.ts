import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-not-allowed',
  title: 'A check that can not be waived is waived',
  severity: 'error',
  waivable: false,
  why: 'Errors of the text and the safety checks can not be signed away: the one makes the job unreadable, the other can kill.',
  source: 'tool-policy',
  bad: [
    '    recall:    3 h\n',
    '',
    'crew Night {',
    'waive recall-missing because "agreed by phone" by "A. Engineer"\n\ncrew Night {',
  ],
  good: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door" by "A. Engineer" until 2031-12-31\n\ncrew Night {',
  ],
  alongside: ['recall-missing'],
  find: () => [],
});
