import { describe, expect, test } from 'vitest';
import { codes, parse, show, value } from './helpers.ts';

const quantity = (number: string, unit?: string) =>
  `Quantity(${unit === undefined ? '' : `unit=${unit} `}value=${number})`;
const list = (...items: string[]) => `List(items=[${items.map(item => `Phrase(parts=[${item}])`).join(' ')}])`;

describe('numbers and units', () => {
  test.each([
    ['11.3 km/h', quantity('11.3', 'km/h')],
    ['0.35 L/m2', quantity('0.35', 'L/m2')],
    ['0.01 gal/ft2', quantity('0.01', 'gal/ft2')],
    ['95 °F', quantity('95', '°F')],
    ['5 %', quantity('5', '%')],
    ['5%', quantity('5', '%')],
    ['1e3 m', quantity('1e3', 'm')],
    ['2 m^2', quantity('2', 'm^2')],
    ['.5 m', quantity('.5', 'm')],
    ['5 µm', quantity('5', 'µm')],
  ])('%s is one quantity', (written, expected) => {
    expect(value(written)).toBe(list(expected));
    expect(codes(`work A { x: ${written} }`)).toEqual([]);
  });

  test('a unit is greedy only without blanks, and only over known units', () => {
    expect(value('0.5 L / m2')).toBe(list(`Binary(left=${quantity('0.5', 'L')} operator=/ right=Reference(head=^m2))`));
    expect(value('0.5 L/width')).toBe(
      list(`Binary(left=${quantity('0.5', 'L')} operator=/ right=Reference(head=^width))`),
    );
  });

  test('units stay usable as names', () => {
    for (const name of ['m', 'L', 'h', 'min', 'kg', 's', 't', 'ft', 'in', 'bar', 'ha']) {
      const { document, problems } = parse(
        `work ${name} {\n    ${name}: ${name}.${name} + ${name}\n}\nrequire ${name}.x > 3 ${name}\n`,
      );
      expect(problems, name).toEqual([]);
      expect(show(document.items[0])).toBe(
        `Block(entries=[Property(name=${name} value=${list(`Binary(left=Reference(head=^${name} tail=[^${name}]) operator=+ right=Reference(head=^${name}))`)})] kind=work name=${name} open={)`,
      );
    }
  });

  test('no word is taken for a unit, nor part of one', () => {
    expect(value('23:00 to 05:00, Mon to Thu')).toBe(
      list(
        'ClockLiteral(value=23:00) Reference(head=^to) ClockLiteral(value=05:00)',
        'Reference(head=^Mon) Reference(head=^to) Reference(head=^Thu)',
      ),
    );
    expect(value('3 to 5')).toBe(list(`${quantity('3')} Reference(head=^to) ${quantity('5')}`));
    expect(value('1 part product to 4 parts water')).toContain(
      `${quantity('1')} Reference(head=^part) Reference(head=^product)`,
    );
    expect(value('3 h-shaped')).toBe(list(`${quantity('3')} Reference(head=^h-shaped)`));
    const { document, problems } = parse('require a <= 3 because "few"');
    expect(problems).toEqual([]);
    expect(show(document.items[0])).toContain('reason=few');
  });

  test('in a condition an unknown word after a number is read as its unit, so that the checks can say which is meant', () => {
    const { document, problems } = parse('require a <= 3 metrs');
    expect(problems).toEqual([]);
    expect(show(document.items[0])).toContain(quantity('3', 'metrs'));
  });

  test('side by side: 3 h 30 min', () => {
    expect(value('3 h 30 min')).toBe(list(`${quantity('3', 'h')} ${quantity('30', 'min')}`));
  });

  test.each([
    ['1. m', '1', 'm', 'missing-digits'],
    ['1,5 m', '1.5', 'm', 'decimal-comma'],
    ['1 000 m', '1000', 'm', 'digits-apart'],
    ['1\u202F000\u202F000 m', '1000000', 'm', 'digits-apart'],
    ['1,234,567 m', '1234567', 'm', 'digits-apart'],
  ])('%s is read as it is meant, and reported', (written, number, unit, code) => {
    expect(value(written)).toBe(list(quantity(number, unit)));
    expect(codes(`work A { x: ${written} }`)).toEqual([code]);
  });

  test('lists of numbers are lists', () => {
    expect(value('1, 5')).toBe(list(quantity('1'), quantity('5')));
    expect(value('1,2,3')).toBe(list(quantity('1'), quantity('2'), quantity('3')));
    expect(codes('work A { x: 1,2,3 }')).toEqual([]);
  });

  test('in a table, blanks part the cells', () => {
    expect(codes('deposit A {\n    stations: table chainage m, left m\n        1 000\n        150 900\n}')).toEqual([]);
    expect(codes('deposit A {\n    stations: table chainage m, left m\n        1\u00A0000 9\n}')).toEqual([
      'digits-apart',
    ]);
  });
});

