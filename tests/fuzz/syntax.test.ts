import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SYNTAX_CODES } from '../../language/grammar/problems.ts';
import { parse } from '../unit/grammar/helpers.ts';
import { SKETCH } from '../unit/grammar/sketch.ts';

/** A generous ceiling that only a hang or a quadratic pass breaks; ordinary texts of a megabyte take a few seconds. */
const CEILING_MS = 30_000;

function survives(text: string) {
  const start = performance.now();
  const { document, problems } = parse(text);
  expect(performance.now() - start).toBeLessThan(CEILING_MS);
  expect(document.$type).toBe('Document');
  for (const one of problems) {
    expect(SYNTAX_CODES).toContain(one.code);
    expect(one.offset).toBeGreaterThanOrEqual(0);
    expect(one.end).toBeLessThanOrEqual(text.length);
  }
  return { document, problems };
}

const MB = 1_000_000;
const HOSTILE: readonly [string, string][] = [
  ['letters', 'a'.repeat(MB)],
  ['blanks', ' '.repeat(MB)],
  ['newlines', '\n'.repeat(MB)],
  ['quotes', '"'.repeat(MB)],
  ['open text', `x: "${'a'.repeat(MB)}`],
  ['escapes', `x: "${'\\"'.repeat(MB / 2)}`],
  ['curly quotes', '“'.repeat(MB / 4)],
  ['open comments', '/*'.repeat(MB / 2)],
  ['slashes and stars', '/*/'.repeat(MB / 3)],
  ['comments', '/**/'.repeat(MB / 4)],
  ['open brackets', '('.repeat(MB)],
  ['closed brackets', ')'.repeat(MB)],
  ['open braces', '{'.repeat(MB / 2)],
  ['closed braces', '}'.repeat(MB / 4)],
  ['braces by line', '{\n'.repeat(MB / 4)],
  ['blocks', 'a{'.repeat(MB / 4)],
  ['blocks by line', 'step A {\n'.repeat(50_000)],
  ['top blocks by line', 'runway A {\n'.repeat(20_000)],
  ['calls', `work A { x: ${'f('.repeat(MB / 4)}`],
  ['calls by line', `work A { x: ${'f(,\n'.repeat(MB / 8)}`],
  ['open lines', 'x: (\n'.repeat(50_000)],
  ['signs', `work A { x: ${'- '.repeat(MB / 2)}3 }`],
  ['nots', `require ${'not '.repeat(MB / 4)}a`],
  ['nots in brackets', `require ${'not ('.repeat(MB / 8)}a`],
  ['powers', `work A { x: a${'^a'.repeat(MB / 4)} }`],
  ['members', `work A { x: a${'.a'.repeat(MB / 4)} }`],
  ['sums', `work A { x: a${' + a'.repeat(MB / 8)} }`],
  ['comparisons', `require a${' < a'.repeat(MB / 8)}`],
  ['lists', `work A { x: a${', a'.repeat(60_000)} }`],
  ['words', `work A { x: ${'a '.repeat(60_000)}}`],
  ['numbers', `work A { x: ${'1,'.repeat(100_000)}2 }`],
  ['groups', `work A { x: ${'100 '.repeat(100_000)} }`],
  ['units', `work A { x: ${'1 m '.repeat(60_000)}}`],
  ['columns', `deposit A { x: table ${'a m, '.repeat(30_000)}b m\n${'1 '.repeat(60_000)}\n}`],
  ['colons', 'a:'.repeat(MB / 4)],
  ['commas', ','.repeat(MB / 4)],
  ['dots', '.'.repeat(MB / 4)],
  ['bad characters', '§ '.repeat(MB / 4)],
  ['NUL', '\u0000'.repeat(MB / 4)],
  ['lone surrogates', '\uD800x'.repeat(MB / 8)],
  ['right to left', '\u202E\u2067אבג '.repeat(MB / 16)],
  ['like', `broom ${'like '.repeat(MB / 8)}`],
  ['kinds', 'runway '.repeat(MB / 8)],
  ['digits', '1'.repeat(MB)],
  ['hyphens', 'a-'.repeat(MB / 2)],
  ['garbage lines', 'length 3 4 ( m ?\n'.repeat(3_000)],
  ['made-up tokens', '\u0000sep\u0000row\u0000unit\u0000broken'],
];

describe('hostile text', () => {
  test.each(HOSTILE)(
    '%s',
    (_, text) => {
      survives(text);
    },
    120_000,
  );

  test('what goes too deep is one problem, and the other blocks stay', () => {
    const good = 'work Good { x: 1 }\n';
    for (const deep of [
      '('.repeat(65),
      '- '.repeat(65),
      `a${'.a'.repeat(201)}`,
      `a${'^a'.repeat(65)}`,
      `a${' + a'.repeat(2001)}`,
      'f('.repeat(65),
    ]) {
      const close = ')'.repeat(deep.split('(').length - 1);
      const text = `${good}work Bad {\n    y: ${deep}${close === '' ? '' : `1${close}`}${deep.startsWith('-') ? '1' : ''}\n    z: 2\n}\n${good}`;
      const { document, problems } = survives(text);
      expect(
        problems.map(one => one.code),
        deep.slice(0, 9),
      ).toEqual(['too-deeply-nested']);
      expect(document.items).toHaveLength(3);
      expect((document.items[1] as { entries: { $type: string }[] }).entries.map(entry => entry.$type)).toEqual([
        'Broken',
        'Property',
      ]);
    }
    const nested = `${good}${'step A { '.repeat(66)}x: 1${' }'.repeat(66)}\n${good}`;
    expect(survives(nested).problems.map(one => one.code)).toEqual(['too-deeply-nested']);
    expect(survives(nested).document.items).toHaveLength(3);
  });

  test('as deep as allowed is read', () => {
    const text = `work A {\n    a: ${'('.repeat(64)}1${')'.repeat(64)}\n    b: ${'-'.repeat(64)}1\n    c: a${'.a'.repeat(200)}\n    d: a${' + a'.repeat(2000)}\n}\n${'step A { '.repeat(64)}x: 1${' }'.repeat(64)}`;
    expect(survives(text).problems).toEqual([]);
  });
});

describe('random text', () => {
  const pieces = [
    ...SKETCH.split(/(\s+|[{}():,.])/),
    '{',
    '}',
    '(',
    ')',
    '"',
    '/*',
    '*/',
    '//',
    '\n',
    '@',
    '“',
    '\u0000',
    '\uD800',
    'table',
    'like',
    'require',
    'waive',
    'because',
    '1,5',
    '1 000',
    '<',
    '- ',
    '^',
    '±',
    '½',
    'use "../../x"',
  ];

  test('any sequence of pieces', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 80 }), parts => void survives(parts.join(' '))),
      { numRuns: 400 },
    );
  });

  test('any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), text => void survives(text)),
      { numRuns: 400 },
    );
  });

  test('the sketch with cuts, copies and insertions', () => {
    const edit = fc.record({ at: fc.nat(SKETCH.length), length: fc.nat(40), insert: fc.constantFrom(...pieces, '') });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), edits => {
        let text = SKETCH;
        for (const { at, length, insert } of edits) text = text.slice(0, at) + insert + text.slice(at + length);
        survives(text);
      }),
      { numRuns: 400 },
    );
  });
});
