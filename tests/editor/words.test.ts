/** What the server itself writes, in another language than English: a table that comes with `initialize` words it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, CodeLens, CompletionItem, CompletionList, Hover } from 'vscode-languageserver-protocol';
import { type Client, startClient, uriOf } from './client.ts';

const english = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../extension/l10n/bundle.l10n.json'), 'utf8'),
) as Record<string, string>;
/** A language in which every text stands in brackets, and is otherwise as it was. */
const words = Object.fromEntries(Object.keys(english).map(text => [text, `⟦${text}⟧`]));

const JOB = `broomline 1

runway Main {
    length: 2450 m
    width: 45 m
    pavement: asphalt
    end "04"
    end "22"
}

deposit Near {
    on: Main from "04"
    stations: table chainage m, left m, right m
        150  8  8
        300  8  8
    build-up: haevy
}
`;

/** With a block that has just been begun. */
const BEGUN = `${JOB}\nrunway Other {\n    \n}\n`;

describe('with a table', () => {
  let client: Client;
  beforeAll(async () => {
    client = await startClient({ 'job.broom': JOB }, { words });
    client.open('job.broom');
    await client.diagnostics('job.broom');
  });
  afterAll(() => client.dispose());

  test('completion says what must be given', async () => {
    client.edit('job.broom', BEGUN);
    const { items } = await client.request<CompletionList>(
      'textDocument/completion',
      client.at('job.broom', 'runway Other {\n    |'),
    );
    const details = items.map(each => each.detail);
    expect(details).toContain('⟦required⟧');
    const item = items.find(each => each.label === 'pavement')!;
    const resolved = await client.request<CompletionItem>('completionItem/resolve', item);
    expect(textOf(resolved.documentation)).toMatch(/⟦Takes .*\.⟧/);
    client.edit('job.broom', JOB);
  });

  test('hovers keep what the language says, and word the rest', async () => {
    const hover = await client.request<Hover>('textDocument/hover', client.at('job.broom', 'len|gth'));
    expect(textOf(hover.contents)).toMatch(/⟦\*\*length\*\* of a runway⟧\n\nLength of the pavement/);
    const version = await client.request<Hover>('textDocument/hover', client.at('job.broom', 'broom|line'));
    expect(textOf(version.contents)).toMatch(/^\*\*broomline 1\*\*\n\n⟦The version/);
  });

  test('lenses, actions and refusals', async () => {
    const textDocument = { uri: uriOf('job.broom') };
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument });
    expect(lenses.flatMap(each => each.command?.title ?? [])).toContainEqual(expect.stringMatching(/⟦150 m long⟧/));
    const counted = lenses.find(each => each.command === undefined)!;
    const resolved = await client.request<CodeLens>('codeLens/resolve', counted);
    expect(resolved.command?.title).toBe('⟦used once⟧');
    const at = client.at('job.broom', '2450| m').position;
    const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument,
      range: { start: at, end: at },
      context: { diagnostics: [], only: ['refactor.rewrite'] },
    });
    expect(actions.map(each => each.title)).toContainEqual(expect.stringMatching(/^⟦Write it as .* ft⟧$/));
    await expect(client.request('textDocument/prepareRename', client.at('job.broom', 'len|gth'))).rejects.toThrow(
      '⟦Only',
    );
  });

  test('findings stay English, as the language is', async () => {
    const found = await client.diagnostics('job.broom');
    expect(found.length).toBeGreaterThan(0);
    for (const { message } of found) expect(message).not.toContain('⟦');
  });
});

test.each([[undefined], [null], ['nonsense'], [{ required: 7 }], [{ toString: 'x' }]])(
  'without a table that can be used (%j) all is English',
  async given => {
    const client = await startClient({ 'job.broom': JOB }, { words: given });
    client.open('job.broom', BEGUN);
    const { items } = await client.request<CompletionList>(
      'textDocument/completion',
      client.at('job.broom', 'runway Other {\n    |'),
    );
    expect(items.map(each => each.detail)).toContain('required');
    await client.dispose();
  },
);

function textOf(contents: unknown): string {
  return typeof contents === 'string' ? contents : String((contents as { value?: string } | undefined)?.value);
}
