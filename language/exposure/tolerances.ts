/**
 * What the tolerances of speeds (`11.3 km/h ± 10 %`) make of the clocks. The crew starts by the clock, at the lags that the
 * nominal speeds need; then a sprayer that is slow and a broom that is fast meet too early, and the other way round.
 *
 * At each point every clock only grows or only shrinks with each speed, so the extremes lie at the corners of the
 * tolerances: all of them are computed, exactly, and nothing is added up that cannot happen together.
 */
import type { Job, Plan, PlannedStep } from '../job/job.ts';
import type { Range } from '../tracks/track.ts';
import type { Exposure } from './exposure.ts';
import { type BayTracks, exposureOf, placeBay } from './fromTracks.ts';

/** Least and greatest value of each extreme over the tolerances, s. */
export interface Spread {
  readonly leastSoak: Range | undefined;
  readonly greatestSoak: Range | undefined;
  readonly wetGap: Range | undefined;
  readonly residence: Range | undefined;
  /** The exposure with the shortest soak, and the one with the longest residence. */
  readonly shortest: Exposure | undefined;
  readonly longest: Exposure | undefined;
}

/** Steps whose speed has a tolerance that the clocks hang on; at most so many are varied. */
const mostVaried = 5;

/** The spread of a bay; undefined where no speed that matters has a tolerance. */
export function spreadOf(job: Job, tracks: BayTracks): Spread | undefined {
  const { plan } = tracks;
  const varied = plan.steps
    .filter(({ step }) => step.speed?.interval && ['apply', 'agitate', 'jet', 'rinse'].includes(step.does?.value ?? ''))
    .slice(0, mostVaried);
  if (varied.length === 0) return undefined;
  const first = tracks.activities.find(each => each.does === 'apply');
  const tool = tracks.activities.find(each => each.does === 'agitate' || each.does === 'jet');
  const lag = first && tool && tool.start - first.start;
  const all: Exposure[] = [exposureOf(tracks).exposure];
  for (let corner = 0; corner < 1 << varied.length; corner++) {
    const speeds = new Map(varied.map((planned, i) => [planned, planned.step.speed!.interval![(corner >> i) & 1]!]));
    const placed = placeBay(job, withSpeeds(plan, speeds), tracks.bay, tracks.slabs, {
      start: tracks.start,
      last: false,
      ...(lag !== undefined && { toolLag: lag }),
    });
    all.push(exposureOf(placed).exposure);
  }
  const extremes = (value: (of: Exposure) => number | undefined): Range | undefined => {
    const values = all.flatMap(each => value(each) ?? []);
    return values.length > 0 ? [Math.min(...values), Math.max(...values)] : undefined;
  };
  const leastSoak = extremes(({ soak }) => soak?.least.seconds);
  const residence = extremes(each => each.residence?.greatest.seconds);
  return {
    leastSoak,
    greatestSoak: extremes(({ soak }) => soak?.greatest.seconds),
    wetGap: extremes(({ wetGap }) => wetGap?.greatest.seconds),
    residence,
    shortest: all.find(({ soak }) => soak && soak.least.seconds === leastSoak?.[0]),
    longest: all.find(each => each.residence && each.residence.greatest.seconds === residence?.[1]),
  };
}

/** A plan with other speeds for some of its steps, m/s. */
export function withSpeeds(plan: Plan, speeds: ReadonlyMap<PlannedStep, number>): Plan {
  const steps = plan.steps.map(planned => {
    const value = speeds.get(planned);
    const { speed } = planned.step;
    return value === undefined || !speed
      ? planned
      : { ...planned, step: { ...planned.step, speed: { ...speed, value } } };
  });
  return { ...plan, steps };
}
