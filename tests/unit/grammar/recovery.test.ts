import { describe, expect, test } from 'vitest';
import type { Statement } from '../../../language/grammar/layout.ts';
import type { BroomLexer } from '../../../language/grammar/lexer.ts';
import { SYNTAX_CODES } from '../../../language/grammar/problems.ts';
import { codes, parse, show, syntax } from './helpers.ts';
import { SKETCH } from './sketch.ts';

const GARBAGE = [
  '@@@ ???',
  '= = =',
  'length 3 4 ( m',
  'a b c d e',
  '12 13',
  '"open',
  'x: 3 m +',
  'y: (1',
  'z: a < b < c',
  'and or not',
  ': : :',
  ', , ,',
  'use use',
  'table a b',
  'require',
  'waive',
  'x: {',
  'because "x"',
  '%%%',
  '-',
  'w: ,',
];

interface Piece {
  readonly from: number;
  readonly to: number;
  /** Statement without a body of its own. */
  readonly leaf: boolean;
}

/** Where the statements of a text are, nested ones too. */
function pieces(text: string): Piece[] {
  const { layout } = (syntax.services.parser.Lexer as BroomLexer).layOut(text);
  const found: Piece[] = [];
  const visit = (statement: Statement): void => {
    const from = layout.tokens[statement.first]!.startOffset;
    found.push({ from, to: layout.tokens[statement.last]!.endOffset! + 1, leaf: statement.open === undefined });
    statement.body.forEach(visit);
  };
  layout.statements.forEach(visit);
  return found;
}

/** Every leaf statement of a text in short, by its own text. Broken ones are left out. */
function leaves(text: string): string[] {
  const found: string[] = [];
  const visit = (node: { $type: string; entries?: never[]; open?: string }): void => {
    if (node.$type === 'Block') node.entries?.forEach(visit);
    if (node.$type !== 'Broken')
      found.push(node.$type === 'Block' ? show({ ...node, entries: undefined }) : show(node));
  };
  for (const item of parse(text).document.items) visit(item as never);
  return found;
}

