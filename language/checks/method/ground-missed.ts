import type { GapKind } from '../../exposure/exposure.ts';
import type { BayTracks } from '../../exposure/fromTracks.ts';
import type { PlannedStep } from '../../job/job.ts';
import { check } from '../check.ts';
import { refOf, replaceValue, say, stepRef, stepsOf } from '../help.ts';
import { exposuresOf, trackedWorks } from '../tracked.ts';

type Does = Parameters<typeof stepsOf>[1];

const kinds: Readonly<Record<GapKind, { readonly by: readonly Does[]; readonly words: string }>> = {
  'not swept': { by: ['sweep'], words: 'is not swept' },
  'not wetted': { by: ['pre-wet'], words: 'is not wetted' },
  'not applied': { by: ['apply'], words: 'gets no product' },
  'under rate': { by: ['apply'], words: 'gets less than its rate' },
  'not contacted': { by: ['agitate'], words: 'is touched by no broom' },
  'not jetted': { by: ['jet'], words: 'is reached by no jet' },
  'not rinsed': { by: ['rinse'], words: 'is not rinsed' },
  'not picked up': { by: ['pick-up'], words: 'is not picked up' },
};

export default check({
  code: 'ground-missed',
  title: 'A step leaves part of the deposit out',
  severity: 'error',
  why: 'Lanes that do not overlap leave strips between them, and a step that stops short leaves the edge. What is sprayed but not brushed, or brushed but not rinsed, stays on the runway.',
  source: 'geometry',
  bad: ['        advance: half swept', '        advance: 2.2 m'],
  alongside: ['broom-overlap'],
  *find(results) {
    for (const { plan, bays } of trackedWorks(results)) {
      const areas = new Map<GapKind, { area: number; first: string }>();
      for (const { tracks, exposure } of exposuresOf(results, plan)) {
        for (const { kind, area, where } of exposure.gaps) {
          const [box] = where;
          const range = (of: readonly [number, number]): string =>
            `${say(results, of[0], 'length')} to ${say(results, of[1], 'length')}`;
          const first = box ? `such as bay ${tracks.bay.number}, chainage ${range(box.s)}, offset ${range(box.t)}` : '';
          const known = areas.get(kind);
          areas.set(kind, { area: (known?.area ?? 0) + area, first: known?.first ?? first });
        }
      }
      for (const [kind, { area, first }] of areas) {
        const { by, words } = kinds[kind];
        const planned = stepsOf(plan, ...by)[0];
        if (!planned || area < 1e-6 || !isLaid(bays, planned)) continue;
        const { step } = planned;
        yield {
          message: `${say(results, area, 'area')} of ${plan.work.name} ${words} in ${step.name}, ${first}. Let neighbouring lanes overlap, or add lanes.`,
          place: step.heading,
          about: planned ? stepRef(plan, step) : refOf(plan.work),
          fixes:
            kind === 'not contacted' || kind === 'not rinsed'
              ? replaceValue(results, step.advance, 'half swept', 'Advance by half the swept width')
              : [],
        };
      }
    }
  },
});

/** Whether the lanes of a step could be laid at all: where a width or speed is missing, that is the finding. */
function isLaid(bays: readonly BayTracks[], planned: PlannedStep): boolean {
  const of = bays.flatMap(bay => bay.activities.filter(each => each.planned === planned));
  return of.every(each => each.problem === undefined && each.machines.some(({ run }) => run.passes.length > 0));
}
