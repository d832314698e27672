import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { WORDS } from '../../../language/units/table.ts';
import { syntax } from './helpers.ts';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Record<string, { readonly name: string }>;
  readonly patterns?: readonly Rule[];
}
interface TextMate {
  readonly patterns: readonly Rule[];
  readonly repository: Record<string, Rule>;
}

const read = (name: string) => JSON.parse(readFileSync(new URL(`../../../syntaxes/${name}`, import.meta.url), 'utf8'));
const grammar = read('broomline.tmLanguage.json') as TextMate;
const configuration = read('language-configuration.json');

/** All rules in the order in which an editor tries them, includes followed. */
function flat(rules: readonly Rule[], seen = new Set<string>()): Rule[] {
  return rules.flatMap(rule => {
    if (rule.include === undefined)
      return rule.patterns !== undefined && rule.begin === undefined ? flat(rule.patterns, seen) : [rule];
    if (seen.has(rule.include)) return [];
    return flat([grammar.repository[rule.include.slice(1)]!], new Set([...seen, rule.include]));
  });
}

/** Colours one line as an editor does: at each place the earliest match wins, the first rule of several. */
function colours(line: string): [string, string][] {
  const rules = flat(grammar.patterns);
  const found: [string, string][] = [];
  for (let at = 0; at < line.length; ) {
    let best: { rule: Rule; match: RegExpExecArray } | undefined;
    for (const rule of rules) {
      const source =
        rule.match ?? (rule.end === '"|$' ? '"(?:\\\\["\\\\]|[^"])*"?' : `${rule.begin}[\\s\\S]*?${rule.end}`);
      const regex = new RegExp(source, 'g');
      regex.lastIndex = at;
      const match = regex.exec(line);
      if (match !== null && match[0] !== '' && (best === undefined || match.index < best.match.index))
        best = { rule, match };
    }
    if (best === undefined) break;
    const { rule, match } = best;
    if (rule.name !== undefined) found.push([match[0], rule.name]);
    for (const [group, { name }] of Object.entries(rule.captures ?? {})) {
      if (match[Number(group)] !== undefined) found.push([match[Number(group)]!, name]);
    }
    at = match.index + match[0].length;
  }
  return found.map(([text, scope]) => [text.trim(), scope.replace(/\.broomline$/, '')]);
}

const scopeOf = (line: string, word: string) => colours(line).find(([text]) => text === word)?.[1];

