/** The session: errors are answers, one bad file costs that file, settings are checked, nothing is read too early. */

import { describe, expect, test } from 'vitest';
import { type Diagnostic, ErrorCodes, LSPErrorCodes } from 'vscode-languageserver-protocol';
import { CancellationTokenSource } from 'vscode-languageserver-protocol/node';
import { readSettings, settingsSchema } from '../../server/settings.ts';
import { FULL, startClient, uriOf } from './client.ts';
import { AIRPORT, exampleFiles, FIRST, PLANT, TENDER, WRONG } from './examples.ts';

const PULL = { ...FULL, textDocument: { ...FULL.textDocument, diagnostic: {} } };

describe('requests that can’t be answered', () => {
  test('a cancelled one is an error with code −32800', async () => {
    const client = await startClient(exampleFiles());
    client.open(TENDER);
    const source = new CancellationTokenSource();
    const asked = client.connection.sendRequest('textDocument/hover', client.at(TENDER, 'work No|rth'), source.token);
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    // The server is as it was.
    expect(await client.request('textDocument/hover', client.at(TENDER, 'work No|rth'))).not.toBeNull();
    await client.dispose();
  });

  test('one that is cancelled in the middle of long work stops', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 300 }, (_, i) => [`lib/b${i}.broom`, `broomline 1\nbroom B${i} { width: 2.4 m }\n`]),
    );
    const client = await startClient(
      { ...many, 'a.broom': 'broomline 1\nbroom Mine { width: 2 m }\n' },
      { capabilities: PULL, settings: { diagnostics: { scope: 'workspace' } } },
    );
    client.open('a.broom');
    const source = new CancellationTokenSource();
    const asked = client.connection.sendRequest('workspace/diagnostic', { previousResultIds: [] }, source.token);
    await client.request('textDocument/foldingRange', { textDocument: { uri: uriOf('a.broom') } });
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
    expect(client.running.session!.project.analysed).toBeLessThan(300);
    await client.dispose();
  });

  const methods = [
    'hover', 'completion', 'signatureHelp', 'definition', 'references', 'documentHighlight', 'prepareRename', 'rename',
    'codeAction', 'codeLens', 'documentLink', 'documentSymbol', 'foldingRange', 'selectionRange', 'inlayHint', 'formatting',
    'rangeFormatting', 'onTypeFormatting', 'semanticTokens/full', 'semanticTokens/range', 'semanticTokens/full/delta',
    'prepareCallHierarchy', 'prepareTypeHierarchy', 'implementation',
  ].map(each => `textDocument/${each}`); // biome-ignore format: a list

  const aboutWholeFiles = [
    'codeLens',
    'documentLink',
    'documentSymbol',
    'foldingRange',
    'formatting',
    'semanticTokens/full',
    'semanticTokens/full/delta',
  ].map(each => `textDocument/${each}`);

  test.each([
    ['nothing', undefined],
    ['null', null],
    ['a number', 7],
    ['a list', []],
    ['no document', { position: { line: 0, character: 0 } }],
    ['no position or range', { textDocument: { uri: 'file:///airfield/a.broom' } }],
    [
      'a negative line',
      { textDocument: { uri: 'file:///airfield/a.broom' }, position: { line: -1, character: 0 }, range: 3 },
    ],
    ['an address that is none', { textDocument: { uri: '%%%' }, position: { line: 0, character: 0 } }],
    [
      'an address of an unknown kind',
      { textDocument: { uri: 'gopher://x/y.broom' }, position: { line: 0, character: 0 } },
    ],
  ])('parameters that make no sense (%s) are errors, or answers where nothing more is needed', async (_, params) => {
    const client = await startClient({ 'a.broom': 'broomline 1\n' });
    client.open('a.broom');
    for (const method of [
      ...methods,
      'workspace/symbol',
      'workspace/willRenameFiles',
      'callHierarchy/incomingCalls',
      'completionItem/resolve',
      'broomline/derive',
      'broomline/explain',
    ]) {
      const outcome = await client.request(method, params).then(
        () => 'answered',
        (error: { code: number }) => error.code,
      );
      if (outcome === 'answered') expect(aboutWholeFiles, method).toContain(method);
      else
        expect([ErrorCodes.InvalidParams, ErrorCodes.InvalidRequest, ErrorCodes.InternalError], method).toContain(
          outcome,
        );
    }
    expect(await client.request('textDocument/hover', client.at('a.broom', 'broom|line'))).not.toBeNull();
    await client.dispose();
  });

  test('a document that nobody knows', async () => {
    const client = await startClient(exampleFiles());
    for (const method of methods) {
      const params = {
        textDocument: { uri: uriOf('nowhere.broom') },
        position: { line: 0, character: 0 },
        range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      };
      await expect(client.request(method, params), method).rejects.toMatchObject({ code: ErrorCodes.InvalidParams });
    }
    await client.dispose();
  });

  test('notifications that make no sense change nothing', async () => {
    const client = await startClient(exampleFiles());
    client.open(FIRST);
    await client.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: uriOf('x.broom'), version: 3 },
      contentChanges: [{ text: 'x' }],
    });
    await client.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: uriOf(FIRST), version: 3 },
      contentChanges: 'x' as never,
    });
    await client.connection.sendNotification('textDocument/didOpen', {} as never);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: null } as never);
    await client.connection.sendNotification('broomline/nothing', {});
    expect(await client.request('textDocument/hover', client.at(FIRST, 'work Rem|oval'))).not.toBeNull();
    await client.dispose();
  });

  test('positions far outside the text', async () => {
    const client = await startClient(exampleFiles());
    client.open(FIRST);
    for (const method of methods) {
      const far = { line: 100_000, character: 100_000 };
      const params = {
        textDocument: { uri: uriOf(FIRST) },
        position: far,
        range: { start: far, end: far },
        positions: [far],
        context: { diagnostics: [] },
        newName: 'X',
        ch: '}',
        options: {},
      };
      await client.request(method, params).catch(error => expect(error.code, method).toBe(LSPErrorCodes.RequestFailed));
    }
    await client.dispose();
  });
});

