/** Completion: what the vocabulary, the visible names and the results offer at a place, and nothing else. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { CompletionItem, CompletionList } from 'vscode-languageserver-protocol';
import { type Client, startClient } from './client.ts';
import { exampleFiles, FIRST, METHOD } from './examples.ts';

let client: Client;
beforeEach(async () => {
  client = await startClient(exampleFiles());
  client.open(FIRST);
});
afterEach(() => client.dispose());

/** Completes at the `|` in a statement that is put in place of `at` (or at the end of the file). */
async function complete(statement: string, at?: string): Promise<CompletionItem[]> {
  const text = client.files.get(FIRST)!;
  const plain = statement.replace('|', '');
  client.edit(FIRST, at === undefined ? `${text}${plain}` : text.replace(at, `${at}${plain}`));
  const start = at === undefined ? text.length : text.indexOf(at) + at.length;
  const offset = start + statement.indexOf('|');
  const { textDocument } = client.at(FIRST, 'broomline');
  const before = client.text(FIRST).slice(0, offset).split('\n');
  const position = { line: before.length - 1, character: before.at(-1)!.length };
  const list = await client.request<CompletionList>('textDocument/completion', { textDocument, position });
  return list.items.toSorted((a, b) => ((a.sortText ?? a.label) < (b.sortText ?? b.label) ? -1 : 1));
}

const labels = (items: readonly CompletionItem[]) => items.map(item => item.label);

