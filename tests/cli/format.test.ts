/** `broomline format`: writes the one layout, or only says what would change. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { broomline, folderOf } from './command.ts';

const UGLY = 'broomline 1\nbroom B {\nwidth:   2.4 m // square across\n      bristles: nylon }\n';

test('--check changes nothing, names the file and ends with 1', async () => {
  const cwd = folderOf({ 'a.broom': UGLY });
  expect(await broomline(['format', '--check', '.'], { cwd })).toEqual({
    status: 1,
    out: 'would change  a.broom\n1 of 1 file would change.\n',
    err: '',
  });
  expect(readFileSync(join(cwd, 'a.broom'), 'utf8')).toBe(UGLY);
});

test('writes the file, keeps its comments, and has nothing to do the second time', async () => {
  const cwd = folderOf({ 'a.broom': UGLY });
  expect((await broomline(['format', 'a.broom'], { cwd })).status).toBe(0);
  const written = readFileSync(join(cwd, 'a.broom'), 'utf8');
  expect(written).not.toBe(UGLY);
  expect(written).toContain('// square across');
  expect((await broomline(['format', 'a.broom'], { cwd })).out).toBe('0 of 1 file changed.\n');
  expect((await broomline(['format', '--check', 'a.broom'], { cwd })).status).toBe(0);
});

test('the examples have the layout', async () => {
  expect((await broomline(['format', '--check', 'examples'])).out).toMatch(/^0 of \d+ files would change\.\n$/);
});
