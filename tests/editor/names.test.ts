/** Names across files: where they are declared, where they are used, and changing them everywhere. */

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
  DocumentHighlight,
  Location,
  TypeHierarchyItem,
  WorkspaceEdit,
} from 'vscode-languageserver-protocol';
import { type Client, startClient, uriOf } from './client.ts';
import { AIRPORT, exampleFiles, FIRST, METHOD, PLANT, TENDER } from './examples.ts';

let client: Client;
beforeEach(async () => {
  client = await startClient(exampleFiles());
  client.open(TENDER);
});
afterEach(() => client.dispose());

/** What stands at a location: file and text. */
function said({ uri, range }: Location): string {
  const name = uri.replace('file:///airfield/', '');
  const lines = client.files.get(name)!.split('\n');
  return `${name}: ${lines[range.start.line]!.slice(range.start.character, range.end.character)}`;
}

async function definition(needle: string, name = TENDER): Promise<string[]> {
  return ((await client.request<Location[] | null>('textDocument/definition', client.at(name, needle))) ?? []).map(
    said,
  );
}

async function references(needle: string, name = TENDER, includeDeclaration = true): Promise<Location[]> {
  return (
    (await client.request<Location[] | null>('textDocument/references', {
      ...client.at(name, needle),
      context: { includeDeclaration },
    })) ?? []
  );
}

describe('definition', () => {
  test('of a block of the same file', async () => {
    expect(await definition('removes: Touch|down22')).toEqual([`${TENDER}: Touchdown22`]);
  });
  test('of a block of a library, with and without prefix', async () => {
    expect(await definition('District.Spray|er1')).toEqual([`${PLANT}: Sprayer1`]);
    expect(await definition('method: Broom|AndRinse(rate')).toEqual([`${METHOD}: BroomAndRinse`]);
    expect(await definition('on: Ma|in from "04"')).toEqual([`${AIRPORT}: Main`]);
  });
  test('of a prefix, of a parameter, of a role', async () => {
    expect(await definition('applicator: Dist|rict')).toEqual([`${TENDER}: District`]);
    expect(await definition('BroomAndRinse(ra|te')).toEqual([`${METHOD}: rate`]);
    expect(await definition(' appli|cator:')).toEqual([`${METHOD}: applicator`]);
  });
  test('of a file that is brought in', async () => {
    const found = await client.request<Location[]>(
      'textDocument/definition',
      client.at(TENDER, 'use "../library/prod|ucts'),
    );
    expect(found[0]!.uri).toBe(uriOf('library/products.broom'));
  });
  test('of a computed quantity: the block it belongs to', async () => {
    expect(await definition('require North.pro|duct')).toEqual([`${TENDER}: North`]);
  });
  test('of a role: the machines that stand for it', async () => {
    client.open(METHOD);
    const found = await client.request<Location[]>(
      'textDocument/implementation',
      client.at(METHOD, 'role appli|cator'),
    );
    expect(found.map(said)).toEqual([`${TENDER}: applicator`, `${TENDER}: applicator`]);
  });
  test('nowhere in blanks, comments and plain words', async () => {
    expect(await definition('// A full |job')).toEqual([]);
    expect(await definition('build-up: hea|vy')).toEqual([]);
  });
});

describe('references', () => {
  test('in files that nobody has opened too', async () => {
    const found = (await references('District.Spray|er1')).map(said);
    expect(found.filter(each => each.startsWith(FIRST))).toHaveLength(1);
    expect(found.filter(each => each.startsWith(PLANT))).toHaveLength(1);
    expect(found.filter(each => each.startsWith(TENDER))).toHaveLength(2);
  });
  test('without the declaration where it is not wanted', async () => {
    const all = await references('work No|rth');
    const some = await references('work No|rth', TENDER, false);
    expect(some).toHaveLength(all.length - 1);
  });
  test('of a role: the lines of works that bind it', async () => {
    client.open(METHOD);
    const found = (await references('role appli|cator', METHOD)).map(said);
    expect(found.filter(each => each.endsWith(': applicator')).length).toBeGreaterThanOrEqual(4);
    expect(new Set(found.map(each => each.split(':')[0]))).toContain(FIRST);
  });
  test('highlights keep to the file', async () => {
    const found = await client.request<DocumentHighlight[]>(
      'textDocument/documentHighlight',
      client.at(TENDER, 'closure Nig|hts'),
    );
    expect(found).toHaveLength(3);
  });
});