describe('files', () => {
  test('one that can’t be read leaves all others working', async () => {
    const client = await startClient({
      ...exampleFiles(),
      [PLANT]: null,
      'absurd.broom': `broomline 1\nwork W { x: ${'('.repeat(5000)} }\n`,
    });
    client.open(FIRST);
    client.open('absurd.broom');
    const found = await client.diagnostics(FIRST);
    expect(found.map(each => each.code)).toContain('import-unreadable');
    expect((await client.diagnostics('absurd.broom')).length).toBeGreaterThan(0);
    expect(await client.request('textDocument/hover', client.at(FIRST, 'work Rem|oval'))).not.toBeNull();
    const all = await client.request<unknown[]>('textDocument/references', {
      ...client.at(FIRST, 'use "tern-sands/air|port'),
      context: { includeDeclaration: true },
    });
    expect(all ?? []).toEqual([]);
    await client.dispose();
  });

  test('one that comes later is found, and one that goes is missed', async () => {
    const { [AIRPORT]: airport, ...rest } = exampleFiles();
    const client = await startClient(rest as Record<string, string>);
    client.open(FIRST);
    expect((await client.diagnostics(FIRST)).map(each => each.code)).toContain('import-missing');
    client.files.set(AIRPORT, airport!);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uriOf(AIRPORT), type: 1 }],
    });
    client.edit(FIRST, client.text(FIRST));
    expect((await client.diagnostics(FIRST)).map(each => each.code)).not.toContain('import-missing');
    client.files.delete(AIRPORT);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uriOf(AIRPORT), type: 3 }],
    });
    client.edit(FIRST, client.text(FIRST));
    expect((await client.diagnostics(FIRST)).map(each => each.code)).toContain('import-missing');
    await client.dispose();
  });

  test('a change in an open library shows in the job at once, without being saved; closing it brings the disk’s text back', async () => {
    const client = await startClient(exampleFiles());
    client.open(FIRST);
    const before = (await client.diagnostics(FIRST)).length;
    client.open(PLANT);
    client.edit(PLANT, client.text(PLANT).replace('sprayer Sprayer1', 'sprayer Other1'));
    client.edit(FIRST, client.text(FIRST));
    expect((await client.diagnostics(FIRST)).map(each => each.code)).toContain('unknown-name');
    client.close(PLANT);
    client.edit(FIRST, client.text(FIRST));
    expect(await client.diagnostics(FIRST)).toHaveLength(before);
    await client.dispose();
  });

  test('nothing is read that nobody asked for: 500 files, one open, its imports read', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 500 }, (_, i) => [`jobs/j${i}.broom`, `broomline 1\nbroom B${i} { width: 2.4 m }\n`]),
    );
    const client = await startClient({ ...exampleFiles(), ...many });
    client.open(FIRST);
    await client.diagnostics(FIRST);
    expect(client.reads.filter(path => path.includes('/jobs/'))).toEqual([]);
    expect(client.running.session!.project.analysed).toBe(1);
    await client.dispose();
  });
});

