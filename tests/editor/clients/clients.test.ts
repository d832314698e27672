/** Editors whose protocol clients nobody here wrote: Debian's Neovim, and Debian's Emacs with Eglot. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type Built, buildServer, copyOfExamples } from '../built.ts';

const PACKAGES: Readonly<Record<string, string>> = { nvim: 'neovim', emacs: 'emacs-nox elpa-eglot' };
const here = new URL('./', import.meta.url).pathname;

let server: Built;
let work: Built;
beforeAll(() => {
  server = buildServer();
  for (const [command, packages] of Object.entries(PACKAGES)) install(command, packages);
}, 600_000);
afterAll(() => server?.remove());
beforeEach(() => {
  work = copyOfExamples();
});
afterEach(() => work.remove());

/** Installs what is missing. Where that can't be done the test fails and says so: nothing is skipped in silence. */
function install(command: string, packages: string): void {
  if (has(command)) return;
  const asRoot = process.getuid?.() === 0 ? '' : 'sudo -n ';
  const run = (line: string) =>
    spawnSync('sh', ['-c', `${asRoot}${line}`], {
      encoding: 'utf8',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  run('apt-get update');
  const done = run(`apt-get install -y --no-install-recommends ${packages}`);
  if (!has(command))
    throw new Error(
      `${command} is missing and could not be installed (apt-get install ${packages}): ${done.stderr?.slice(-500)}`,
    );
}

function has(command: string): boolean {
  return spawnSync('sh', ['-c', `command -v ${command}`]).status === 0;
}

interface Result {
  readonly failed?: string;
  readonly diagnostics: readonly string[];
  readonly hover: string;
  readonly completion: readonly string[];
  readonly fix: string;
  readonly fixed: string;
}

function drive(command: string, args: readonly string[]): Result {
  const file = join(work.folder, 'result.json');
  const env = { ...process.env, SERVER: join(server.folder, 'broomline.mjs'), NODE: process.execPath, RESULT: file };
  const done = spawnSync(command, args, { cwd: work.folder, env, encoding: 'utf8', timeout: 120_000 });
  if (!existsSync(file)) throw new Error(`${command} left no result: ${done.stdout}\n${done.stderr}`);
  const result = JSON.parse(readFileSync(file, 'utf8')) as Result;
  expect(result.failed, `${done.stdout}\n${done.stderr}`).toBeUndefined();
  return result;
}

const read = (name: string) => readFileSync(join(work.folder, name), 'utf8');

function expectDone(result: Result): void {
  expect(result.hover).toContain('**crossfall** of a runway');
  expect(result.fix).toContain('pressure-limit');
  expect(result.fixed).toMatch(/^\s+pressure-limit:/);
  expect(result.completion.map(each => each.trim())).toContain('Rubber');
  // Renamed in the file that uses it and in the library that declares it, and both are still sound.
  expect(read('small-job.broom')).toContain('District.BigSprayer');
  expect(read('library/district-plant.broom')).toContain('sprayer BigSprayer {');
  expect(read('tern-sands/tender-2031.broom')).not.toMatch(/District\.Sprayer1\b/);
  const check = spawnSync(
    process.execPath,
    [join(server.folder, 'broomline.mjs'), 'check', 'small-job.broom', '--root', '.'],
    { cwd: work.folder, encoding: 'utf8' },
  );
  expect(check.stdout + check.stderr).not.toContain('unknown-name');
  execFileSync(
    process.execPath,
    [join(server.folder, 'broomline.mjs'), 'format', '--check', 'small-job.broom', '--root', '.'],
    { cwd: work.folder },
  );
}

describe('real editors', () => {
  test('Neovim opens an example, shows findings, hovers, completes, fixes, renames across files, formats', () => {
    const result = drive('nvim', ['--headless', '-u', 'NONE', '-i', 'NONE', '-n', '-S', join(here, 'neovim.lua')]);
    expect(result.diagnostics).toEqual(expect.arrayContaining(['unknown-property', 'import-missing']));
    expectDone(result);
  });

  test('Emacs with Eglot does the same', () => {
    const result = drive('emacs', ['-q', '--batch', '-l', join(here, 'emacs.el')]);
    expect(result.diagnostics.join('\n')).toContain("no property 'presure-limit'");
    expectDone(result);
  });
});
