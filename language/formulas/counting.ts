/**
 * Counting whole passes, coats and loads from a quotient of measured quantities.
 * A quotient such as 0.6 / 0.2 comes out a hair above 3 in floating point and must not become a fourth load.
 */

/** Rounds up, forgiving a relative excess of 1e-9. Returns NaN for NaN, and Infinity for Infinity. */
export function ceilForgiving(quotient: number): number {
  const nearest = Math.round(quotient);
  return Math.abs(quotient - nearest) <= 1e-9 * Math.max(1, Math.abs(quotient)) ? nearest : Math.ceil(quotient);
}

/** Rounds down, forgiving a relative shortfall of 1e-9. */
export function floorForgiving(quotient: number): number {
  return 0 - ceilForgiving(-quotient);
}
