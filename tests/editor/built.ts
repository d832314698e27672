/** The server as it ships, built into a folder of this run's own, and a copy of the examples to work on. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../../', import.meta.url).pathname;

export interface Built {
  /** Holds broomline.mjs, server.cjs and worker.js. */
  readonly folder: string;
  readonly remove: () => void;
}

export function buildServer(): Built {
  mkdirSync(join(root, 'tests', 'output'), { recursive: true });
  const folder = mkdtempSync(join(root, 'tests', 'output', 'built-'));
  execFileSync(process.execPath, [join(root, '.tools', 'build.mjs'), folder], { stdio: 'pipe' });
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** A copy of the examples outside the project. */
export function copyOfExamples(): Built {
  const folder = mkdtempSync(join(tmpdir(), 'broomline-'));
  cpSync(join(root, 'examples'), folder, { recursive: true });
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