describe('rename', () => {
  const rename = (needle: string, newName: string, name = TENDER) =>
    client.request<WorkspaceEdit>('textDocument/rename', { ...client.at(name, needle), newName });

  test('a machine of a library, in every file, and nothing breaks', async () => {
    const before = (await client.diagnostics(TENDER)).length;
    client.apply(await rename('District.Spray|er1', 'BigSprayer'));
    expect(client.text(TENDER)).toContain('District.BigSprayer');
    expect(client.files.get(PLANT)).toContain('sprayer BigSprayer {');
    expect(client.files.get(FIRST)).toContain('District.BigSprayer');
    for (const name of client.files.keys()) expect(client.files.get(name)).not.toMatch(/District\.Sprayer1\b/);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [...client.files.keys()].map(name => ({ uri: uriOf(name), type: 2 })),
    });
    // What was shown before the library's new text was known is out of date with the next one.
    client.edit(TENDER, client.text(TENDER));
    expect(await client.diagnostics(TENDER)).toHaveLength(before);
  });
  test('a role takes the lines of works along', async () => {
    client.open(METHOD);
    client.apply(await rename('role appli|cator', 'spray-machine', METHOD));
    expect(client.text(TENDER)).toContain('spray-machine: District.Sprayer1');
    expect(client.text(METHOD)).toContain('by: spray-machine');
    expect(client.files.get(FIRST)).toContain('spray-machine: District.Sprayer1');
  });
  test('a parameter takes its arguments along', async () => {
    client.open(METHOD);
    client.apply(await rename('so|ak: time', 'wait', METHOD));
    expect(client.text(TENDER)).toContain('BroomAndRinse(wait: 40 min)');
    expect(client.text(METHOD)).toContain('at-least: wait');
    expect(client.text(METHOD)).toContain('step Soak');
  });
  test('a prefix stays in its file', async () => {
    const edit = await rename('as Dist|rict', 'Works');
    expect(Object.keys(edit.changes ?? {}).length + (edit.documentChanges?.length ?? 0)).toBe(1);
    client.apply(edit);
    expect(client.text(TENDER)).toContain('Works.Sprayer1');
  });
  test('a step that another method overrides is renamed there too, and where it is left out', async () => {
    client.open(
      'steps.broom',
      `broomline 1\nmethod A {\n  step Spray { does: soak }\n  step Wait { does: soak }\n}\nmethod B like A {\n  step Spray { does: soak }\n  without Wait\n}\n`,
    );
    client.apply(await rename('step Sp|ray', 'Apply', 'steps.broom'));
    expect(client.text('steps.broom').match(/step Apply/g)).toHaveLength(2);
    client.apply(await rename('step Wa|it', 'Soak', 'steps.broom'));
    expect(client.text('steps.broom')).toContain('without Soak');
  });
  test('the designator of a runway’s end, in every file, within its quotes', async () => {
    client.open(AIRPORT);
    expect(await client.request('textDocument/prepareRename', client.at(TENDER, 'Main from "0|4"'))).toMatchObject({
      placeholder: '04',
    });
    const uses = client.text(TENDER).match(/from "04"/g)!.length;
    client.apply(await rename('Main from "0|4"', '05L'));
    expect(client.text(TENDER).match(/from "05L"/g)).toHaveLength(uses);
    expect(client.text(TENDER)).not.toContain('"04"');
    expect(client.text(AIRPORT)).toContain('end "05L" {');
    expect(client.text(AIRPORT).match(/Main from "05L"/g)).toHaveLength(2);
    // The other end is another name, and other airports have a runway 04 too.
    expect(client.text(AIRPORT)).toContain('end "22" {');
    expect(client.files.get('wrong-on-purpose.broom')).toContain('end "04" {');
    // From the heading, with the quotes typed too.
    client.apply(await rename('end "2|2"', '"23R"', AIRPORT));
    expect(client.text(TENDER)).toContain('Main from "23R"');
    expect(client.files.get('small-job.broom')).toContain('Main from "23R"');
  });
  test('an end that another runway overrides is renamed there too', async () => {
    client.open(
      'ends.broom',
      `broomline 1\nrunway A {\n  end "09"\n  end "27"\n}\nrunway B like A {\n  end "09" { displaced: 3 m }\n}\ndeposit D { on: B from "09" }\ndeposit E { on: B from "27" }\n`,
    );
    client.apply(await rename('B from "0|9"', '10', 'ends.broom'));
    expect(client.text('ends.broom').match(/"10"/g)).toHaveLength(3);
    client.apply(await rename('end "2|7"', '28', 'ends.broom'));
    expect(client.text('ends.broom').match(/"28"/g)).toHaveLength(2);
  });
  test.each([
    ['4', 'is no designator'],
    ['37', 'is no designator'],
    ['00', 'is no designator'],
    ['04X', 'is no designator'],
    ['Main', 'is no designator'],
    ['', 'is no designator'],
    ['22', 'already an end of Main'],
  ])('of an end to %j is refused: %s', async (newName, why) => {
    await expect(rename('Main from "0|4"', newName)).rejects.toThrow(why);
  });
  test('of any other text in quotes is refused', async () => {
    await expect(client.request('textDocument/prepareRename', client.at(TENDER, 'Runway 04|/22'))).rejects.toThrow(
      'Only names',
    );
  });
  test('versions are those of the open texts', async () => {
    client.edit(TENDER, client.text(TENDER));
    const edit = await rename('work No|rth', 'Nord');
    expect((edit.documentChanges![0] as { textDocument: { version: number } }).textDocument.version).toBe(2);
  });
  test.each([
    ['a b', 'is no name'],
    ['3x', 'is no name'],
    ['and', 'word of the language'],
    ['South', 'already the name of a work'],
    ['', 'is no name'],
  ])('to %j is refused: %s', async (newName, why) => {
    await expect(rename('work No|rth', newName)).rejects.toThrow(why);
  });
  test('of what is no name is refused', async () => {
    await expect(client.request('textDocument/prepareRename', client.at(TENDER, 'build-up: hea|vy'))).rejects.toThrow(
      'Only names',
    );
    await expect(client.request('textDocument/prepareRename', client.at(TENDER, '// A full j|ob'))).rejects.toThrow(
      'Only names',
    );
  });
  test('says what it would rename', async () => {
    expect(await client.request('textDocument/prepareRename', client.at(TENDER, 'District.Spray|er1'))).toMatchObject({
      placeholder: 'Sprayer1',
    });
  });
});

