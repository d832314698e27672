import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-without-name',
  title: 'Nobody answers for a waiver',
  severity: 'error',
  waivable: false,
  why: 'Someone stands behind each waiver by name. Without one it does not count.',
  source: 'tool-policy',
  bad: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door"\n\ncrew Night {',
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
