import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dimension,
  divide,
  generalKey,
  multiply,
  NUMBER,
  power,
  sameDimension,
} from '../../../language/units/dimensions.ts';
import { dimensionName } from '../../../language/units/index.ts';
import type { Base } from '../../../language/units/types.ts';

const bases: readonly Base[] = ['length', 'mass', 'time', 'temperature', 'angle', 'money:EUR', 'money:USD'];
const anyDimension = fc
  .array(fc.tuple(fc.constantFrom(...bases), fc.integer({ min: -4, max: 4 })))
  .map(pairs => dimension(Object.fromEntries(pairs)));

describe('dimensions', () => {
  test('multiply as an abelian group', () => {
    fc.assert(
      fc.property(anyDimension, anyDimension, anyDimension, (a, b, c) => {
        expect(multiply(a, b).key).toBe(multiply(b, a).key);
        expect(multiply(a, multiply(b, c)).key).toBe(multiply(multiply(a, b), c).key);
        expect(divide(multiply(a, b), b).key).toBe(a.key);
        expect(divide(a, a).key).toBe(NUMBER.key);
      }),
    );
  });

  test('powers add up, and halves are allowed as long as they are halves', () => {
    fc.assert(
      fc.property(anyDimension, a => {
        const half = power(a, 0.5);
        expect(half && multiply(half, half).key).toBe(a.key);
        expect(power(a, 3)?.key).toBe(multiply(a, multiply(a, a)).key);
        expect(power(a, 0)?.key).toBe('');
      }),
    );
    expect(power(dimension({ length: 1 }), 1 / 3)).toBeUndefined();
    expect(power(dimension({ length: 1 }), 1e9)).toBeUndefined();
    expect(power(dimension({ length: 1 }), Number.NaN)).toBeUndefined();
  });

  test('two are the same when written in any order', () => {
    expect(sameDimension(dimension({ length: 3, time: -1 }), dimension({ time: -1, length: 3, mass: 0 }))).toBe(true);
    expect(sameDimension(dimension({ length: 3 }), dimension({ length: 2 }))).toBe(false);
  });

  test('currencies are bases of their own; an exchange rate is no plain number', () => {
    expect(generalKey(dimension({ 'money:EUR': 1, time: -1 }))).toBe(
      generalKey(dimension({ 'money:USD': 1, time: -1 })),
    );
    expect(generalKey(dimension({ 'money:EUR': 1, 'money:USD': -1 }))).toBe('money:EUR:1 money:USD:-1');
  });

  test('have names that read well', () => {
    expect(dimensionName(dimension({ length: 1 }))).toBe('length');
    expect(dimensionName(dimension({ length: 3, time: -1 }))).toBe('flow');
    expect(dimensionName(dimension({ mass: 1, length: -1, time: -2 }))).toBe('pressure');
    expect(dimensionName(NUMBER)).toBe('plain number');
    expect(dimensionName(dimension({ 'money:EUR': 1 }))).toBe('sum in EUR');
    expect(dimensionName(dimension({ 'money:EUR': 1, time: -1 }))).toBe('money per time in EUR');
    expect(dimensionName(dimension({ length: 5, time: -1 }))).toBe('length^5/time');
    expect(dimensionName(dimension({ time: -2 }))).toBe('1/time²');
  });
});