describe('a broken statement costs itself only', () => {
  const whole = leaves(SKETCH);
  test.each(GARBAGE)('%s', garbage => {
    for (const piece of pieces(SKETCH)) {
      if (!piece.leaf) continue;
      const text = SKETCH.slice(0, piece.from) + garbage + SKETCH.slice(piece.to);
      const own = SKETCH.slice(piece.from, piece.to);
      const after = leaves(text);
      const lost = [...leaves(own), ...leaves(`work Z {\n${own}\n}`)];
      // What follows a comma in the same line, and lines after a table that could be rows, may join what is before them.
      const line = SKETCH.lastIndexOf('\n', piece.from) + 1;
      const ownLine = SKETCH.slice(line, piece.from).trim() === '';
      // A clause on a line of its own goes on the requirement before it; an open text or brace takes the rest of its line.
      if (garbage.startsWith('because')) lost.push(...whole.filter(one => one.startsWith('Require(')));
      if (garbage === '"open' || garbage === 'x: {')
        lost.push(
          ...leaves(
            `work Z { ${SKETCH.slice(piece.to)
              .split('\n')[0]!
              .replace(/^, | }$/g, '')} }`,
          ),
        );
      const rowLike = /^[\d"-]/.test(garbage) && own.startsWith('build-up');
      if (!ownLine) lost.push(...leaves(`work Z { ${SKETCH.slice(line, piece.from).replace(/.*\{/, '')} }`));
      if (rowLike) lost.push(...whole.filter(one => one.includes('Table(')));
      const missing = whole.filter(one => !after.includes(one) && !lost.includes(one));
      expect(missing, `in place of ${own}`).toEqual([]);
      if (ownLine && !rowLike && !garbage.startsWith('because'))
        expect(parse(text).problems.length, own).toBeGreaterThan(0);
    }
  });

  test('a broken head costs the head only', () => {
    expect(show(parse('method M(a: = , b: time) {\n    step S { x: 1 }\n}').document.items[0])).toBe(
      'Block(entries=[Block(entries=[Property(name=x value=List(items=[Phrase(parts=[Quantity(value=1)])]))] kind=step name=S open={)] kind=method name=M open={)',
    );
    expect(codes('runway 22 {\n    length: 3 m\n}')).toEqual(['not-a-header']);
    expect(show(parse('runway 22 {\n    length: 3 m\n}').document.items[0])).toContain('Property(name=length');
  });

  test('what is missing is supplied where it is clear', () => {
    expect(show(parse('runway M {\n    length 2450 m\n}').document.items[0])).toContain(
      'Property(name=length value=List(items=[Phrase(parts=[Quantity(unit=m value=2450)])]))',
    );
    expect(show(parse('require a < 3 because').document.items[0])).toBe(show(parse('require a < 3').document.items[0]));
    expect(show(parse('work W {\n    x: f(1, (2 + 3)\n}').document.items[0])).toBe(
      show(parse('work W {\n    x: f(1, (2 + 3))\n}').document.items[0]),
    );
  });

  test('a broken statement keeps its text, and its comments are not said twice', () => {
    const text = 'work W {\n    x: 3 + /* far */ * 2 // end\n    y: 2\n}';
    const { document } = parse(text);
    expect(show(document.items[0])).toContain('Broken(text=x: 3 + /* far */ * 2)');
    expect(show(document.items[0])).toContain('Property(name=y');
  });
});

describe('what is said', () => {
  test.each([
    ['runway M { length 2450 m }', 'missing-colon', '`length: 2450 …`'],
    ['runway M {\n    length = 2450 m\n}', 'missing-colon', '`length:`'],
    ['runway M {\n    length:\n}', 'missing-value', 'after the colon'],
    ['runway M {\n    length:: 3 m\n}', 'colon-doubled', 'One colon'],
    ['runway M {\n    length\n}', 'missing-colon', '`length: value`'],
    ['runway M {\n    x: 3 +\n}', 'missing-operand', 'after `+`'],
    ['runway M {\n    x: * 3\n}', 'missing-operand', 'before `*`'],
    ['runway M {\n    x: A,, B\n}', 'missing-value', 'comma'],
    ['runway M {\n    x: North.\n}', 'missing-operand', '`North.`'],
    ['runway M {\n    x: a and\n}', 'missing-operand', '`and`'],
    ['runway M {\n    x: (a\n}', 'bracket-not-closed', '`)`'],
    ['runway M {\n    x: a)\n}', 'stray-bracket', '`(`'],
    ['runway M {\n    table: 3\n}', 'reserved-word', '`table`'],
    ['runway M {\n    x: a.or\n}', 'reserved-word', '`or`'],
    ['runway M {\n    a: 1 b: 2\n}', 'unreadable-text', '`b:` starts another property'],
    ['runway M {\n    x: 1\n    + 2\n}', 'operator-at-line-start', 'end of the line before'],
    ['runway M {\n    12 m\n}', 'unreadable-text', 'starts with a word'],
    ['runway M {\n    y: { z: 1 }\n}', 'misplaced-statement', "can't hold a block"],
    ['runway M {\n    { x: 1 }\n}', 'not-a-header', '`kind Name {`'],
    ['runway M Two {\n    x: 1\n}', 'not-a-header', '`Two`'],
    ['broom B like {\n    x: 1\n}', 'missing-name', 'like'],
    ['require', 'missing-condition', 'condition'],
    ['require because "x"', 'missing-condition', 'condition'],
    ['require a < 3 because 4', 'missing-value', 'text in quotes'],
    ['require a < 3 by "x"', 'clause-order', '`waive`'],
    ['waive', 'missing-name', 'waive'],
    ['waive c because "x" on N', 'clause-order', 'on, while, because, by, until'],
    ['waive c until tomorrow', 'missing-value', 'a date'],
    ['use plant', 'missing-value', 'quotes'],
    ['use "x.broom" as', 'missing-name', 'after `as`'],
    ['without A', 'misplaced-statement', 'like'],
    ['work W {\n    use "x.broom"\n}', 'misplaced-statement', 'top of a file'],
    ['work W {\n    waive c\n}', 'misplaced-statement', 'top of a file'],
    ['work W {\n    without\n}', 'missing-name', 'without Step'],
    ['broomline', 'unreadable-text', 'broomline 1'],
  ])('%s', (text, code, words) => {
    const { problems } = parse(text);
    expect(problems.map(one => one.code)).toEqual([code]);
    expect(problems[0]?.message).toContain(words);
  });

  test('no problem ever lists tokens, and each has a place in the text', () => {
    for (const garbage of GARBAGE) {
      for (const text of [garbage, `work W {\n    ${garbage}\n}`, `work W { x: ${garbage} }`]) {
        for (const one of parse(text).problems) {
          expect(SYNTAX_CODES).toContain(one.code);
          expect(one.message).not.toMatch(/token|expecting|NUMBER|STRING|EOF|\bID\b|SEP|UNIT|undefined/);
          expect(one.message).toMatch(/[.`]$/);
          expect(one.offset).toBeGreaterThanOrEqual(0);
          expect(one.end).toBeLessThanOrEqual(text.length);
          expect(one.end).toBeGreaterThanOrEqual(one.offset);
        }
      }
    }
  });

  test('Langium’s own lists stay empty, its diagnostics are ours', async () => {
    const { langiumDocument } = parse('work W {\n    x: 3 +\n    y: Nobody\n}');
    expect(langiumDocument.parseResult.lexerErrors).toEqual([]);
    expect(langiumDocument.parseResult.parserErrors).toEqual([]);
    const diagnostics = await syntax.services.validation.DocumentValidator.validateDocument(langiumDocument);
    expect(diagnostics).toMatchObject([
      { code: 'missing-operand', data: { code: 'missing-operand' }, range: { start: { line: 1, character: 9 } } },
    ]);
  });
});