describe('diagnostics', () => {
  test('have code, source, range, related places and, where an editor can open it, the page of the check', async () => {
    const client = await startClient(exampleFiles());
    client.open(WRONG);
    const found = await client.diagnostics(WRONG);
    for (const each of found) {
      expect(each.source).toBe('broomline');
      expect(String(each.code)).toMatch(/^[a-z-]+$/);
      expect(each.message).toMatch(/[.?!`"]$/);
    }
    const linked = found.filter(each => each.codeDescription);
    expect(linked.length).toBeGreaterThan(10);
    const page = await client.request<{ text: string }>('workspace/textDocumentContent', {
      uri: linked[0]!.codeDescription!.href,
    });
    expect(page.text).toContain(`\`${linked[0]!.code}\``);
    expect(found.some(each => each.relatedInformation?.length)).toBe(true);
    expect(found.some(each => each.tags?.includes(1))).toBe(true);
    await expect(
      client.request('workspace/textDocumentContent', { uri: 'broomline-check:/no-such.md' }),
    ).rejects.toThrow('no page');
    await client.dispose();
  });

  test('are the same pulled and pushed; a pull that finds nothing new says so', async () => {
    const pushed = await startClient(exampleFiles());
    const pulled = await startClient(exampleFiles(), { capabilities: PULL });
    for (const client of [pushed, pulled]) client.open(WRONG);
    const items = await pulled.diagnostics(WRONG);
    expect(items).toEqual(await pushed.diagnostics(WRONG));
    expect(pulled.published).toEqual([]);
    const ask = (previousResultId?: string) =>
      pulled.request<{ kind: string; resultId: string }>('textDocument/diagnostic', {
        textDocument: { uri: uriOf(WRONG) },
        previousResultId,
      });
    const first = await ask();
    expect(await ask(first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });
    pulled.edit(WRONG, `${pulled.text(WRONG)}\nbroom X { width: 3 }\n`);
    expect((await ask(first.resultId)).kind).toBe('full');
    await pushed.dispose();
    await pulled.dispose();
  });

  test('of the workspace: open files by default, all files by a setting, only what changed the second time', async () => {
    const some = await startClient(exampleFiles(), { capabilities: PULL });
    some.open(WRONG);
    const open = await some.request<{ items: { uri: string }[] }>('workspace/diagnostic', { previousResultIds: [] });
    expect(open.items.map(each => each.uri)).toEqual([uriOf(WRONG)]);
    await some.dispose();
    const all = await startClient(exampleFiles(), {
      capabilities: PULL,
      settings: { diagnostics: { scope: 'workspace' } },
    });
    const first = await all.request<{ items: { uri: string; resultId: string; items: Diagnostic[] }[] }>(
      'workspace/diagnostic',
      { previousResultIds: [] },
    );
    expect(first.items).toHaveLength(Object.keys(exampleFiles()).length);
    const again = await all.request<{ items: { kind: string }[] }>('workspace/diagnostic', {
      previousResultIds: first.items.map(({ uri, resultId }) => ({ uri, value: resultId })),
    });
    expect(again.items.every(each => each.kind === 'unchanged')).toBe(true);
    await all.dispose();
  });

  test('never go back to an older text while someone types', async () => {
    const client = await startClient(exampleFiles());
    client.open(FIRST);
    for (let i = 0; i < 20; i++) client.edit(FIRST, `${client.files.get(FIRST)}\n// ${'x'.repeat(i)}\n`);
    await client.diagnostics(FIRST);
    const versions = client.published.map(each => each.version!);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(versions.at(-1)).toBe(21);
    await client.dispose();
  });

  test('of a closed file are taken back', async () => {
    const client = await startClient(exampleFiles());
    client.open(WRONG);
    await client.diagnostics(WRONG);
    client.close(WRONG);
    client.open(FIRST);
    await client.diagnostics(FIRST);
    expect(client.published.filter(each => each.uri === uriOf(WRONG)).at(-1)!.diagnostics).toEqual([]);
    await client.dispose();
  });
});

describe('settings', () => {
  test('every one has a default and a description', () => {
    expect(readSettings(undefined).problems).toEqual([]);
    expect(JSON.stringify(settingsSchema.toJSONSchema({ io: 'input' }))).toContain('description');
  });
  test('what is wrong falls back by itself and is named; the rest counts', () => {
    const { settings, problems } = readSettings({
      units: 'furlongs',
      hints: { enabled: false, otherUnits: 3 },
      budgets: { files: -1 },
    });
    expect(settings).toMatchObject({
      units: 'job',
      hints: { enabled: false, otherUnits: false },
      budgets: { files: 5000 },
    });
    expect(problems.map(each => each.split(':')[0])).toEqual([
      'broomline.units',
      'broomline.hints.otherUnits',
      'broomline.budgets.files',
    ]);
    expect(readSettings('nonsense').settings).toEqual(readSettings({}).settings);
  });
  test('changes reach the session; wrong ones are logged', async () => {
    const client = await startClient(exampleFiles());
    client.open(FIRST);
    await client.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { broomline: { units: 'US customary', asOf: 'tomorrow' } },
    });
    await client.diagnostics(FIRST);
    await client.request('textDocument/foldingRange', { textDocument: { uri: uriOf(FIRST) } });
    expect(client.running.session!.settings.units).toBe('US customary');
    expect(client.logged.join()).toContain('broomline.asOf');
    await client.dispose();
  });
  test('the date for waivers is judged by the setting', async () => {
    const text =
      'broomline 1\njob J { title: "x", date: 2031-01-01 }\nwaive broom-overlap because "x" by "y" until 2031-06-01\n';
    const codes = async (asOf: string) => {
      const client = await startClient({ 'a.broom': text }, { settings: { asOf } });
      client.open('a.broom');
      const found = (await client.diagnostics('a.broom')).map(each => each.code);
      await client.dispose();
      return found;
    };
    expect(await codes('2031-05-01')).toEqual(expect.arrayContaining(['waiver-without-effect']));
  });
});

