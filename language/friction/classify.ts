/** Where a friction value lies against the published levels for its device and speed. */
import { type FrictionBasis, type FrictionDevice, type FrictionLevels, findFrictionLevels } from './levels.ts';

/** The grades, best first. The words say where the value lies, not what to do: that depends on the length it covers. */
export type FrictionGrade = 'at or above design' | 'at or above maintenance' | 'below maintenance' | 'below minimum';

/** A graded value and the row it was judged by, with that row's source and mark. */
export interface GradedFriction {
  readonly grade: FrictionGrade;
  readonly levels: FrictionLevels;
}

/**
 * Grades a value by the row for its device and speed.
 * @param speed test speed, m/s
 * @param value friction coefficient
 * @returns `undefined` where the basis has no row for the device at that speed: no published level, which is not a pass
 */
export function classify(
  basis: FrictionBasis,
  device: FrictionDevice,
  speed: number,
  value: number,
): GradedFriction | undefined {
  const levels = findFrictionLevels(basis, device, speed);
  return levels && Number.isFinite(value) ? { grade: grade(levels, value), levels } : undefined;
}

/** The grade of a value by a row. Levels are 'below' levels: a value equal to one passes it, with no tolerance. */
export function grade(
  levels: Pick<FrictionLevels, 'minimum' | 'maintenance' | 'design'>,
  value: number,
): FrictionGrade {
  if (isBelow(value, levels.minimum)) return 'below minimum';
  if (isBelow(value, levels.maintenance)) return 'below maintenance';
  return isBelow(value, levels.design) ? 'at or above maintenance' : 'at or above design';
}

/**
 * Whether a value is below a level. The published limits have no tolerance; 1e-9 only keeps the rounding of an average
 * (five bins of 0.50 and five of 0.60 are exactly 0.55) from failing a surface that is equal to its limit.
 */
export function isBelow(value: number, level: number): boolean {
  return value < level - 1e-9;
}
