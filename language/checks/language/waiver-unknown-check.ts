import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-unknown-check',
  title: 'A waiver names a check that there is not',
  severity: 'error',
  waivable: false,
  why: 'The code of the check stands behind each finding. A misspelt one waives nothing.',
  source: 'tool-policy',
  bad: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-brom on North because "the depot is next door" by "A. Engineer"\n\ncrew Night {',
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
