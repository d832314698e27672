/** Noise: how long a level may be borne in a day. Levels in dBA, times in s. Guidance, never a hearing programme. */

/** Whose limit: the two differ in the level allowed for 8 h and in the exchange rate. */
export type NoiseBasis = 'osha' | 'niosh';

const limits = {
  osha: { level: 90, exchange: 5 },
  niosh: { level: 85, exchange: 3 },
} as const satisfies Record<NoiseBasis, { level: number; exchange: number }>;

/** Longest exposure to a level in a day, 8 h/2^((L − L₀)/q), s. Sources: `osha-1910-95` (90, 5), `niosh-noise` (85, 3). */
export function permittedExposure(level: number, basis: NoiseBasis): number {
  const limit = limits[basis];
  return (8 * 3600) / 2 ** ((level - limit.level) / limit.exchange);
}

/** One stay at a level. */
export interface NoiseExposure {
  readonly level: number;
  readonly time: number;
}

/** Noise dose, Σ C/T; 1 is the whole daily allowance. Source: `osha-1910-95`. */
export function noiseDose(exposures: readonly NoiseExposure[], basis: NoiseBasis): number {
  return exposures.reduce((dose, { level, time }) => dose + time / permittedExposure(level, basis), 0);
}