describe('statements', () => {
  test('at the top: kinds and statements, nothing nested', async () => {
    const found = labels(await complete('\nwo|'));
    expect(found).toEqual(expect.arrayContaining(['work', 'runway', 'use', 'require', 'waive']));
    expect(found).not.toContain('step');
    expect(found).not.toContain('broomline');
  });
  test('a kind comes with its required properties as blanks', async () => {
    const item = (await complete('\ndep|')).find(each => each.label === 'deposit')!;
    const text = (item.textEdit as { newText: string }).newText;
    expect(text).toMatch(/^deposit \$\{1:Name\} \{\n/);
    expect(text).toContain('on: ');
    expect(text).toContain('stations: ');
  });
  test('in a block: what is missing first, nothing that stands there already', async () => {
    const found = labels(await complete('\n  |', 'build-up: medium'));
    expect(found).toContain('thickness');
    expect(found).not.toContain('on');
    expect(found).not.toContain('stations');
    expect(found).not.toContain('work');
  });
  test('required ones come before the others', async () => {
    const found = await complete('\nclosure Other {\n  |\n}\n');
    const first = found.filter(each => each.detail === 'required');
    expect(first.length).toBeGreaterThan(0);
    expect(labels(found).slice(0, first.length).sort()).toEqual(labels(first).sort());
  });
  test('in a work: the roles of its method', async () => {
    const found = labels(await complete('\nwork Other {\n  method: BroomAndRinse\n  |\n}\n'));
    expect(found.slice(0, 6).sort()).toEqual(['applicator', 'collector', 'removes', 'rinser', 'scrubbers', 'truck']);
  });
  test('in a step: the properties of what it does', async () => {
    const found = labels(await complete('\nmethod M {\n  step Soak {\n    does: soak\n    |\n  }\n}\n'));
    expect(found).toContain('at-least');
    expect(found).not.toContain('pressure');
  });
  test('nested kinds of the parent only', async () => {
    const found = labels(await complete('\nmethod M {\n  |\n}\n'));
    expect(found).toEqual(expect.arrayContaining(['role', 'step', 'build-up']));
    expect(found).not.toContain('end');
  });
  test('nothing in a comment, and nothing unasked for after a blank', async () => {
    expect(await complete('\n// wo|')).toEqual([]);
  });
});

describe('values', () => {
  test('words that are allowed', async () => {
    expect(labels(await complete('\n  pavement: |', 'build-up: medium'))).toEqual([]);
    expect(labels(await complete('\nrunway R {\n  pavement: gr|\n}\n'))).toContain('grooved asphalt');
  });
  test('a word of two parts replaces what stands of it', async () => {
    const item = (await complete('\nrunway R {\n  pavement: grooved as|\n}\n')).find(
      each => each.label === 'grooved asphalt',
    )!;
    const { range } = item.textEdit as { range: { start: { character: number }; end: { character: number } } };
    expect(range.end.character - range.start.character).toBe('grooved as'.length);
  });
  test('units of the right dimension after a number', async () => {
    const found = labels(await complete('\nrunway R {\n  length: 2450 |\n}\n'));
    expect(found.slice(0, 1)).toEqual(['m']);
    expect(found).toContain('ft');
    expect(found).not.toContain('km/h');
    expect(found).not.toContain('L');
  });
  test('units after a number that touches them', async () => {
    const item = (await complete('\nrunway R {\n  crossfall: 1.5|\n}\n'))[0]!;
    expect((item.textEdit as { newText: string }).newText).toMatch(/^ %/);
  });
  test('names of the right kind, with the prefix of their file', async () => {
    const found = labels(await complete('\nwork W {\n  removes: |\n}\n'));
    expect(found).toEqual(['Rubber']);
    expect(labels(await complete('\nwork W {\n  method: |\n}\n'))).toEqual(['BroomAndRinse']);
    expect(labels(await complete('\nwork W {\n  product: |\n}\n'))).toContain('Alkaline');
  });
  test('machines of the role’s kind', async () => {
    const found = labels(await complete('\nwork W {\n  method: BroomAndRinse\n  scrubbers: |\n}\n'));
    expect(found).toContain('District.Broom1');
    expect(found).not.toContain('District.Sprayer1');
  });
  test('members after a dot', async () => {
    const found = labels(await complete('\nwork W {\n  method: BroomAndRinse\n  applicator: District.|\n}\n'));
    expect(found).toContain('Sprayer1');
    expect(found).not.toContain('Broom1');
  });
  test('ends of a runway', async () => {
    expect(labels(await complete('\ndeposit D {\n  on: Main from "|\n}\n'))).toEqual(['04', '22']);
    expect(labels(await complete('\ndeposit D {\n  on: Main |\n}\n'))).toContain('from "22"');
  });
  test('parameters of a method as its arguments', async () => {
    const found = labels(await complete('\nwork W {\n  method: BroomAndRinse(|)\n}\n'));
    expect(found).toEqual(['soak', 'rate', 'rinse']);
    expect(labels(await complete('\nwork W {\n  method: BroomAndRinse(soak: 40 min, |)\n}\n'))).toEqual([
      'rate',
      'rinse',
    ]);
    expect(labels(await complete('\nwork W {\n  method: BroomAndRinse(soak: 40 |)\n}\n'))).toContain('min');
  });
  test('an expression takes parameters of its kind', async () => {
    client.open(METHOD);
    const at = client.at(METHOD, 'at-least: ');
    const { items } = await client.request<CompletionList>('textDocument/completion', at);
    expect(labels(items)).toContain('soak');
    expect(labels(items)).not.toContain('rate');
  });
});

describe('demands and waivers', () => {
  test('computed quantities after a dot, with their values', async () => {
    const found = await complete('\nrequire Removal.|');
    expect(labels(found)).toEqual(expect.arrayContaining(['product', 'water', 'area', 'Agitate']));
    expect(found.find(each => each.label === 'product')!.detail).toMatch(/ L \(/);
  });
  test('those of a step', async () => {
    expect(labels(await complete('\nrequire Removal.Agitate.|'))).toContain('circuits');
  });
  test('units of what a limit is compared with', async () => {
    const found = labels(await complete('\nrequire Removal.product <= 100 |'));
    expect(found).toContain('L');
    expect(found).not.toContain('km/h');
  });
  test('codes after waive, the ones found here first', async () => {
    const found = await complete('\nwaive |');
    expect(found.length).toBeGreaterThan(10);
    expect(found.every(each => /^[a-z-]+$/.test(each.label))).toBe(true);
  });
  test('the clauses that are missing', async () => {
    expect(labels(await complete('\nwaive broom-overlap |'))).toEqual(['on', 'while', 'because', 'by', 'until']);
    expect(labels(await complete('\nwaive broom-overlap because "x" |'))).toEqual(['on', 'while', 'by', 'until']);
  });
});

describe('files and heads', () => {
  test('paths in use, the ones brought in already last', async () => {
    const found = await complete('\nuse "|"');
    expect(labels(found)).toContain('library/soak-then-jet.broom');
    expect(labels(found)).not.toContain(FIRST);
    expect(found.at(-1)!.detail).toBe('brought in already');
  });
  test('blocks of the same kind after like', async () => {
    const found = labels(await complete('\nbroom B like |'));
    expect(found).toContain('District.Broom1');
    expect(found).not.toContain('District.Sprayer1');
  });
  test('kinds of quantity for parameters', async () => {
    expect(labels(await complete('\nmethod M(soak: |'))).toEqual(expect.arrayContaining(['time', 'application rate']));
  });
});

test('what is looked at is explained', async () => {
  const items = await complete('\n  |', 'build-up: medium');
  const item = items.find(each => each.label === 'thickness')!;
  const resolved = await client.request<CompletionItem>('completionItem/resolve', item);
  expect((resolved.documentation as { value: string }).value).toContain('**thickness** of a deposit');
});

test('without snippets in the editor there are none', async () => {
  const plain = await startClient(exampleFiles(), { capabilities: {} });
  plain.open(FIRST, `${client.files.get(FIRST)}\nwo`);
  const { items } = await plain.request<CompletionList>('textDocument/completion', plain.at(FIRST, '\nwo', 1));
  const all = items.map(item => (item.textEdit as { newText: string }).newText);
  expect(all.filter(text => text.includes('$'))).toEqual([]);
  await plain.dispose();
});
