/**
 * How far two activities must be apart, start to start, so that every point of the pavement keeps its limits.
 *
 * When an activity starts later by Δ, each of its passes comes later by Δ at every point. So with both activities put at
 * the same start the exposure gives the least soak and the greatest residence of any point, exactly; what is lacking to
 * the limit is the lag. Nothing is sampled.
 */
import type { Does, Track } from '../tracks/track.ts';
import type { Slab } from './deposit.ts';
import { type ExposureInput, exposure } from './exposure.ts';

/** What the points of an area have to keep. Seconds; rate in mm. */
export interface Limits {
  /** Shortest soak of any point. */
  readonly soak?: number;
  /** Longest time from the first product to the last rinse at any point. */
  readonly residence?: number;
  readonly rate?: number;
  readonly dwellFrom?: ExposureInput['dwellFrom'];
}

/**
 * Least lag from the start of what applies to the start of the first tool, s, that gives every point its soak.
 *
 * @param area the ground that counts
 * @param applies tracks in time; their clock is that of the first activity
 * @param tools tracks in time; their clock is that of the second activity
 * @returns undefined where no point gets both, or no soak is asked for. Negative lags are possible: the tool may be
 *   slow to arrive.
 */
export function leastLag(
  area: readonly Slab[],
  applies: readonly Track[],
  tools: readonly Track[],
  limits: Limits,
): number | undefined {
  if (limits.soak === undefined) return undefined;
  const { soak } = exposure({
    area,
    tracks: [...only(applies, 'apply'), ...only(tools, 'contact', 'jet')],
    ...(limits.rate !== undefined && { rate: limits.rate }),
    ...(limits.dwellFrom && { dwellFrom: limits.dwellFrom }),
  });
  return soak ? limits.soak - soak.least.seconds : undefined;
}

/**
 * Greatest lag from the start of what applies to the start of the last rinse, s, that keeps the residence at every point.
 * Parameters and result as for {@link leastLag}.
 */
export function greatestLag(
  area: readonly Slab[],
  applies: readonly Track[],
  rinses: readonly Track[],
  limits: Limits,
): number | undefined {
  if (limits.residence === undefined) return undefined;
  const { residence } = exposure({ area, tracks: [...only(applies, 'apply'), ...only(rinses, 'rinse')] });
  return residence ? limits.residence - residence.greatest.seconds : undefined;
}

function only(tracks: readonly Track[], ...does: readonly Does[]): readonly Track[] {
  return tracks.filter(track => does.includes(track.does));
}
