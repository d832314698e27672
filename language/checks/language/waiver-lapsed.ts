import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-lapsed',
  title: 'A waiver no longer counts',
  severity: 'error',
  waivable: false,
  why: 'A waiver ends on its date, or when its condition does not hold any more, so that it is decided again when things get worse. It is judged on the date of the job, or on the one asked for, so that a build does not change overnight.',
  source: 'tool-policy',
  bad: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door" by "A. Engineer" until 2031-01-31\n\ncrew Night {',
  ],
  good: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door" by "A. Engineer" until 2031-12-31\n\ncrew Night {',
  ],
  alongside: ['no-spare-broom'],
  find: () => [],
});
