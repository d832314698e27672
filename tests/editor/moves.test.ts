/** Files and folders that are moved, in whatever way: every `use` line goes on meaning the file that it meant. */
import { posix } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Client, ROOT, startClient } from './client.ts';

/** A workspace with paths of every kind: down, up, across, and with letters that addresses write otherwise. */
const FILES: Readonly<Record<string, string>> = {
  'base.broom': 'broomline 1\n\nbroom Base {\n    width: 3 m\n}\n',
  'lib/plant.broom': 'broomline 1\n\nuse "deep/x.broom"\nuse "../base.broom" as Base\n',
  'lib/deep/x.broom': 'broomline 1\n\nuse "../../base.broom"\n',
  'library/other.broom': 'broomline 1\n\nuse "../lib/plant.broom"\n',
  'a/job.broom':
    'broomline 1\n\nuse "../lib/plant.broom" as P\nuse "shared/m.broom"\nuse "../lib/deep/x.broom"\nuse "../Süd & Ost/häfen 2.broom"\n',
  'a/shared/m.broom': 'broomline 1\n\nuse "../../lib/deep/x.broom"\nuse "../job.broom"\n',
  'Süd & Ost/häfen 2.broom': 'broomline 1\n\nuse "../a/shared/m.broom"\nuse "../base.broom"\n',
};

type Move = readonly [from: string, to: string];

const addressOf = (name: string) => `${ROOT}/${name.split('/').map(encodeURIComponent).join('/')}`;
const nameOf = (address: string) => decodeURIComponent(address.replace(`${ROOT}/`, ''));

function placeAfter(name: string, moves: readonly Move[]): string {
  for (const [from, to] of moves) {
    if (name === from) return to;
    if (name.startsWith(`${from}/`)) return to + name.slice(from.length);
  }
  return name;
}

const targetsIn = (name: string, text: string) =>
  [...text.matchAll(/^use "([^"]*)"/gm)].map(([, path]) => posix.join(posix.dirname(name), path!));

/** Asks for the edits of moves, and makes them: the texts by their new places. */
async function moved(client: Client, moves: readonly Move[], ending = ''): Promise<Map<string, string>> {
  const edit = await client.request<WorkspaceEdit | null>('workspace/willRenameFiles', {
    files: moves.map(([from, to]) => ({ oldUri: addressOf(from) + ending, newUri: addressOf(to) + ending })),
  });
  const edits = new Map<string, readonly TextEdit[]>();
  for (const [address, each] of Object.entries(edit?.changes ?? {})) edits.set(nameOf(address), each);
  for (const each of edit?.documentChanges ?? [])
    if ('textDocument' in each) edits.set(nameOf(each.textDocument.uri), each.edits as TextEdit[]);
  return new Map(
    Object.entries(FILES).map(([name, text]) => [
      placeAfter(name, moves),
      TextDocument.applyEdits(TextDocument.create(name, 'broomline', 0, text), [...(edits.get(name) ?? [])]),
    ]),
  );
}

/** Every line means what it meant, and nothing else in any file is another. */
function expectSame(after: ReadonlyMap<string, string>, moves: readonly Move[]): void {
  for (const [name, text] of Object.entries(FILES)) {
    const now = after.get(placeAfter(name, moves))!;
    const meant = targetsIn(name, text).map(each => placeAfter(each, moves));
    expect(targetsIn(placeAfter(name, moves), now), `${name} after ${JSON.stringify(moves)}`).toEqual(meant);
    const rest = (of: string) => of.replace(/^use "[^"]*"/gm, 'use');
    expect(rest(now)).toBe(rest(text));
  }
}

describe('every use line means the same file', () => {
  test.each<[string, readonly Move[]]>([
    ['a folder further down', [['lib', 'shared/plant/lib']]],
    ['a folder further up', [['lib/deep', 'deep']]],
    ['a folder whose name begins like another', [['lib', 'libs']]],
    ['a folder into another', [['lib', 'a/lib']]],
    ['the folder of the file that uses all', [['a', 'b/c/a']]],
    ['a file out of its folder', [['a/shared/m.broom', 'm.broom']]],
    ['a file into a folder below', [['base.broom', 'x/y/base.broom']]],
    ['letters that addresses write otherwise', [['Süd & Ost', 'Nørd + 100 %']]],
    ['a file under another name', [['Süd & Ost/häfen 2.broom', 'Süd & Ost/häfen (3).broom']]],
    [
      'two that change places',
      [
        ['base.broom', 'lib/plant.broom'],
        ['lib/plant.broom', 'base.broom'],
      ],
    ],
    [
      'several at once',
      [
        ['lib', 'one/two'],
        ['a', 'one/three'],
        ['base.broom', 'one/base.broom'],
      ],
    ],
  ])('%s', async (_, moves) => {
    const client = await startClient(FILES);
    expectSame(await moved(client, moves), moves);
    await client.dispose();
  });

  test('a folder whose address ends with a slash', async () => {
    const client = await startClient(FILES);
    expectSame(await moved(client, [['lib', 'shared/lib']], '/'), [['lib', 'shared/lib']]);
    await client.dispose();
  });

  test('any files and folders to any places', async () => {
    const things = [...Object.keys(FILES), 'lib', 'lib/deep', 'library', 'a', 'a/shared', 'Süd & Ost'];
    const folder = fc.constantFrom('', 'new/', 'a/', 'lib/', 'x/y/z/', 'Süd & Ost/');
    const move = fc.record({ from: fc.constantFrom(...things), into: folder, as: fc.constantFrom('q', 'é 1', 'r-s') });
    const client = await startClient(FILES);
    await fc.assert(
      fc.asyncProperty(fc.array(move, { minLength: 1, maxLength: 3 }), async chosen => {
        const moves = chosen.map(
          ({ from, into, as }, i): Move => [from, `${into}${as}${i}${from.endsWith('.broom') ? '.broom' : ''}`],
        );
        // An editor moves nothing twice, and nothing into itself.
        const within = (a: string, b: string) => a === b || a.startsWith(`${b}/`);
        fc.pre(
          moves.every(
            ([from, to], i) => !within(to, from) && moves.every(([other], j) => i === j || !within(from, other)),
          ),
        );
        expectSame(await moved(client, moves), moves);
      }),
      { numRuns: 150 },
    );
    await client.dispose();
  }, 120_000);
});
