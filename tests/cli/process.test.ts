/** The built command in a process of its own: what only a process shows. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { beforeAll, expect, test } from 'vitest';
import { folderOf, root } from './command.ts';

const bundle = join(folderOf({}), 'broomline.mjs');

beforeAll(async () => {
  await build({
    absWorkingDir: root,
    entryPoints: ['server/cli/main.ts'],
    outfile: bundle,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'silent',
  });
});

function broomline(args: readonly string[], env: Record<string, string> = {}) {
  return spawnSync(process.execPath, [bundle, ...args], {
    cwd: root,
    encoding: 'utf8',
    env: { PATH: process.env.PATH, ...env },
  });
}

test('exit status of the process: 0, 1 and 2', () => {
  expect(existsSync(bundle)).toBe(true);
  expect(broomline(['check', 'examples/library']).status).toBe(0);
  expect(broomline(['check', 'examples/wrong-on-purpose.broom']).status).toBe(1);
  expect(broomline(['check', 'no-such-file.broom']).status).toBe(2);
});

test('findings go to the standard output, wrong use to the standard error', () => {
  expect(broomline(['check', 'examples/wrong-on-purpose.broom'])).toMatchObject({ stderr: '' });
  expect(broomline(['chekc'])).toMatchObject({ stdout: '' });
});

test('FORCE_COLOR colours a pipe; without it a pipe has no colour', () => {
  expect(broomline(['check', 'examples/wrong-on-purpose.broom'], { FORCE_COLOR: '1' }).stdout).toContain('\u001B[');
  expect(broomline(['check', 'examples/wrong-on-purpose.broom']).stdout).not.toContain('\u001B[');
});

test('a reader that closes the pipe early is no error', async () => {
  const child = spawn(process.execPath, [bundle, 'derive', 'examples/tern-sands/tender-2031.broom'], { cwd: root });
  child.stdout.destroy();
  let err = '';
  child.stderr.on('data', data => {
    err += data;
  });
  await new Promise(resolve => child.on('close', resolve));
  expect(err).toBe('');
});

test('the version is that of the package', () => {
  expect(broomline(['--version']).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
});
