import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  add,
  compare,
  div,
  fromNumber,
  mul,
  ONE,
  parseDecimal,
  pow,
  type Rational,
  rational,
  sub,
  toDecimal,
  toNumber,
} from '../../../language/units/rational.ts';

const fraction = fc
  .tuple(fc.bigInt(-(10n ** 30n), 10n ** 30n), fc.bigInt(1n, 10n ** 30n))
  .map(([n, d]) => rational(n, d));
const finite = fc.double({ noNaN: true, noDefaultInfinity: true });

describe('fractions', () => {
  test('are in lowest terms with a positive denominator', () => {
    expect(rational(6n, -4n)).toEqual({ n: -3n, d: 2n });
    expect(rational(0n, -7n)).toEqual({ n: 0n, d: 1n });
    expect(rational(25, 100)).toEqual({ n: 1n, d: 4n });
  });

  test('form a field', () => {
    fc.assert(
      fc.property(fraction, fraction, fraction, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(mul(a, add(b, c))).toEqual(add(mul(a, b), mul(a, c)));
        expect(sub(add(a, b), b)).toEqual(a);
        if (b.n !== 0n) expect(mul(div(a, b), b)).toEqual(a);
        expect(Math.sign(compare(a, b))).toBe(-Math.sign(compare(b, a)));
      }),
    );
  });

  test('powers: a^m · a^n is a^(m+n), with negative ones too', () => {
    fc.assert(
      fc.property(fraction, fc.integer({ min: -6, max: 6 }), fc.integer({ min: -6, max: 6 }), (a, m, n) => {
        fc.pre(a.n !== 0n);
        expect(mul(pow(a, m), pow(a, n))).toEqual(pow(a, m + n));
      }),
    );
    expect(pow(rational(-2, 3), -3)).toEqual(rational(-27, 8));
  });
});

describe('reading decimals', () => {
  test.each<readonly [string, Rational]>([
    ['0', rational(0)],
    ['0.35', rational(7, 20)],
    ['.5', rational(1, 2)],
    ['1.', rational(1)],
    ['-5', rational(-5)],
    ['+2.50', rational(5, 2)],
    ['1e3', rational(1000)],
    ['2.5E-2', rational(1, 40)],
    ['00012', rational(12)],
  ])('%s', (text, value) => {
    expect(parseDecimal(text)).toEqual(value);
  });

  test.each(['', '.', '-', 'e3', '1e', '1,5', '1 000', '0x10', '1_000', 'NaN', 'Infinity', '1e1000', '--1', '١'])(
    'is none: %j',
    text => {
      expect(parseDecimal(text)).toBeUndefined();
    },
  );

  test('a megabyte of digits is refused, not chewed', () => {
    expect(parseDecimal('9'.repeat(1_000_000))).toBeUndefined();
  });

  test('agrees with JavaScript, which rounds literals correctly', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[0-9]{1,25}(\.[0-9]{1,25})?(e[+-]?[0-9]{1,3})?$/), text => {
        const value = parseDecimal(text);
        expect(value && toNumber(value)).toBe(Number(text));
      }),
    );
  });
});

describe('doubles', () => {
  test('there and back is the same double', () => {
    fc.assert(
      fc.property(finite, x => {
        const exact = fromNumber(x);
        expect(exact && toNumber(exact)).toBe(x === 0 ? 0 : x);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    Number.MIN_VALUE,
    2 ** -1073,
    2 ** -1022,
    2 ** -1022 - 2 ** -1074,
    2 ** -1021,
    Number.MAX_VALUE,
    2 ** 53,
    0.1,
  ])('edge %d', x => {
    const exact = fromNumber(x);
    expect(exact && toNumber(exact)).toBe(x);
  });

  test('halfway goes to even, also where doubles thin out', () => {
    const half = (x: number, y: number) => div(add(fromNumber(x) ?? ONE, fromNumber(y) ?? ONE), rational(2));
    expect(toNumber(half(1, 1 + 2 ** -52))).toBe(1);
    expect(toNumber(half(1 + 2 ** -52, 1 + 2 ** -51))).toBe(1 + 2 ** -51);
    expect(toNumber(half(0, Number.MIN_VALUE))).toBe(0);
    expect(toNumber(half(Number.MIN_VALUE, 2 * Number.MIN_VALUE))).toBe(2 * Number.MIN_VALUE);
  });

  test('beyond the doubles: infinite, or zero', () => {
    expect(toNumber(pow(rational(10), 400))).toBe(Number.POSITIVE_INFINITY);
    expect(toNumber(div(rational(-(10n ** 700n), 3n), ONE))).toBe(Number.NEGATIVE_INFINITY);
    expect(toNumber(pow(rational(10), -400))).toBe(0);
    expect(fromNumber(Number.NaN)).toBeUndefined();
    expect(fromNumber(Number.NEGATIVE_INFINITY)).toBeUndefined();
  });

  test('a quotient is the double nearest to it', () => {
    fc.assert(
      fc.property(fc.bigInt(1n, 2n ** 53n), fc.bigInt(1n, 2n ** 53n), (n, d) => {
        // IEEE division of two exact doubles is itself correctly rounded.
        expect(toNumber(rational(n, d))).toBe(Number(n) / Number(d));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('writing decimals', () => {
  test.each<readonly [Rational, number, string]>([
    [rational(1, 3), 4, '0.3333'],
    [rational(2, 3), 4, '0.6667'],
    [rational(20_000, 3), 3, '6667'],
    [rational(1, 8), 12, '0.125'],
    [rational(-5, 2), 12, '-2.5'],
    [rational(999_999, 1000), 3, '1000'],
    [rational(1, 1000), 1, '0.001'],
    [rational(0), 5, '0'],
  ])('%o to %i digits', (value, digits, text) => {
    expect(toDecimal(value, digits)).toBe(text);
  });

  test('with 17 digits a double comes back', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: -1e15, max: 1e15 }), x => {
        const exact = fromNumber(x);
        expect(Number(exact && toDecimal(exact, 17))).toBe(x === 0 ? 0 : x);
      }),
    );
  });
});
