import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-without-reason',
  title: 'A waiver gives no reason',
  severity: 'error',
  waivable: false,
  why: 'A check is never silently off. Whoever reads the job has to see why a finding was accepted, otherwise the waiver does not count.',
  source: 'tool-policy',
  bad: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North by "A. Engineer"\n\ncrew Night {',
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