describe('TextMate grammar', () => {
  test('every include and every capture exists', () => {
    const names = JSON.stringify(grammar).matchAll(/"include":\s*"#([a-z]+)"/g);
    for (const [, name] of names) expect(Object.keys(grammar.repository)).toContain(name);
    for (const rule of Object.values(grammar.repository).flatMap(rule => [rule, ...(rule.patterns ?? [])])) {
      if (rule.match === undefined) continue;
      const groups = new RegExp(`${rule.match}|`).exec('')!.length - 1;
      for (const group of Object.keys(rule.captures ?? {})) expect(Number(group)).toBeLessThanOrEqual(groups);
    }
  });

  const PLACES: Record<string, string> = {
    broomline: 'broomline 1',
    use: 'use "x.broom" as X',
    as: 'use "x.broom" as X',
    like: 'broom A like B {',
    without: '    without A, B',
    require: 'require a < 3',
    because: 'require a < 3 because "x"',
    waive: 'waive c on North',
    on: 'waive c on North',
    while: 'waive c on North while a > 2',
    by: '    because "x" by "y"',
    until: '    until 2031-06-30',
    and: 'require a and b',
    or: 'require a or b',
    not: 'require not a',
    table: '    stations: table chainage m, left m',
  };
  const keywords = Object.keys(syntax.services.parser.Lexer.definition).filter(name => /^[a-z]+$/.test(name));
  test.each(keywords)('the keyword %s is coloured as one, and not as a name', word => {
    expect(PLACES).toHaveProperty(word);
    expect(scopeOf(PLACES[word]!, word)).toMatch(/^keyword\.(control|operator)/);
    expect(scopeOf(`    ${word}: 3`, word)).toBe('variable.other.property');
    expect(scopeOf(`    x: a.${word}`, word) ?? 'variable.other').not.toMatch(/^keyword/);
  });

  test.each(Object.keys(syntax.services.parser.Lexer.definition).filter(name => /^[^A-Za-z]+$/.test(name)))(
    'the sign %s is coloured',
    sign => {
      expect(scopeOf(`a ${sign} b`, sign)).toMatch(/^(keyword\.operator|punctuation)/);
    },
  );

  test('every unit is coloured after a number, and no plain word', () => {
    const missing = [...WORDS.keys()].filter(unit => scopeOf(`    x: 3 ${unit}`, unit) !== 'keyword.other.unit');
    expect(missing).toEqual([]);
    for (const unit of ['L/m2', 'gal/ft2', 'km/h', 'm^2', 'm²', 'L/min', 'EUR/h'])
      expect(scopeOf(`x: 3 ${unit}`, unit)).toBe('keyword.other.unit');
    for (const word of ['to', 'of', 'parts', 'because', 'and', 'swept', 'mix', 'in-place', 'm-line']) {
      expect(
        colours(`    x: 3 ${word}`).some(([, scope]) => scope === 'keyword.other.unit'),
        word,
      ).toBe(false);
    }
  });

  test('a few lines', () => {
    expect(colours('runway Main {  // one')).toEqual([
      ['runway', 'storage.type.block'],
      ['Main', 'entity.name.type'],
      ['{', 'punctuation.section.block'],
      ['// one', 'comment.line.double-slash'],
    ]);
    expect(colours('    end "04" { displaced: 120 m }')).toEqual([
      ['end', 'storage.type.block'],
      ['"04"', 'string.quoted.double'],
      ['{', 'punctuation.section.block'],
      ['displaced', 'variable.other.property'],
      [':', 'punctuation.separator.key-value'],
      ['120', 'constant.numeric'],
      ['m', 'keyword.other.unit'],
      ['}', 'punctuation.section.block'],
    ]);
    expect(colours('    hours: 23:00 to 05:00, from: 2031-04-07').map(([, scope]) => scope)).toEqual([
      'variable.other.property',
      'punctuation.separator.key-value',
      'constant.other.clock',
      'variable.other',
      'constant.other.clock',
      'punctuation.separator.comma',
      'variable.other.property',
      'punctuation.separator.key-value',
      'constant.other.date',
    ]);
    expect(colours('method Wash(soak: time = 35 min) {').slice(0, 2)).toEqual([
      ['method', 'storage.type.block'],
      ['Wash', 'entity.name.type'],
    ]);
    expect(scopeOf('    x: min(a, 3 m) + 1:500', 'min')).toBe('support.function');
    expect(scopeOf('    x: min(a, 3 m) + 1:500', '1:500')).toBe('constant.numeric.ratio');
    expect(scopeOf('    pavement: grooved asphalt', 'grooved')).toBe('variable.other');
  });
});

describe('language configuration', () => {
  test('words hold hyphens, indentation follows brackets', () => {
    const word = new RegExp(configuration.wordPattern, 'g');
    expect('build-up: half-swept 3.5 größe'.match(word)).toEqual(['build-up', 'half-swept', '3.5', 'größe']);
    const more = new RegExp(configuration.indentationRules.increaseIndentPattern);
    for (const line of ['runway M {', 'method M( // x', 'x: "a { b" {']) expect(more.test(line), line).toBe(true);
    for (const line of ['x: 3', 'x: "{"', '// {', 'end "04" { x: 1 }']) expect(more.test(line), line).toBe(false);
    expect(new RegExp(configuration.indentationRules.decreaseIndentPattern).test('    }')).toBe(true);
  });
});
