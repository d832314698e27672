import { check } from '../check.ts';

/** Found where waivers are applied, in language/checks/waivers.ts. */
export default check({
  code: 'waiver-without-effect',
  title: 'A waiver matches no finding',
  severity: 'warning',
  waivable: false,
  why: 'Either what it covered was mended, and it can go, or it names the wrong check or block. Left standing, it would hide the next finding unseen.',
  source: 'tool-policy',
  bad: [
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door" by "A. Engineer"\n\ncrew Night {',
  ],
  good: [
    '    spares:    broom, nozzles',
    '    spares:    nozzles',
    'crew Night {',
    'waive no-spare-broom on North because "the depot is next door" by "A. Engineer" until 2031-12-31\n\ncrew Night {',
  ],
  find: () => [],
});
