/**
 * Counting whole passes, coats and loads from a quotient of measured quantities.
 * A quotient such as 1.1 / 0.1 comes out a hair above 11 in floating point and must not become a twelfth load.
 */

/** Rounds up, forgiving a relative excess of 1e-9. Returns NaN for NaN, and Infinity for Infinity. */
export function ceilForgiving(quotient: number): number {
  const nearest = Math.round(quotient);
  const whole = Math.abs(quotient - nearest) <= 1e-9 * Math.max(1, Math.abs(quotient)) ? nearest : Math.ceil(quotient);
  // No negative zero: it would show as '-0'.
  return whole + 0;
}

/** Rounds down, forgiving a relative shortfall of 1e-9. */
export function floorForgiving(quotient: number): number {
  return 0 - ceilForgiving(-quotient);
}
