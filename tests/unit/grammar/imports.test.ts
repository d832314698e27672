import { URI } from 'langium';
import { describe, expect, test } from 'vitest';
import { isInside, resolvePath } from '../../../language/grammar/imports.ts';
import { problemsOf } from '../../../language/grammar/services.ts';
import { workspace } from './helpers.ts';

const FROM = URI.file('/job/north/work.broom');
const ROOTS = [URI.file('/job')];

describe('paths', () => {
  test.each([
    ['plant.broom', '/job/north/plant.broom'],
    ['./plant.broom', '/job/north/plant.broom'],
    ['../lib/plant.broom', '/job/lib/plant.broom'],
    ['..//lib/./x/../plant.broom', '/job/lib/plant.broom'],
    ['a b/größe.broom', '/job/north/a b/größe.broom'],
  ])('%s', (path, expected) =>
    expect(resolvePath(path, FROM, ROOTS)).toMatchObject({ state: 'ok', uri: { path: expected } }),
  );

  test.each([
    ['../../../etc/passwd', 'above'],
    ['../../../etc/passwd.broom', 'above'],
    ['../../job-2/x.broom', 'above'],
    ['../../jo/x.broom', 'above'],
    ['../../../../../../../../x.broom', 'above'],
    ['/etc/passwd.broom', 'absolute'],
    ['~/x.broom', 'absolute'],
    ['//host/share/x.broom', 'absolute'],
    ['\\\\host\\share\\x.broom', 'absolute'],
    ['file:///etc/x.broom', 'scheme'],
    ['https://example.org/x.broom', 'scheme'],
    ['C:/x.broom', 'scheme'],
    ['data:x.broom', 'scheme'],
    ['..\\lib\\x.broom', 'backslash'],
    ['%2e%2e/%2e%2e/etc/x.broom', 'encoded'],
    ['..%2Fx.broom', 'encoded'],
    ['.. /x.broom', 'odd-name'],
    ['.../x.broom', 'odd-name'],
    ['x.broom.', 'odd-name'],
    ['sub/x.broom:stream', 'odd-name'],
    ['x.broom:stream', 'scheme'],
    ['a\u0000/x.broom', 'odd-name'],
    ['x.broom?y', 'odd-name'],
  ])('%s leads out', (path, reason) => expect(resolvePath(path, FROM, ROOTS)).toEqual({ state: 'outside', reason }));

  test.each(['', 'plant', 'plant.broom/', 'plant.BROOM', '.broom', 'x.txt', '..', 'lib/'])(
    '%s is no .broom file',
    path => {
      expect(['not-a-broom-file', 'outside']).toContain(resolvePath(path, FROM, ROOTS).state);
      expect(resolvePath(path, FROM, ROOTS)).not.toHaveProperty('uri');
    },
  );

  test('without roots, the folder of the file is the root', () => {
    expect(resolvePath('x.broom', FROM, [])).toMatchObject({ state: 'ok' });
    expect(resolvePath('../x.broom', FROM, [])).toMatchObject({ state: 'outside' });
  });

  test('a root is whole names, one scheme and one host', () => {
    expect(isInside(URI.file('/job'), URI.file('/job/x.broom'))).toBe(true);
    expect(isInside(URI.file('/job'), URI.file('/job-2/x.broom'))).toBe(false);
    expect(isInside(URI.file('/job'), URI.parse('vscode-vfs://github/job/x.broom'))).toBe(false);
    expect(isInside(URI.parse('vscode-vfs://a/job'), URI.parse('vscode-vfs://b/job/x.broom'))).toBe(false);
  });
});