test('a schedule that takes longer is searched for in the background, and who showed it is told', async () => {
  const client = await startClient(exampleFiles(), { capabilities: { ...FULL, experimental: { broomline: {} } } });
  const improved = new Promise<{ uri: string; version: number }>(resolve =>
    client.connection.onNotification('broomline/improved', resolve),
  );
  client.open(TENDER);
  await client.diagnostics(TENDER);
  const { project } = client.running.session!;
  const document = (await project.ready(uriOf(TENDER)))!;
  // Only a job that is not done at once is told of; a harder one is needed here if this one is some day.
  expect(await improved).toEqual({ uri: uriOf(TENDER), version: 1 });
  expect(project.analysisOf(document)?.further).toBeUndefined();
  await client.dispose();
}, 120_000);

describe('our own requests', () => {
  test('what was computed, with the version it belongs to', async () => {
    const client = await startClient(exampleFiles());
    client.open(TENDER);
    client.edit(TENDER, client.text(TENDER));
    const { version, derived } = await client.request<{ version: number; derived: { quantities: { path: string }[] } }>(
      'broomline/derive',
      { uri: uriOf(TENDER) },
    );
    expect(version).toBe(2);
    expect(derived.quantities.map(each => each.path)).toContain('North.product');
    const closed = await client.request<{ version: number | null }>('broomline/derive', { uri: uriOf(FIRST) });
    expect(closed.version).toBeNull();
    await client.dispose();
  });
  test('where a number comes from', async () => {
    const client = await startClient(exampleFiles());
    client.open(TENDER);
    const { explained, text } = await client.request<{ explained: { inputs: unknown[]; shown: string }; text: string }>(
      'broomline/explain',
      { uri: uriOf(TENDER), path: 'North.product', units: 'us' },
    );
    expect(explained.shown).toContain('gal');
    expect(explained.inputs.length).toBeGreaterThan(0);
    expect(text).toContain('North.product');
    await expect(client.request('broomline/explain', { uri: uriOf(TENDER), path: 'North.nothing' })).rejects.toThrow(
      'not computed',
    );
    const { markdown } = await client.request<{ markdown: string }>('broomline/checkPage', { code: 'fan-too-narrow' });
    expect(markdown).toContain('Why it matters');
    const { blocks } = await client.request<{ blocks: { path: string }[] }>('broomline/blocks', { uri: uriOf(TENDER) });
    expect(blocks.map(each => each.path)).toContain('North');
    await client.dispose();
  });
});
