/**
 * Whatever happens to a workspace, in whatever order: texts that are edited, files that come, change and go on the disk,
 * that are opened, closed and renamed, and settings. The end is the same as a fresh start on what is there then.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { WorkspaceEdit } from 'vscode-languageserver-protocol';
import { type Client, startClient, uriOf } from './client.ts';
import { shownOf } from './state.ts';

const START: Readonly<Record<string, string>> = {
  'job.broom': `broomline 1

use "lib/plant.broom" as Works
use "lib/place.broom"

broom Own like Works.Broom1 {
    width: 2.5 m
    rotation: 900 rpm
}

deposit Near {
    on: Main from "04"
    stations: table chainage m, left m, right m
        150  8  8
        300  8  8
    build-up: heavy
}

waive rotation-unusual on Own because "a spare" by "R. Ashdown" until 2031-05-01
`,
  'lib/plant.broom': 'broomline 1\n\nuse "more/brush.broom"\n\nbroom Broom1 like Brush {\n    width: 3 m\n}\n',
  'lib/more/brush.broom': 'broomline 1\n\nbroom Brush {\n    rotation: 300 rpm\n}\n',
  'lib/place.broom':
    'broomline 1\n\nrunway Main {\n    length: 2450 m\n    width: 45 m\n    pavement: asphalt\n    end "04"\n    end "22"\n}\n',
};

/** Names that files of this workspace may get; where a file is not at the start, one may come. */
const NAMES = [...Object.keys(START), 'lib/other.broom', 'place.broom'];

/** Texts that appear on the disk: those of the start with something else in them, and some that break. */
const TEXTS = [
  ...Object.values(START),
  START['lib/plant.broom']!.replace('3 m', '30 m'),
  START['lib/plant.broom']!.replace('Broom1', 'Broom2'),
  START['lib/place.broom']!.replace('"04"', '"05"'),
  START['lib/place.broom']!.replace('45 m', '45'),
  'broomline 1\n\nuse "plant.broom"\n\nbroom Brush {\n',
  '',
];

const PIECES = [
  'use "lib/other.broom"\n',
  'use "place.broom"\n',
  'use "../job.broom"\n',
  'use "more/brush.broom" as Works\n',
  'broom Broom1 {\n    width: 4 m\n}\n',
  '// ',
  '}',
  '"',
];

const SETTINGS = [
  {},
  { units: 'US customary' },
  { asOf: '2031-06-01' },
  { hints: { otherUnits: true } },
  { hints: { enabled: false } },
  { units: 'nonsense' },
];

type Happening =
  | {
      readonly does: 'type';
      readonly file: number;
      readonly at: number;
      readonly text: string;
      readonly length: number;
    }
  | { readonly does: 'write'; readonly file: number; readonly text: string }
  | { readonly does: 'delete' | 'toggle' | 'ask'; readonly file: number }
  | { readonly does: 'rename'; readonly file: number; readonly to: number }
  | { readonly does: 'set'; readonly settings: object };

const file = fc.nat(NAMES.length - 1);
const happening: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({
    does: fc.constant('type' as const),
    file,
    at: fc.nat(1000),
    text: fc.constantFrom(...PIECES),
    length: fc.nat(30),
  }),
  fc.record({ does: fc.constant('write' as const), file, text: fc.constantFrom(...TEXTS) }),
  fc.record({ does: fc.constantFrom('delete' as const, 'toggle' as const, 'ask' as const), file }),
  fc.record({ does: fc.constant('rename' as const), file, to: file }),
  fc.record({ does: fc.constant('set' as const), settings: fc.constantFrom(...SETTINGS) }),
);

const PULL = {
  capabilities: { textDocument: { diagnostic: {}, documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
};

/** An editor over the server: what is open in it, and what it was set to. */
class Editor {
  readonly open = new Set<string>();
  settings: object = {};
  private readonly client: Client;

  constructor(client: Client) {
    this.client = client;
  }

  async happen(what: Happening): Promise<void> {
    const { client } = this;
    if (what.does === 'set') {
      this.set(what.settings);
      return;
    }
    const name = NAMES[what.file]!;
    const there = client.files.has(name);
    switch (what.does) {
      case 'type': {
        if (!this.open.has(name)) return;
        const text = client.text(name);
        const at = what.at % (text.length + 1);
        client.edit(name, text.slice(0, at) + what.text + text.slice(at + what.length));
        return;
      }
      case 'write':
        client.files.set(name, what.text);
        await this.changed([name, there ? 2 : 1]);
        return;
      case 'delete':
        if (client.files.delete(name)) await this.changed([name, 3]);
        return;
      case 'toggle':
        this.toggle(name);
        return;
      case 'ask':
        if (this.open.has(name)) await shownOf(client, name);
        return;
      case 'rename':
        await this.rename(name, NAMES[what.to]!);
    }
  }

  set(settings: object): void {
    this.settings = settings;
    void this.client.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { broomline: settings },
    });
  }

  toggle(name: string): void {
    if (this.open.delete(name)) this.client.close(name);
    else if (this.client.files.has(name)) this.show(name, this.client.files.get(name)!);
  }

  show(name: string, text: string): void {
    this.open.add(name);
    this.client.open(name, text);
  }

  /** As editors do it: edits first, then the file, then what is open goes along, and the watcher tells of it too. */
  private async rename(from: string, to: string): Promise<void> {
    const { client } = this;
    if (!client.files.has(from) || client.files.has(to) || this.open.has(to)) return;
    const files = [{ oldUri: uriOf(from), newUri: uriOf(to) }];
    const edit = await client.request<WorkspaceEdit | null>('workspace/willRenameFiles', { files });
    client.apply(edit);
    client.files.set(to, client.files.get(from)!);
    client.files.delete(from);
    if (this.open.delete(from)) {
      const text = client.text(from);
      client.close(from);
      this.show(to, text);
    }
    await client.connection.sendNotification('workspace/didRenameFiles', { files });
    const edited = [...Object.keys(edit?.changes ?? {})].map(uri => uri.replace(uriOf(''), ''));
    await this.changed([from, 3], [to, 1], ...edited.map(each => [each, 2] as const));
  }

  private async changed(...changes: readonly (readonly [name: string, type: number])[]): Promise<void> {
    await this.client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: changes.map(([name, type]) => ({ uri: uriOf(name), type })),
    });
  }
}

test('whatever happens to a workspace, it ends where a fresh start begins', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { minLength: 1, maxLength: 20 }), async happenings => {
      const client = await startClient(START, PULL);
      const editor = new Editor(client);
      editor.show('job.broom', START['job.broom']!);
      for (const each of happenings) await editor.happen(each);
      const fresh = await startClient(Object.fromEntries(client.files), { ...PULL, settings: editor.settings });
      const again = new Editor(fresh);
      for (const name of editor.open) again.show(name, client.text(name));
      for (const name of editor.open) expect(await shownOf(client, name), name).toEqual(await shownOf(fresh, name));
      await client.dispose();
      await fresh.dispose();
    }),
    { numRuns: 120 },
  );
}, 300_000);
