import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editDistance, nearest, nearestAll } from '../../../language/words/nearest.ts';

const WORDS = [
  'runway',
  'deposit',
  'product',
  'sprayer',
  'broom',
  'build-up',
  'at-least',
  'at-most',
  'step',
  'rate',
  'role',
  'on',
];

describe('the nearest word', () => {
  test.each([
    ['runwya', 'runway'],
    ['depsoit', 'deposit'],
    ['sprayr', 'sprayer'],
    ['brooms', 'broom'],
    ['buildup', 'build-up'],
    ['build_up', 'build-up'],
    ['Runway', 'runway'],
    ['at-leats', 'at-least'],
    ['stpe', 'step'],
    ['produkt', 'product'],
  ])('%s: %s', (word, expected) => {
    expect(nearest(word, WORDS)).toBe(expected);
  });

  test.each(['', 'xyz', 'no', 'in', 'pavement', 'r', 'x'.repeat(1_000_000)])('none for %s', word => {
    expect(nearest(word.slice(0, 1_000_000), WORDS)).toBeUndefined();
  });

  test('nearest first, ties in the order given, never the word itself', () => {
    expect(nearestAll('sprayers', ['sprays', 'spraying', 'sprayer', 'sprayers'])).toEqual(['sprayer', 'sprays']);
    expect(nearestAll('rale', ['role', 'rate', 'rale'])).toEqual(['role', 'rate']);
    expect(nearestAll('rale', ['role', 'rate'], 1)).toEqual(['role']);
  });
});

describe('the distance', () => {
  test.each([
    ['', '', 0],
    ['abc', '', 3],
    ['kitten', 'sitting', 3],
    ['ab', 'ba', 1],
    // Optimal string alignment edits no letter twice, so this is 3 and not 2.
    ['ca', 'abc', 3],
  ])('%j to %j is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
  });

  test('is symmetric, zero only for equals, and never more than the longer word', () => {
    const word = fc.string({ maxLength: 10, unit: fc.constantFrom('a', 'b', 'c') });
    fc.assert(
      fc.property(word, word, (a, b) => {
        const distance = editDistance(a, b);
        expect(distance).toBe(editDistance(b, a));
        expect(distance === 0).toBe(a === b);
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(distance).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
      }),
    );
  });
});
