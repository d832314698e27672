/** What an editor shows of a file's structure: outline, folds, selections, colours, links, hints, lenses, layout. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type {
  CodeLens,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  InlayHint,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
  TextEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { TOKEN_TYPES } from '../../server/features/semanticTokens.ts';
import { type Client, startClient, uriOf } from './client.ts';
import { exampleFiles, FIRST, METHOD, PLANT, TENDER } from './examples.ts';

let client: Client;
beforeAll(async () => {
  client = await startClient(exampleFiles());
  for (const name of [TENDER, METHOD, PLANT, FIRST]) client.open(name);
});
afterAll(() => client.dispose());

const of = (name: string) => ({ textDocument: { uri: uriOf(name) } });

describe('symbols', () => {
  test('the outline has the job’s structure, with what is computed', async () => {
    const tree = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', of(TENDER));
    const north = tree.find(each => each.name === 'North')!;
    expect(north.detail).toMatch(/^work, product \d/);
    expect(tree.map(each => each.name)).toEqual(
      expect.arrayContaining(['TernSands2031', 'Touchdown04', '../library/products.broom']),
    );
    expect(tree.some(each => each.name.startsWith('require North.product'))).toBe(true);
  });
  test('nested blocks and parameters are children; every name lies in its block', async () => {
    const [method] = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', of(METHOD));
    expect(method!.children!.map(each => each.name)).toEqual(
      expect.arrayContaining(['soak', 'applicator', 'Agitate', 'heavy']),
    );
    const inside = (outer: DocumentSymbol): void => {
      for (const child of outer.children ?? []) {
        expect(child.range.start.line).toBeGreaterThanOrEqual(outer.range.start.line);
        expect(child.range.end.line).toBeLessThanOrEqual(outer.range.end.line);
        inside(child);
      }
    };
    inside(method!);
  });
  test('names of the workspace, in files nobody has opened', async () => {
    const found = await client.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'sprayx1' });
    expect(found).toEqual([]);
    const sprayers = await client.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'spray1' });
    expect(sprayers.map(each => each.name)).toContain('Sprayer1');
    const all = await client.request<WorkspaceSymbol[]>('workspace/symbol', { query: '' });
    for (const { name, location } of all) {
      const { uri, range } = location as {
        uri: string;
        range: { start: { line: number; character: number }; end: { character: number } };
      };
      const line = client.files.get(uri.replace('file:///airfield/', ''))!.split('\n')[range.start.line]!;
      expect(line.slice(range.start.character, range.end.character)).toContain(name);
    }
    expect(all.some(each => each.name === 'Agitate' && each.containerName?.startsWith('BroomAndRinse'))).toBe(true);
  });
});

test('folds: blocks leave their closing brace in sight; imports, comments and tables fold', async () => {
  const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', of(TENDER));
  const lines = client.text(TENDER).split('\n');
  for (const { startLine, endLine, kind } of folds) {
    expect(endLine).toBeGreaterThan(startLine);
    if (kind === undefined && lines[startLine]!.endsWith('{')) expect(lines[endLine + 1]!.trim()).toBe('}');
  }
  expect(folds.map(each => each.kind)).toEqual(expect.arrayContaining(['imports', 'comment']));
  expect(folds.some(each => lines[each.startLine]!.includes('table chainage'))).toBe(true);
});

test('a selection grows from the word to the file, each within the next', async () => {
  const at = client.at(TENDER, 'District.Spray|er1');
  const [range] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
    textDocument: at.textDocument,
    positions: [at.position],
  });
  const document = TextDocument.create('', '', 0, client.text(TENDER));
  const texts: string[] = [];
  for (let each: SelectionRange | undefined = range; each; each = each.parent) texts.push(document.getText(each.range));
  expect(texts).toContain('Sprayer1');
  expect(texts).toContain('applicator: District.Sprayer1');
  expect(texts.at(-1)).toBe(client.text(TENDER));
  for (let i = 1; i < texts.length; i++) expect(texts[i]!.length).toBeGreaterThan(texts[i - 1]!.length);
  expect(texts.some(text => text.startsWith('work North {') && text.endsWith('}'))).toBe(true);
});

describe('colours', () => {
  interface Token {
    readonly text: string;
    readonly type: string;
  }
  function decode(name: string, data: readonly number[]): Token[] {
    const lines = client.text(name).split('\n');
    const tokens: Token[] = [];
    let [line, character] = [0, 0];
    for (let i = 0; i < data.length; i += 5) {
      if (data[i]! > 0) character = 0;
      line += data[i]!;
      character += data[i + 1]!;
      tokens.push({ text: lines[line]!.slice(character, character + data[i + 2]!), type: TOKEN_TYPES[data[i + 3]!]! });
    }
    return tokens;
  }
  test('what a word is', async () => {
    const { data } = await client.request<SemanticTokens>('textDocument/semanticTokens/full', of(TENDER));
    const types = new Map(decode(TENDER, data).map(each => [each.text, each.type]));
    expect(types.get('work')).toBe('keyword');
    expect(types.get('South')).toBe('variable');
    expect(types.get('BroomAndRinse')).toBe('method');
    expect(types.get('soak')).toBe('parameter');
    expect(types.get('heavy')).toBe('enumMember');
    expect(types.get('runoff')).toBe('property');
    expect(types.get('L/m2')).toBe('type');
    expect(types.get('applicator')).toBe('parameter');
  });
  test('a difference leads to the same as the whole', async () => {
    const before = await client.request<SemanticTokens>('textDocument/semanticTokens/full', of(FIRST));
    client.edit(FIRST, client.text(FIRST).replace('conditions {', 'conditions Night {'));
    const delta = await client.request<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
      ...of(FIRST),
      previousResultId: before.resultId,
    });
    const data = [...before.data];
    for (const edit of delta.edits.toReversed()) data.splice(edit.start, edit.deleteCount, ...(edit.data ?? []));
    const now = await client.request<SemanticTokens>('textDocument/semanticTokens/full', of(FIRST));
    expect(data).toEqual(now.data);
    expect(now.data).not.toEqual(before.data);
  });
  test('of a range are those of the whole that lie in it', async () => {
    const range = { start: { line: 10, character: 0 }, end: { line: 20, character: 0 } };
    const part = await client.request<SemanticTokens>('textDocument/semanticTokens/range', { ...of(TENDER), range });
    const whole = await client.request<SemanticTokens>('textDocument/semanticTokens/full', of(TENDER));
    const texts = (data: readonly number[]) => decode(TENDER, data).map(each => each.text);
    expect(part.data.length).toBeGreaterThan(0);
    expect(part.data.length).toBeLessThan(whole.data.length);
    expect(texts(whole.data).join(' ')).toContain(texts(part.data).join(' '));
  });
});

test('links lead to the files that are brought in', async () => {
  const links = await client.request<DocumentLink[]>('textDocument/documentLink', of(TENDER));
  expect(links.map(each => each.target)).toContain(uriOf(PLANT));
  const document = TextDocument.create('', '', 0, client.text(TENDER));
  expect(links.map(each => document.getText(each.range))).toContain('../library/district-plant.broom');
});

describe('hints', () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 10_000, character: 0 } };
  test('key quantities stand behind the lines that bring them about', async () => {
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { ...of(TENDER), range });
    const lines = client.text(TENDER).split('\n');
    const area = hints.find(
      each => String(each.label).startsWith('area') && lines[each.position.line]!.includes('table chainage'),
    )!;
    expect(String(area.label)).toMatch(/^area [\d ]+ m²$/);
    expect(area.position.character).toBe(lines[area.position.line]!.length);
    expect((area.tooltip as { value: string }).value).toContain('**');
  });
  test('only those of the range', async () => {
    const all = await client.request<InlayHint[]>('textDocument/inlayHint', { ...of(TENDER), range });
    const { line } = all[0]!.position;
    const some = await client.request<InlayHint[]>('textDocument/inlayHint', {
      ...of(TENDER),
      range: { start: { line, character: 0 }, end: { line, character: 99 } },
    });
    expect(some.length).toBeLessThan(all.length);
  });
  test('can be turned off, and other units on', async () => {
    const other = await startClient(exampleFiles(), { settings: { hints: { enabled: false, otherUnits: true } } });
    other.open(PLANT);
    const hints = await other.request<InlayHint[]>('textDocument/inlayHint', { ...of(PLANT), range });
    expect(hints.map(each => String(each.label))).toEqual(expect.arrayContaining([expect.stringMatching(/ft|in/)]));
    expect(hints.map(each => String(each.label)).join()).not.toContain('swept');
    await other.dispose();
  });
});

describe('lenses', () => {
  test('say what a block comes to, and how often it is used', async () => {
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', of(TENDER));
    const titles = lenses.flatMap(each => each.command?.title ?? []);
    expect(
      titles.some(title => /m² · \d bays? · .*product · .*water · .*least dwell/.test(title)),
      titles.join('\n'),
    ).toBe(true);
    expect(
      titles.some(title => /^\d+ closures? · /.test(title)),
      titles.join('\n'),
    ).toBe(true);
    const resolved = await Promise.all(
      lenses.filter(each => each.data).map(each => client.request<CodeLens>('codeLens/resolve', each)),
    );
    expect(resolved.every(each => /^(not used|used (once|\d+ times))$/.test(each.command!.title))).toBe(true);
    expect(resolved.some(each => each.command!.title === 'used once' || each.command!.title === 'used 2 times')).toBe(
      true,
    );
  });
});

describe('signature help', () => {
  const help = async (written: string) => {
    const name = 'call.broom';
    client.open(name, `broomline 1\nuse "${METHOD}"\nwork W {\n    method: ${written.replace('|', '')}\n}\n`);
    const { textDocument, position } = client.at(name, `method: ${written}`);
    return client.request<SignatureHelp | null>('textDocument/signatureHelp', { textDocument, position });
  };
  test('the parameters with types and defaults, the next one marked', async () => {
    const found = (await help('BroomAndRinse(|)'))!;
    expect(found.signatures[0]!.label).toBe(
      'BroomAndRinse(soak: time = 35 min, rate: application rate = 0.35 L/m2, rinse: application rate = 3 L/m2)',
    );
    expect(found.activeParameter).toBe(0);
    expect((await help('BroomAndRinse(soak: 40 min, |)'))!.activeParameter).toBe(1);
    expect((await help('BroomAndRinse(rinse: |)'))!.activeParameter).toBe(2);
  });
  test('none outside a call', async () => {
    expect(await help('BroomAndRinse|')).toBeNull();
  });
  test('functions have one too', async () => {
    expect((await help('ceil(3.2, |)'))!.signatures[0]!.label).toContain('ceil(value, step)');
  });
});

describe('layout', () => {
  const MESSY =
    'broomline 1\n\nrunway Main {\nlength: 2450 m\n   width:45 m // narrow\n  pavement:   grooved asphalt\n}\n\nbroom B {\nwidth:2.4 m\n}\n';
  const format = async (name: string, method: string, params: object) => {
    const edits = await client.request<TextEdit[]>(method, {
      ...of(name),
      options: { tabSize: 4, insertSpaces: true },
      ...params,
    });
    return TextDocument.applyEdits(TextDocument.create('', '', 0, client.text(name)), edits);
  };
  test('of a file: idempotent, comments kept', async () => {
    client.open('messy.broom', MESSY);
    const once = await format('messy.broom', 'textDocument/formatting', {});
    expect(once).toContain('// narrow');
    expect(once).not.toBe(MESSY);
    client.edit('messy.broom', once);
    expect(await format('messy.broom', 'textDocument/formatting', {})).toBe(once);
  });
  test('of a range leaves the rest alone', async () => {
    client.open('range.broom', MESSY);
    const part = await format('range.broom', 'textDocument/rangeFormatting', {
      range: { start: { line: 8, character: 0 }, end: { line: 10, character: 1 } },
    });
    expect(part).toContain('runway Main {\nlength: 2450 m\n   width:45 m');
    expect(part).toMatch(/broom B \{\n {4}width: +2\.4 m\n\}/);
  });
  test('of a block when its brace is typed', async () => {
    client.open('typed.broom', MESSY);
    const done = await format('typed.broom', 'textDocument/onTypeFormatting', {
      position: { line: 10, character: 1 },
      ch: '}',
    });
    expect(done).toMatch(/broom B \{\n {4}width: +2\.4 m\n\}/);
    expect(done).toContain('length: 2450 m\n   width:45 m');
  });
  test('of what was written when a line is ended, and not of the line that begins', async () => {
    const text = 'broomline 1\n\nbroom B {\n    width:2.4 m\n    \n}\n';
    client.open('line.broom', text);
    const done = await format('line.broom', 'textDocument/onTypeFormatting', {
      position: { line: 4, character: 4 },
      ch: '\n',
    });
    expect(done).toMatch(/^broomline 1\n\nbroom B \{\n {4}width: +2\.4 m\n {4}\n\}\n$/);
  });
});