describe('designators, dates, clocks, ratios', () => {
  test('"09L" is not nine litres', () =>
    expect(value('Main from "09L"')).toBe(list('Reference(head=^Main) Reference(head=^from) Text(value=09L)')));
  test('a date is not a subtraction', () => expect(value('2031-04-07')).toBe(list('DateLiteral(value=2031-04-07)')));
  test('1:500', () => expect(value('1:500')).toBe(list('RatioLiteral(value=1:500)')));
  test('7:00 reads as a ratio and is reported', () =>
    expect(codes('work A { x: 7:00 to 09:00 }')).toEqual(['clock-digits']));
  test('1 : 500 says how a ratio is written', () =>
    expect(parse('work A { x: 1 : 500 }').problems[0]?.message).toContain('`1:500`'));
});

describe('operators', () => {
  const two = quantity('2');
  test('the sign is above the power: −2^2 is −(2^2)', () => {
    for (const sign of ['-', '−'])
      expect(value(`${sign}2^2`)).toBe(list(`Unary(operand=Power(base=${two} exponent=${two}) operator=-)`));
  });
  test('2 m ^ 2 is the square of two metres', () =>
    expect(value('2 m ^ 2')).toBe(list(`Power(base=${quantity('2', 'm')} exponent=${two})`)));
  test.each([
    ['≤', '<='],
    ['≥', '>='],
    ['≠', '!='],
    ['−', '-'],
    ['×', '*'],
    ['·', '*'],
    ['+/-', '±'],
  ])('%s is another way to write %s', (typed, meant) => {
    expect(value(`a ${typed} 2`)).toBe(list(`Binary(left=Reference(head=^a) operator=${meant} right=${two})`));
    if (meant === '<=' || meant === '>=') expect(value(`${typed} 2`)).toBe(value(`${meant} 2`));
  });
  test('after a word, a minus that touches its number is a sign', () => {
    expect(value('5 °C to -3 °C')).toBe(
      list(`${quantity('5', '°C')} Reference(head=^to) Unary(operand=${quantity('3', '°C')} operator=-)`),
    );
    expect(value('5-3')).toBe(list(`Binary(left=${quantity('5')} operator=- right=${quantity('3')})`));
    expect(value('a - 3')).toBe(list(`Binary(left=Reference(head=^a) operator=- right=${quantity('3')})`));
    expect(codes('require a -3 < 5')).toEqual(['minus-needs-blanks']);
  });
  test('comparisons in a row are set apart', () => {
    expect(codes('require a < b < c')).toEqual(['chained-comparison']);
    expect(codes('work A { x: a <= b = c }')).toEqual(['chained-comparison']);
    expect(codes('require a < b and b < c')).toEqual([]);
    expect(codes('require (a < b) = (b < c)')).toEqual([]);
    expect(codes('require min(a < b, b < c)')).toEqual([]);
    expect(codes('work A { x: >= 3 m, <= 5 m }')).toEqual([]);
  });
  test('not takes what stands next to it', () => {
    expect(codes('require not a.b')).toEqual([]);
    expect(codes('require not (a < b) and not c(1)')).toEqual([]);
    expect(codes('require not a < b')).toEqual(['not-needs-brackets']);
    expect(codes('require not (a) < b')).toEqual(['not-needs-brackets']);
  });
});

describe('texts', () => {
  test('a backslash is itself, except before a quote or another', () => {
    expect(value(String.raw`"..\lib\\x \"y\""`)).toBe(list(String.raw`Text(value=..\lib\x "y")`));
  });
  test('a missing quote costs the line only', () => {
    expect(codes('work A {\n    x: "open\n    y: 2\n}')).toEqual(['string-not-closed']);
    expect(value('"open')).toBe(list('Text(value=open)'));
    expect(value(String.raw`"ends \"`)).toBe(list('Text(value=ends ")'));
  });
  test('typographic quotes are read, with a warning', () => {
    expect(value('“04”')).toBe(list('Text(value=04)'));
    expect(parse('work A { x: “04” }').problems).toMatchObject([
      { code: 'curly-quotes', severity: 'warning', data: { replace: '"04"' } },
    ]);
  });
});

describe('characters', () => {
  test('a character that means nothing is named, with what to write', () => {
    expect(parse('work A { x: 3 m; }').problems).toMatchObject([{ code: 'strange-character', data: { found: ';' } }]);
    expect(parse('# note\nwork A { x: 3 }').problems[0]?.message).toContain('`//`');
  });
  test('characters that hide are found everywhere', () => {
    expect(codes('work A { x: "a\u202Eb" } // \u200B')).toEqual(['hidden-character', 'hidden-character']);
    expect(codes('work A\u200B { x: 1 }')).toContain('hidden-character');
  });
  test('a comment without an end is one problem', () =>
    expect(codes('work A { x: 1 }\n/* note\nwork B { y: 2 }')).toEqual(['comment-not-closed']));
  test('byte order mark, tabs and odd blanks are blanks', () =>
    expect(codes('\uFEFFwork\tA {\r\n\u00A0\u2003x:\u202F3\u00A0m\r}')).toEqual([]));
});
