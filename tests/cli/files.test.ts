/** Which files are read, and which are not. */
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findEntries, isInside } from '../../server/cli/files.ts';
import { broomline, folderOf } from './command.ts';

const LIBRARY = 'broomline 1\nbroom B {\n  width: 2.4 m\n  bristles: nylon\n}\n';

describe('the root', () => {
  test('is the nearest folder above with a package.json, else the working directory, else the common folder', () => {
    const folder = folderOf({ 'p/package.json': '{}', 'p/jobs/a.broom': LIBRARY, 'q/r/b.broom': LIBRARY });
    const rootOf = (path: string, cwd: string) => findEntries([path], cwd, undefined).entries[0]?.root;
    expect(rootOf(join(folder, 'p/jobs/a.broom'), folder)).toBe(join(folder, 'p'));
    expect(rootOf(join(folder, 'q/r/b.broom'), folder)).toBe(folder);
    expect(rootOf(join(folder, 'q/r/b.broom'), join(folder, 'p'))).toBe(join(folder, 'q/r'));
  });

  test('holds for imports: nothing outside it is read', async () => {
    const folder = folderOf({
      'secret.broom': 'broomline 1\nbroom Secret {\n  width: 1 mm\n  bristles: nylon\n}\n',
      'p/package.json': '{}',
      'p/a.broom': 'broomline 1\nuse "../secret.broom"\n',
    });
    const { out, status } = await broomline(['check', 'p/a.broom'], { cwd: folder });
    expect(status).toBe(1);
    expect(out).toContain('(import-outside)');
    expect(out).not.toContain('Secret');
  });

  test('holds for links', async () => {
    const folder = folderOf({
      'out/secret.broom': LIBRARY,
      'p/package.json': '{}',
      'p/a.broom': 'broomline 1\nuse "link.broom"\n',
    });
    symlinkSync(join(folder, 'out/secret.broom'), join(folder, 'p/link.broom'));
    const direct = await broomline(['check', 'p/link.broom'], { cwd: folder });
    expect(direct).toMatchObject({ status: 2, err: expect.stringContaining('a link that leads out of the workspace') });
    const used = await broomline(['check', 'p/a.broom'], { cwd: folder });
    expect(used.status).toBe(1);
    expect(used.out).toMatch(/\(import-(outside|missing|unreadable)\)/);
  });
});

test('a folder is searched for .broom files, without hidden folders, packages and links', () => {
  const folder = folderOf({
    'b.broom': LIBRARY,
    'a/c.broom': LIBRARY,
    'a/notes.txt': '',
    '.hidden/d.broom': LIBRARY,
    'node_modules/e.broom': LIBRARY,
  });
  symlinkSync(folder, join(folder, 'a/loop'));
  const { entries, troubles } = findEntries(['.'], folder, undefined);
  expect(troubles).toEqual([]);
  expect(entries.map(each => each.path)).toEqual([join(folder, 'a/c.broom'), join(folder, 'b.broom')]);
});

test('a file named twice is read once', () => {
  const folder = folderOf({ 'a.broom': LIBRARY });
  expect(findEntries(['a.broom', './a.broom', '.'], folder, undefined).entries).toHaveLength(1);
});

test('a folder with the name of a file is no file', async () => {
  const folder = folderOf({});
  mkdirSync(join(folder, 'x.broom'));
  writeFileSync(join(folder, 'a.broom'), 'broomline 1\nuse "x.broom"\n');
  expect((await broomline(['check', 'x.broom'], { cwd: folder })).status).toBe(2);
  expect((await broomline(['check', 'a.broom'], { cwd: folder })).status).toBe(1);
});

test.each([
  ['/a/b', '/a', true],
  ['/a', '/a', true],
  ['/a/..b', '/a', true],
  ['/ab', '/a', false],
  ['/', '/a', false],
])('%s inside %s: %s', (path, root, inside) => {
  expect(isInside(path, root)).toBe(inside);
});
