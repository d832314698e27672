/** Fixes for findings, fixing all, and rebuilding that keeps the meaning. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { CodeAction, Diagnostic, Range } from 'vscode-languageserver-protocol';
import { type Client, startClient } from './client.ts';
import { exampleFiles, METHOD, PLANT, WRONG } from './examples.ts';

let client: Client;
beforeEach(async () => {
  client = await startClient(exampleFiles());
});
afterEach(() => client.dispose());

async function actions(name: string, needle: string, only?: string[]): Promise<CodeAction[]> {
  const { textDocument, position } = client.at(name, needle);
  const range: Range = { start: position, end: position };
  return client.request('textDocument/codeAction', {
    textDocument,
    range,
    context: { diagnostics: [], ...(only && { only }) },
  });
}

function titled(all: readonly CodeAction[], part: string): CodeAction {
  const found = all.find(each => each.title.includes(part));
  if (!found) throw new Error(`no '${part}' among: ${all.map(each => each.title).join(' | ')}`);
  return found;
}

describe('fixes', () => {
  test('every fix of every finding of the wrong example is offered where the finding stands, and takes it away or changes it', async () => {
    client.open(WRONG);
    const before = await client.diagnostics(WRONG);
    expect(before.length).toBeGreaterThan(30);
    let offered = 0;
    for (const { range, code } of before) {
      const all = await client.request<CodeAction[]>('textDocument/codeAction', {
        textDocument: { uri: client.at(WRONG, 'broomline').textDocument.uri },
        range,
        context: { diagnostics: [], only: ['quickfix'] },
      });
      for (const action of all) {
        expect(action.kind).toBe('quickfix');
        expect(action.edit).toBeDefined();
        expect(action.title).toMatch(/^[A-Z]/);
        expect(action.diagnostics).toHaveLength(1);
      }
      offered += all.filter(each => each.diagnostics?.[0]?.code === code).length;
    }
    expect(offered).toBeGreaterThan(20);
  });

  test('did you mean', async () => {
    client.open(WRONG);
    const fix = titled(await actions(WRONG, 'presu|re-limit', ['quickfix']), 'pressure-limit');
    client.apply(fix.edit);
    expect(client.text(WRONG)).toContain(' pressure-limit: 200 bar');
    expect((await client.diagnostics(WRONG)).map(each => each.message).join()).not.toContain("'presure-limit'");
  });

  test('a unit for a bare number', async () => {
    client.open(WRONG);
    client.apply(titled(await actions(WRONG, 'displaced: 12|0', ['quickfix']), '120 m').edit);
    expect(client.text(WRONG)).toContain('displaced: 120 m ');
  });

  test('all safe ones at once, until none is left', async () => {
    client.open(
      'safe.broom',
      'broomline 1\n\nproduct P {\n  class: \u201Calkaline\u201D\n  rate: 0,1 to 0.4 L/m2\n}\n',
    );
    const before = (await client.diagnostics('safe.broom')).length;
    for (let round = 0; round < 5; round++) {
      const [all] = await actions('safe.broom', 'broomline', ['source.fixAll.broomline']);
      if (!all) break;
      expect(all.kind).toBe('source.fixAll.broomline');
      client.apply(all.edit);
    }
    expect(client.text('safe.broom')).toContain('"alkaline"');
    expect((await client.diagnostics('safe.broom')).length).toBeLessThan(before);
    expect(await actions('safe.broom', 'broomline', ['source.fixAll'])).toEqual([]);
  });

  test('are not mixed into a request for something else', async () => {
    client.open(WRONG);
    expect(await actions(WRONG, 'presu|re-limit', ['refactor.extract'])).toEqual([]);
    expect((await actions(WRONG, 'presu|re-limit')).some(each => each.kind?.startsWith('source'))).toBe(false);
  });
});

describe('waivers', () => {
  test('with blanks do not count until someone fills them in', async () => {
    client.open(WRONG);
    const before = await client.diagnostics(WRONG);
    const waivable = await firstWaivable(before);
    client.apply(waivable.action.edit);
    expect(client.text(WRONG)).toMatch(new RegExp(`waive ${waivable.code}.* because "" by "" until 2031-06-02`));
    const open = await client.diagnostics(WRONG);
    expect(open.map(each => each.code)).toEqual(
      expect.arrayContaining(['waiver-without-reason', 'waiver-without-name']),
    );
    client.edit(
      WRONG,
      client.text(WRONG).replace('because "" by ""', 'because "agreed with the airport" by "R. Ashdown"'),
    );
    const waived = (await client.diagnostics(WRONG)).find(each => each.code === waivable.code && each.severity === 4);
    expect(waived?.message).toMatch(/^Waived by R\. Ashdown until 2031-06-02: agreed with the airport/);
  });

  async function firstWaivable(all: readonly Diagnostic[]): Promise<{ action: CodeAction; code: string }> {
    for (const { range, code } of all) {
      const offered = await client.request<CodeAction[]>('textDocument/codeAction', {
        textDocument: client.at(WRONG, 'broomline').textDocument,
        range,
        context: { diagnostics: [], only: ['quickfix'] },
      });
      const action = offered.find(each => each.title.startsWith('Waive') && each.diagnostics?.[0]?.code === code);
      if (action) return { action, code: String(code) };
    }
    throw new Error('nothing here can be waived');
  }
});

describe('rebuilding', () => {
  test('a value in another unit keeps its meaning', async () => {
    client.open(METHOD);
    const all = await actions(METHOD, 'speed: 11|.3 km/h', ['refactor.rewrite']);
    const mph = titled(all, 'mph');
    expect(mph.title).toMatch(/^Write it as 7\.02\d* mph$/);
    client.apply(mph.edit);
    expect(client.text(METHOD)).toMatch(/speed: 7\.02\d* mph/);
    client.apply(titled(await actions(METHOD, 'speed: 7.0|2', ['refactor.rewrite']), 'km/h').edit);
    expect(client.text(METHOD)).toMatch(/speed: 11\.3 km\/h/);
  });

  test('required properties are filled in, nested ones with the indent of their block', async () => {
    client.open(
      'new.broom',
      'broomline 1\n\nmethod M {\n    family: chemical and brooms\n    step S {\n        does: apply\n    }\n}\n',
    );
    const action = titled(await actions('new.broom', 'step |S', ['refactor.rewrite']), 'required');
    client.apply(action.edit);
    expect(client.text('new.broom')).toMatch(/ {8}does: apply\n {8}by: .+\n {8}speed: .+\n {8}rate: .+\n {4}\}/);
  });

  test('a block without a body gets one', async () => {
    client.open('new.broom', 'broomline 1\n\nconditions Night\n');
    client.apply(titled(await actions('new.broom', 'Ni|ght', ['refactor.rewrite']), 'required').edit);
    expect(client.text('new.broom')).toMatch(/conditions Night \{\n {4}air: .+\n {4}humidity: .+\n {4}wind: .+\n\}/);
  });

  test('a machine moves to a library file, with its comment', async () => {
    client.open(
      'one.broom',
      'broomline 1\n\njob J {\n  title: "x"\n  date: 2031-05-12\n}\n\n// Ours.\nbroom BigBroom {\n  width: 2.4 m\n  angle: 30 °\n}\n',
    );
    const before = (await client.diagnostics('one.broom')).map(each => each.code).sort();
    const action = titled(await actions('one.broom', 'broom Big|Broom', ['refactor.extract']), 'library file');
    client.apply(action.edit);
    expect(client.text('one.broom')).toContain('use "big-broom.broom"');
    expect(client.text('one.broom')).not.toContain('BigBroom');
    expect(client.files.get('big-broom.broom')).toBe(
      'broomline 1\n\n// Ours.\nbroom BigBroom {\n  width: 2.4 m\n  angle: 30 °\n}\n',
    );
    client.open('big-broom.broom');
    const after = (await client.diagnostics('one.broom')).map(each => each.code).sort();
    // Nothing named the machine before, so nothing names the file now.
    expect(after.filter(code => !before.includes(code))).toEqual(['unused-import']);
  });

  test('a block that names what stays behind can’t move, and says why', async () => {
    client.open('one.broom', 'broomline 1\n\nbroom A { width: 2 m }\nbroom B like A\n');
    expect(
      titled(await actions('one.broom', 'broom B| like', ['refactor.extract']), 'library').disabled?.reason,
    ).toContain('it names A');
  });

  test('a parameter with one value is put where it is used', async () => {
    const text =
      'broomline 1\n\nmethod M(a: speed = 6 km/h, b: time) {\n  step S {\n    does: soak\n    at-least: b\n    speed: a\n  }\n}\nwork W {\n  method: M(b: 30 min)\n}\n';
    client.open('inline.broom', text);
    client.apply(titled(await actions('inline.broom', 'M(a|: speed', ['refactor.inline']), 'drop the parameter').edit);
    expect(client.text('inline.broom')).toContain('method M(b: time) {');
    expect(client.text('inline.broom')).toContain('speed: 6 km/h');
    client.apply(titled(await actions('inline.broom', 'M(b|: time', ['refactor.inline']), 'drop the parameter').edit);
    expect(client.text('inline.broom')).toContain('method M {');
    expect(client.text('inline.broom')).toContain('at-least: 30 min');
    expect(client.text('inline.broom')).toContain('method: M\n');
  });

  test('one with several values is not, and says so', async () => {
    client.open(METHOD);
    const action = titled(await actions(METHOD, ' so|ak: time', ['refactor.inline']), 'drop the parameter');
    expect(action.disabled?.reason).toContain('40 min');
  });

  test('nothing is offered in blanks', async () => {
    client.open(PLANT);
    expect(await actions(PLANT, '\n\n|sprayer', ['refactor.rewrite.unit'])).toEqual([]);
  });
});
