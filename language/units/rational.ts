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

/** The fraction n/d in lowest terms; d must not be zero. */
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

/** Longest literal read digit by digit; nobody writes one, and a megabyte of digits must not stall the editor. */
const MOST_CHARACTERS = 400;
const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,4}))?$/;

/**
 * The exact value of a decimal literal: `0.35`, `-5`, `.5`, `1e3`.
 * Undefined when it is none, or when it is longer than 400 characters or its exponent than 999.
 */
export function parseDecimal(literal: string): Rational | undefined {
  if (literal.length > MOST_CHARACTERS) return undefined;
  const match = DECIMAL.exec(literal);
  if (!match) return undefined;
  const [, sign, whole = '', decimals = '', exponent = '0'] = match;
  if (whole === '' && decimals === '') return undefined;
  const scale = Number(exponent) - decimals.length;
  if (Math.abs(Number(exponent)) > 999) return undefined;
  const digits = BigInt(`${whole}${decimals}`) * (sign === '-' ? -1n : 1n);
  return scale >= 0 ? { n: digits * 10n ** BigInt(scale), d: 1n } : rational(digits, 10n ** BigInt(-scale));
}

/** The exact value of a double; undefined for NaN and the infinities. */
export function fromNumber(x: number): Rational | undefined {
  if (!Number.isFinite(x)) return undefined;
  if (Number.isInteger(x)) return { n: BigInt(x), d: 1n };
  // A double is a 53-bit whole number times a power of two: read both out of its 64 bits.
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  const bits = view.getBigUint64(0);
  const field = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & 0xfffffffffffffn;
  const mantissa = (field === 0 ? fraction : fraction | 0x10000000000000n) * (x < 0 ? -1n : 1n);
  const exponent = BigInt((field === 0 ? 1 : field) - 1075);
  return exponent >= 0n ? { n: mantissa << exponent, d: 1n } : rational(mantissa, 1n << -exponent);
}

/** The double nearest to a fraction, ties to even; ±Infinity beyond the doubles. */
export function toNumber({ n, d }: Rational): number {
  if (n < 0n) return -toNumber({ n: -n, d });
  if (n === 0n) return 0;
  if (d === 1n) return Number(n);
  const magnitude = bitLength(n) - bitLength(d);
  if (magnitude <= -1022) return roundSubnormal(n, d);
  // A quotient of 59 bits or more, its last bit set when anything was left over, rounds as the exact value does.
  const shift = 60 - magnitude;
  const [top, bottom] = shift >= 0 ? [n << BigInt(shift), d] : [n, d << BigInt(-shift)];
  const quotient = top / bottom;
  const sticky = top % bottom === 0n ? quotient : quotient | 1n;
  const scaled = Number(sticky);
  const half = Math.trunc(-shift / 2);
  return scaled * 2 ** half * 2 ** (-shift - half);
}

/**
 * As a decimal without exponent, rounded half up to `digits` significant digits, trailing zeros left out.
 * Used to write literals, so the whole part is never shortened to an exponent.
 */
export function toDecimal({ n, d }: Rational, digits: number): string {
  if (n < 0n) return `-${toDecimal({ n: -n, d }, digits)}`;
  if (n === 0n) return '0';
  const decimals = Math.max(0, digits - leadingPlace({ n, d }));
  const scale = 10n ** BigInt(decimals);
  const rounded = (2n * n * scale + d) / (2n * d);
  const text = rounded.toString().padStart(decimals + 1, '0');
  const cut = text.length - decimals;
  const fraction = text.slice(cut).replace(/0+$/, '');
  return fraction === '' ? text.slice(0, cut) : `${text.slice(0, cut)}.${fraction}`;
}

/** Digits before the decimal point; zero or less for 0.1, 0.01 … */
function leadingPlace({ n, d }: Rational): number {
  let place = n.toString().length - d.toString().length;
  if (place >= 0 ? n >= d * 10n ** BigInt(place) : n * 10n ** BigInt(-place) >= d) place += 1;
  return place;
}

/** Near 2^-1022 the doubles thin out to whole multiples of 2^-1074. */
function roundSubnormal(n: bigint, d: bigint): number {
  const top = n << 1074n;
  let units = top / d;
  const rest = 2n * (top % d);
  if (rest > d || (rest === d && (units & 1n) === 1n)) units += 1n;
  return Number(units) * Number.MIN_VALUE;
}

function bitLength(n: bigint): number {
  const hex = n.toString(16);
  return (hex.length - 1) * 4 + (32 - Math.clz32(Number.parseInt(hex.charAt(0), 16)));
}

function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b < 0n ? -b : b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}