describe('hierarchies', () => {
  test('works that call a method, and the method that a work calls', async () => {
    client.open(METHOD);
    const [item] = await client.request<CallHierarchyItem[]>(
      'textDocument/prepareCallHierarchy',
      client.at(METHOD, 'method Broom|AndRinse'),
    );
    expect(item!.name).toBe('method BroomAndRinse');
    const incoming = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    expect(incoming.map(call => call.from.name)).toEqual(
      expect.arrayContaining(['work North', 'work South', 'work Removal']),
    );
    const north = incoming.find(call => call.from.name === 'work North')!;
    const outgoing = await client.request<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', {
      item: north.from,
    });
    expect(outgoing.map(call => call.to.name)).toEqual(['method BroomAndRinse']);
    expect(outgoing[0]!.fromRanges).toHaveLength(1);
  });
  test('blocks that are like others', async () => {
    client.open(PLANT);
    const [item] = await client.request<TypeHierarchyItem[]>(
      'textDocument/prepareTypeHierarchy',
      client.at(PLANT, 'broom Broo|m1'),
    );
    const below = await client.request<TypeHierarchyItem[]>('typeHierarchy/subtypes', { item });
    expect(below.map(each => each.name)).toContain('broom Broom2');
    const above = await client.request<TypeHierarchyItem[]>('typeHierarchy/supertypes', { item: below[0] });
    expect(above.map(each => each.name)).toEqual(['broom Broom1']);
  });
});

describe('files that move', () => {
  const move = (from: string, to: string) =>
    client.request<WorkspaceEdit | null>('workspace/willRenameFiles', {
      files: [{ oldUri: uriOf(from), newUri: uriOf(to) }],
    });

  test('a library: every file that brings it in', async () => {
    client.apply(await move(PLANT, 'plant/works.broom'));
    expect(client.text(TENDER)).toContain('use "../plant/works.broom" as District');
    expect(client.files.get(FIRST)).toContain('use "plant/works.broom" as District');
  });
  test('a job: its own lines', async () => {
    client.apply(await move(TENDER, 'tender.broom'));
    expect(client.text(TENDER)).toContain('use "tern-sands/airport.broom"');
    expect(client.text(TENDER)).toContain('use "library/products.broom"');
  });
  test('a folder with all in it', async () => {
    client.apply(await move('library', 'shared/lib'));
    expect(client.text(TENDER)).toContain('use "../shared/lib/products.broom"');
  });
  test('nothing where nothing has to change', async () => {
    expect(await move(FIRST, 'second-job.broom')).toBeNull();
  });
});
