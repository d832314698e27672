import { evaluateSurvey } from '../../friction/survey.ts';
import type { Job, Survey } from '../../job/job.ts';
import { inFrame, stationsOf } from '../../quantities/frame.ts';
import { readingsOf } from '../../quantities/runways.ts';
import { formatNumber } from '../../units/index.ts';
import { check } from '../check.ts';
import { markOf, refOf, say } from '../help.ts';

/** A stretch that matters, m: a significant portion of a runway is about 100 m. */
const significant = 100;

export default check({
  code: 'friction-not-covered',
  title: 'Friction is low where no deposit is to be removed',
  severity: 'warning',
  why: 'The survey is why the work is done. A stretch of 100 m or more that it shows below the published level and that no deposit covers stays slippery: either the deposit reaches farther, or something else than rubber is wrong there.',
  source: 'icao-friction-levels',
  bad: ['        750   4    5', '        450   8    9'],
  *find(results) {
    for (const survey of results.job.blocks.surveys) {
      if (survey.purpose?.value !== 'need' && survey.purpose?.value !== 'before') continue;
      const { basis, device, speed } = survey;
      if (!basis || !device || !speed || results.job.blocks.deposits.length === 0) continue;
      const judged = evaluateSurvey(readingsOf(survey), basis.value, device.value, speed.value);
      if ('problem' in judged) continue;
      for (const [from, to] of uncovered(judged.findings, covered(results.job, survey))) {
        const low = judged.findings.filter(each => each.from < to && each.to > from);
        const worst = low.reduce((a, b) => (b.mean < a.mean ? b : a));
        yield {
          message: `Between ${say(results, from, 'length')} and ${say(results, to, 'length')} friction is too low (mean ${formatNumber(worst.mean, 2)}, ${worst.rule}; ${markOf(worst.mark)}), but no deposit covers this stretch. Extend the deposit, or say what else is wrong there.`,
          place: survey.readings?.place ?? survey.heading,
          about: refOf(survey),
        };
      }
    }
  },
});

type Stretch = readonly [from: number, to: number];

/** Chainages that deposits cover, in the frame of the survey. */
function covered(job: Job, survey: Survey): readonly Stretch[] {
  const frame = survey.on?.value;
  return job.blocks.deposits.flatMap((deposit): Stretch[] => {
    const own = deposit.on?.value;
    const stations = frame && own && inFrame(job, stationsOf(deposit), own, frame);
    const chainages = stations?.map(station => station.s) ?? [];
    return chainages.length > 1 ? [[Math.min(...chainages), Math.max(...chainages)]] : [];
  });
}

/** What is left of stretches when others are taken away, if it is long enough to matter. */
function uncovered(stretches: readonly { from: number; to: number }[], by: readonly Stretch[]): readonly Stretch[] {
  const merged = merge(stretches.map(({ from, to }): Stretch => [from, to]));
  const left = by.reduce<readonly Stretch[]>(
    (parts, [from, to]) =>
      parts.flatMap(([a, b]): Stretch[] =>
        [[a, Math.min(b, from)] as const, [Math.max(a, to), b] as const].filter(([x, y]) => y > x),
      ),
    merged,
  );
  return merge(left).filter(([from, to]) => to - from >= significant - 1e-6);
}

function merge(stretches: readonly Stretch[]): readonly Stretch[] {
  const out: [number, number][] = [];
  for (const [from, to] of stretches.toSorted((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}
