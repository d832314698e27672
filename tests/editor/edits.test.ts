/** Whatever is typed, in whatever order, across files: the end is the same as a fresh start on the final texts. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { startClient, uriOf } from './client.ts';
import { exampleFiles, FIRST, METHOD, PLANT } from './examples.ts';
import { shownOf } from './state.ts';

const NAMES = [FIRST, METHOD, PLANT] as const;

type Step =
  | {
      readonly do: 'insert' | 'remove';
      readonly file: number;
      readonly at: number;
      readonly text: string;
      readonly length: number;
    }
  | { readonly do: 'reopen' | 'ask'; readonly file: number };

const PIECES = [
  '\n',
  '}',
  '{',
  '"',
  ' ',
  ',',
  '(',
  ')',
  '3 m',
  'width: 2 m\n',
  'broom X like Broom1\n',
  '/*',
  '// ',
  'use "library/products.broom"\n',
  'Sprayer1',
  '.',
  '2031-',
  'é',
  '\r\n',
  '\u{1F6E9}',
];

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      do: fc.constant('insert' as const),
      file: fc.nat(2),
      at: fc.nat(10_000),
      text: fc.constantFrom(...PIECES),
      length: fc.constant(0),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('remove' as const),
      file: fc.nat(2),
      at: fc.nat(10_000),
      text: fc.constant(''),
      length: fc.integer({ min: 1, max: 60 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constantFrom('reopen' as const, 'ask' as const), file: fc.nat(2) }) },
);

const PULL = {
  capabilities: { textDocument: { diagnostic: {}, documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
};

test('random edits end where a fresh start begins', async () => {
  const files = exampleFiles();
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 25 }), async steps => {
      const client = await startClient(files, PULL);
      for (const name of NAMES) client.open(name);
      const pending: Promise<unknown>[] = [];
      for (const each of steps) {
        const name = NAMES[each.file]!;
        const text = client.text(name);
        if (each.do === 'reopen') {
          client.close(name);
          client.open(name, text);
        } else if (each.do === 'ask')
          pending.push(client.request('textDocument/documentSymbol', { textDocument: { uri: uriOf(name) } }));
        else if ('at' in each) {
          const start = each.at % (text.length + 1);
          const range = {
            start: positionAt(text, start),
            end: positionAt(text, Math.min(text.length, start + each.length)),
          };
          client.edit(name, each.text, range);
        }
      }
      await Promise.all(pending);
      const fresh = await startClient(files, PULL);
      for (const name of NAMES) fresh.open(name, client.text(name));
      // Each file is asked about when all are open, in both.
      for (const name of NAMES) expect(await shownOf(client, name)).toEqual(await shownOf(fresh, name));
      await client.dispose();
      await fresh.dispose();
    }),
    { numRuns: 25 },
  );
}, 300_000);

function positionAt(text: string, offset: number) {
  const before = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: before.length - 1, character: before.at(-1)!.length };
}