describe('what becomes of a use', () => {
  const states = async (files: Record<string, string>, start = '/job/a.broom', options = {}) => {
    const space = workspace(files, options);
    const [document] = await space.open([URI.file(start)]);
    return { space, results: space.importsOf(document!), disk: space.disk };
  };

  test('nothing outside the workspace is ever read', async () => {
    const { results, disk } = await states({
      '/job/a.broom':
        'use "../../../etc/passwd"\nuse "../etc/x.broom"\nuse "/etc/x.broom"\nuse "file:///etc/x.broom"\nuse "..\\etc\\x.broom"\n',
      '/etc/passwd': 'secret',
      '/etc/x.broom': 'secret',
    });
    expect(results.map(one => [one.state, one.reason])).toEqual([
      ['outside', 'above'],
      ['outside', 'above'],
      ['outside', 'absolute'],
      ['outside', 'scheme'],
      ['outside', 'backslash'],
    ]);
    expect(disk.reads).toEqual(['/job/a.broom']);
  });

  test('a start outside the workspace is not read either', async () => {
    const space = workspace({ '/etc/x.broom': 'secret' });
    expect(await space.open([URI.file('/etc/x.broom')])).toEqual([]);
    expect(space.disk.reads).toEqual([]);
  });

  test('missing, self, duplicate, not a broom file', async () => {
    const { results } = await states({
      '/job/a.broom': 'use "b.broom"\nuse "a.broom"\nuse "c.broom" as C\nuse "./c.broom"\nuse "c.txt"\nuse "d.broom"\n',
      '/job/c.broom': '',
      '/job/D.broom': '',
    });
    expect(results.map(one => one.state)).toEqual([
      'missing',
      'self',
      'ok',
      'duplicate',
      'not-a-broom-file',
      'missing',
    ]);
    expect(results[5]!.similar).toBe('D.broom');
  });

  test('a circle is found at the use that leads into it, with the way round', async () => {
    const { space, results } = await states({
      '/job/a.broom': 'use "b.broom"\nuse "d.broom"\n',
      '/job/b.broom': 'use "c.broom"\n',
      '/job/c.broom': 'use "a.broom"\nuse "b.broom"\n',
      '/job/d.broom': 'use "b.broom"\n',
    });
    const short = (uris: readonly string[] | undefined) => uris?.map(uri => uri.replace(/.*\/|\.broom/g, ''));
    expect(results.map(one => [one.state, short(one.chain)])).toEqual([
      ['cyclic', ['a', 'b', 'c', 'a']],
      ['cyclic', ['a', 'd', 'b', 'c', 'a']],
    ]);
    const c = space.documents().find(one => one.uri.path === '/job/c.broom')!;
    expect(space.importsOf(c).map(one => short(one.chain))).toEqual([
      ['c', 'a', 'b', 'c'],
      ['c', 'b', 'c'],
    ]);
  });

  test('an unreadable file is empty, says so, and costs no other file', async () => {
    const { space, results } = await states(
      {
        '/job/a.broom': 'use "b.broom"\nuse "c.broom"\nwork W { x: C }\n',
        '/job/b.broom': 'x',
        '/job/c.broom': 'broom C { a: 1 }',
      },
      undefined,
      { unreadable: ['/job/b.broom'] },
    );
    expect(results.map(one => one.state)).toEqual(['unreadable', 'ok']);
    const b = space.documents().find(one => one.uri.path === '/job/b.broom')!;
    expect(problemsOf(b).map(one => one.code)).toEqual(['unreadable-file']);
    expect(b.parseResult.value.items).toEqual([]);
  });

  test('a link, whose end can’t be seen, is not followed', async () => {
    const { results, disk } = await states(
      {
        '/job/a.broom': 'use "link.broom"\nuse "dir/x.broom"\n',
        '/job/link.broom': 'secret',
        '/job/dir/x.broom': 'secret',
      },
      undefined,
      { links: ['/job/link.broom', '/job/dir'] },
    );
    expect(results.map(one => [one.state, one.reason])).toEqual([
      ['outside', 'link'],
      ['outside', 'link'],
    ]);
    expect(disk.reads).toEqual(['/job/a.broom']);
  });

  test('the workspace manager of a server loads file by file', async () => {
    const space = workspace(
      { '/job/a.broom': 'work A { x: 1 }', '/job/b.broom': 'x', '/job/sub/c.broom': '((((' },
      { unreadable: ['/job/b.broom'] },
    );
    await space.shared.workspace.WorkspaceManager.initializeWorkspace([{ name: 'job', uri: 'file:///job' }]);
    expect(
      space
        .documents()
        .map(one => one.uri.path)
        .sort(),
    ).toEqual(['/job/a.broom', '/job/b.broom', '/job/sub/c.broom']);
  });
});
