/** Colours, widths, wrapping. */
import { describe, expect, test } from 'vitest';
import { pad, printable, wantsColour, width, wrap } from '../../server/cli/terminal.ts';

test('colour: FORCE_COLOR, then NO_COLOR, then whether a person reads', () => {
  expect(wantsColour({}, true)).toBe(true);
  expect(wantsColour({}, false)).toBe(false);
  expect(wantsColour({ TERM: 'dumb' }, true)).toBe(false);
  expect(wantsColour({ NO_COLOR: '1' }, true)).toBe(false);
  // By its own rule an empty NO_COLOR says nothing.
  expect(wantsColour({ NO_COLOR: '' }, true)).toBe(true);
  expect(wantsColour({ FORCE_COLOR: '1' }, false)).toBe(true);
  expect(wantsColour({ FORCE_COLOR: '0' }, true)).toBe(false);
  expect(wantsColour({ FORCE_COLOR: '1', NO_COLOR: '1' }, false)).toBe(true);
});

test.each([
  ['width', 5],
  ['m²·½', 4],
  ['é', 1],
  ['e\u0301', 1],
  ['滑走路', 6],
  ['한글', 4],
  ['ｆｕｌｌ', 8],
  ['🚜', 2],
  ['👩‍🔧', 2],
  ['a\u200Bb', 2],
])('%s takes %d columns', (text, columns) => {
  expect(width(text)).toBe(columns);
});

test('tabs go to the next stop, from the column in which they stand', () => {
  expect(printable('\ta')).toBe('    a');
  expect(printable('a\tb')).toBe('a   b');
  expect(printable('\tb', 6)).toBe('  b');
});

describe('wrap', () => {
  test('at blanks, and a number stays with its groups and its unit', () => {
    expect(wrap('at most 2 450 m of it', 12)).toEqual(['at most', '2 450 m of', 'it']);
    expect(wrap('drive at 11.3 km/h now', 15)).toEqual(['drive at', '11.3 km/h now']);
    expect(wrap('from 3 to 5 times', 9)).toEqual(['from 3 to', '5 times']);
  });

  test('a long word stands out rather than being cut', () => {
    expect(wrap('see examples/tern-sands/airport.broom now', 10)).toEqual([
      'see',
      'examples/tern-sands/airport.broom',
      'now',
    ]);
  });

  test('of nothing there is one empty line', () => expect(wrap('', 10)).toEqual(['']));
});

test('pad counts columns, not characters', () => {
  expect(pad('路', 4)).toBe('路  ');
  expect(pad('路', 4, 'right')).toBe('  路');
});
