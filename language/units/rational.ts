/**
 * Exact fractions of whole numbers.
 *
 * Unit factors are exact by definition (1 ft is 0.3048 m), so a literal is converted exactly and rounded to a double
 * once, at the very end. That is what lets `95 °F` and `35 °C` be the same temperature.
 */

/** A fraction in lowest terms; the denominator is positive. */
export interface Rational {
  readonly n: bigint;
  readonly d: bigint;
}

export const ZERO: Rational = { n: 0n, d: 1n };
export const ONE: Rational = { n: 1n, d: 1n };

/** The fraction n/d in lowest terms. A zero denominator is a programming error and gives 0/1's neighbour: undefined. */
export function rational(n: bigint | number, d: bigint | number = 1n): Rational {
  const top = BigInt(n);
  const bottom = BigInt(d);
  const divisor = gcd(top, bottom);
  const sign = bottom < 0n ? -1n : 1n;
  return { n: (sign * top) / divisor, d: (sign * bottom) / divisor };
}

export function add(a: Rational, b: Rational): Rational {
  return rational(a.n * b.d + b.n * a.d, a.d * b.d);
}

export function sub(a: Rational, b: Rational): Rational {
  return rational(a.n * b.d - b.n * a.d, a.d * b.d);
}

export function mul(a: Rational, b: Rational): Rational {
  return rational(a.n * b.n, a.d * b.d);
}

/** a / b; b must not be zero. */
export function div(a: Rational, b: Rational): Rational {
  return rational(a.n * b.d, a.d * b.n);
}

/** a to a whole power; a must not be zero when the power is negative. */
export function pow(a: Rational, exponent: number): Rational {
  const e = BigInt(Math.abs(exponent));
  return exponent < 0 ? rational(a.d ** e, a.n ** e) : { n: a.n ** e, d: a.d ** e };
}

/** Negative, zero or positive as a is less than, equal to or greater than b. */
export function compare(a: Rational, b: Rational): number {
  const left = a.n * b.d;
  const right = b.n * a.d;
  return left < right ? -1 : left > right ? 1 : 0;
}

function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}
