/** Parsing after a change is parsing the whole text: the same tree at the same places, with the same problems. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { type AstNode, AstUtils, type CompositeCstNode, type CstNode, type LangiumDocument } from 'langium';
import { describe, expect, test } from 'vitest';
import { type Document, isProperty } from '../../language/generated/ast.ts';
import { createSyntax, problemsOf } from '../../language/grammar/services.ts';
import type { BroomDocumentFactory } from '../../language/grammar/workspace.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { show } from '../unit/grammar/helpers.ts';

const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });
const factory = syntax.shared.workspace.LangiumDocumentFactory as BroomDocumentFactory;

const folder = fileURLToPath(new URL('../../examples', import.meta.url));
const examples = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.broom'))
  .sort()
  .map(name => readFileSync(join(folder, name), 'utf8'));

/** Everything that can be seen of a document: tree, places of all its nodes and tokens, problems, meanings of names. */
function seen(document: LangiumDocument<Document>) {
  const root = document.parseResult.value;
  const nodes: unknown[] = [];
  for (const node of AstUtils.streamAst(root)) {
    const { $type, $containerIndex, $containerProperty, $cstNode: cst } = node;
    nodes.push([$type, $containerIndex, $containerProperty, cst?.offset, cst?.end, cst?.range, cst?.text]);
  }
  const tokens: unknown[] = [];
  const visit = (node: CstNode): void => {
    if ('content' in node) (node as CompositeCstNode).content.forEach(visit);
    else {
      // Comments belong to what holds them; every other token to a node of this very tree.
      const own = node.hidden ? undefined : node.astNode;
      const at = own && [own.$type, own.$cstNode?.offset, AstUtils.findRootNode(own) === root];
      tokens.push([node.offset, node.end, node.range, node.hidden, node.text, at]);
    }
  };
  visit(root.$cstNode!);
  const containers = AstUtils.streamAllContents(root).every(node => AstUtils.findRootNode(node) === (root as AstNode));
  const homes = tokens.length === 0 || AstUtils.getDocument(root) === document;
  return {
    shown: show(root),
    nodes,
    tokens,
    problems: problemsOf(document),
    containers,
    homes,
    text: root.$cstNode!.root.fullText,
  };
}

const document = (text: string) => syntax.parseText(text).langiumDocument;

/** What people type, and what breaks a text in odd ways. */
const SNIPPETS = [
  ' ',
  '\n',
  '\r\n',
  '5',
  '.',
  ',',
  ':',
  '}',
  '{',
  '}\n',
  ' {\n',
  '(',
  ')',
  '"',
  '/*',
  '*/',
  '// note\n',
  '\ndeposit Extra {\n    on: "04"\n}\n',
  '\nrunway ',
  '\nwork Late {\n',
  'work',
  '\nuse "x.broom"\n',
  '\nrequire Job.closures <= 3 because "so"\n',
  '\nwaive a-check on North because "so" by "me" until 2027-01-01\n',
  '  length: 3 m\n',
  '    length 3 m\n',
  'table a m, b m\n 1 2\n 3 4\n',
  '§',
  '−',
  'method W(a: time = 3 min) {\n}\n',
  'like ',
  'end "04" {',
];

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  removed: fc.oneof(fc.constant(0), fc.nat(3), fc.nat(60), fc.nat(600)),
  added: fc.oneof(fc.constantFrom(...SNIPPETS), fc.constant(''), fc.string({ maxLength: 6 })),
});

/** Slips and second thoughts inside one line, most of them in a value. */
const inLine = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  by: fc.constantFrom('colon', 'end', 'digit', 'anywhere'),
  removed: fc.constantFrom(0, 0, 0, 1, 1, 2, 3),
  added: fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom('1', '0', '2.5', ' ', 'x', '') },
    fc.constantFrom(
      ' m',
      'km',
      '%',
      ' and',
      ' not',
      'table',
      ' table a',
      'a: 3',
      '/',
      '//',
      '/*',
      ',',
      ' or',
      '+',
      '"',
      '(',
    ),
    fc.string({ maxLength: 4 }),
  ),
});

/** Where such a change begins: in a line that is picked by a share of the text, at the place that is named. */
function placeInLine(text: string, at: number, by: string): number {
  const from = text.lastIndexOf('\n', Math.floor(at * text.length)) + 1;
  const end = text.indexOf('\n', from);
  const line = text.slice(from, end < 0 ? text.length : end);
  switch (by) {
    case 'colon':
      return from + Math.max(0, line.indexOf(':') + 2);
    case 'end':
      return from + line.length;
    case 'digit':
      return from + Math.max(0, line.search(/\d/) + 1);
    default:
      return from + Math.floor(((at * text.length) % 1) * line.length);
  }
}

/** All properties of a document. */
const linesOf = (of: LangiumDocument<Document>): readonly AstNode[] =>
  AstUtils.streamAst(of.parseResult.value).filter(isProperty).toArray();

describe('a text after changes', () => {
  test('has the tree that it has when it is parsed as a whole', () => {
    let reused = 0;
    fc.assert(
      fc.property(fc.constantFrom(...examples), fc.array(edit, { minLength: 1, maxLength: 6 }), (start, edits) => {
        let text = start;
        let now = document(text);
        for (const { at, removed, added } of edits) {
          const from = Math.floor(at * text.length);
          text = text.slice(0, from) + added + text.slice(from + removed);
          const before = new Set<AstNode>(now.parseResult.value.items);
          now = factory.fromChange(now, text);
          if (now.parseResult.value.items.some(item => before.has(item))) reused++;
          expect(seen(now)).toEqual(seen(document(text)));
        }
      }),
      { numRuns: 400 },
    );
    // A reparse that never kept anything would pass as well.
    expect(reused).toBeGreaterThan(300);
  }, 300_000);

  test('within a line has the tree that it has when it is parsed as a whole', () => {
    let kept = 0;
    fc.assert(
      fc.property(fc.constantFrom(...examples), fc.array(inLine, { minLength: 1, maxLength: 8 }), (start, edits) => {
        let text = start;
        let now = document(text);
        for (const { at, by, removed, added } of edits) {
          const from = placeInLine(text, at, by);
          text = text.slice(0, from) + added + text.slice(from + removed);
          const lines = new Set(linesOf(now));
          now = factory.fromChange(now, text);
          const after = linesOf(now);
          if (after.length === lines.size && after.filter(each => !lines.has(each)).length === 1) kept++;
          expect(seen(now)).toEqual(seen(document(text)));
        }
      }),
      { numRuns: 400 },
    );
    // Otherwise no line was ever read by itself.
    expect(kept).toBeGreaterThan(200);
  }, 300_000);

  test('keeps the blocks that did not change', () => {
    const text = examples.find(each => each.includes('deposit') && each.length > 5000)!;
    const before = document(text);
    const items = [...before.parseResult.value.items];
    const at = text.lastIndexOf('}');
    const after = factory.fromChange(before, `${text.slice(0, at)}\n${text.slice(at)}`);
    const kept = after.parseResult.value.items.filter(item => items.includes(item));
    expect(kept.length).toBeGreaterThanOrEqual(items.length - 3);
  });
});
