import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  convertLiteral,
  fromSi,
  parseQuantity,
  parseUnit,
  toSi,
  type Unit,
  ucumOf,
} from '../../../language/units/index.ts';
import { ATOMS } from '../../../language/units/table.ts';

function unitOf(text: string): Unit {
  const unit = parseUnit(text);
  if (!unit) throw new Error(`no unit: ${text}`);
  return unit;
}

const COMPOUNDS = ['L/m2', 'gal/ft2', 'gal/1000 ft2', 'kg/m2/h', 'lb/ft2/h', 'm3/h', 'gal/min', 'EUR/h'];
const units = [...ATOMS.map(atom => atom.symbol).filter(symbol => parseUnit(symbol)), ...COMPOUNDS].map(unitOf);
const anyUnit = fc.constantFrom(...units);
const literal = fc
  .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: 0, max: 6 }))
  .map(([n, decimals]) => (n / 10 ** decimals).toFixed(decimals));

describe('literals to SI and back', () => {
  test('rounded once: the nearest double', () => {
    expect(toSi('0.1', unitOf('mm'))).toBe(0.0001);
    expect(toSi('11.3', unitOf('km/h'))).toBe(113 / 36);
    expect(toSi('35', unitOf('°C'))).toBe(308.15);
    expect(toSi('95', unitOf('°F'))).toBe(308.15);
    expect(toSi('90', unitOf('deg'))).toBe(0.25);
  });

  test('there and back is the literal to 15 digits', () => {
    fc.assert(
      fc.property(literal, anyUnit, (text, unit) => {
        const back = fromSi(toSi(text, unit), unit);
        const scale = Math.max(Math.abs(Number(text)), unit.offset ? 500 : 0);
        expect(Math.abs(back - Number(text))).toBeLessThanOrEqual(4e-16 * scale);
      }),
      { numRuns: 2000 },
    );
  });

  test('what is no decimal number is NaN, what is beyond the doubles infinite', () => {
    expect(toSi('x', unitOf('m'))).toBeNaN();
    expect(toSi('', unitOf('m'))).toBeNaN();
    expect(toSi('1e400', unitOf('m'))).toBe(Number.POSITIVE_INFINITY);
    expect(toSi('1e-400', unitOf('m'))).toBe(0);
    expect(toSi(`0.${'3'.repeat(1000)}`, unitOf('m'))).toBeCloseTo(1 / 3, 15);
    expect(fromSi(Number.NaN, unitOf('m'))).toBeNaN();
    expect(fromSi(Number.POSITIVE_INFINITY, unitOf('°F'))).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('literals in another unit', () => {
  test.each([
    ['35', '°C', '°F', '95'],
    ['-40', '°F', '°C', '-40'],
    ['5', 'K', 'Δ°F', '9'],
    ['1', 'mi', 'ft', '5280'],
    ['1', 'ac', 'm2', '4046.8564224'],
    ['2450', 'm', 'ft', '8038.05774278'],
    ['0.35', 'L/m2', 'gal/ft2', '0.00858983536149'],
    ['45', 'min', 'h', '0.75'],
  ])('%s %s in %s… is %s %s', (text, from, to, expected) => {
    expect(convertLiteral(text, unitOf(from), unitOf(to))).toBe(expected);
  });

  test('only between units that agree', () => {
    expect(convertLiteral('1', unitOf('m'), unitOf('s'))).toBeUndefined();
    expect(convertLiteral('1', unitOf('°C'), unitOf('K'))).toBeUndefined();
    expect(convertLiteral('1', unitOf('mm'), unitOf('L/m2'))).toBeUndefined();
    expect(convertLiteral('1', unitOf('EUR'), unitOf('USD'))).toBeUndefined();
    expect(convertLiteral('x', unitOf('m'), unitOf('ft'))).toBeUndefined();
  });

  test('there and back agrees to 1e-9, so a job in the other system is the same job', () => {
    fc.assert(
      fc.property(literal, anyUnit, anyUnit, (text, from, to) => {
        const there = convertLiteral(text, from, to);
        if (there === undefined || Number(text) === 0) return;
        const [a, b] = [toSi(text, from), toSi(there, to)];
        expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.abs(a));
      }),
      { numRuns: 3000 },
    );
  });
});

describe('quantities in one piece', () => {
  test('with and without unit and blank', () => {
    expect(parseQuantity('0.35 L/m2')).toMatchObject({ literal: '0.35', si: 0.00035, tag: 'rate' });
    expect(parseQuantity('5%')).toMatchObject({ literal: '5', si: 0.05 });
    expect(parseQuantity('-5 °C')).toMatchObject({ si: 268.15, tag: 'temperature' });
    expect(parseQuantity(' 12 ')).toMatchObject({ literal: '12', si: 12, tag: 'none' });
    expect(parseQuantity('12')?.unit).toBeUndefined();
  });
  test.each(['', 'm', '5 x', '5 m m', '1..2 m', '5 m;', '1 h 23 min'])('none: %j', text => {
    expect(parseQuantity(text)).toBeUndefined();
  });
});

test('every unit has a code, and codes of different units differ', () => {
  const codes = new Map<string, string>();
  for (const unit of units) {
    const code = ucumOf(unit);
    expect(code).not.toBe('');
    const other = codes.get(code);
    // K and Δ°C are one unit by two names; mbar and hPa are two units of UCUM.
    if (other !== undefined) expect([other, unit.symbol].sort()).toEqual(['K', 'Δ°C']);
    codes.set(code, unit.symbol);
  }
});
