// What every command of the house starts with: the packages are there, and Node 22 is what runs the rest.
//
// The machine's own Node may be 20. The development dependency `node` brings version 22, which the compiler of the
// grammar, the tests and the built command line need.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

const windows = process.platform === 'win32';
const stamp = join(root, 'node_modules', '.broomline-lock');

const packaged = join(root, 'node_modules', 'node', 'bin', windows ? 'node.exe' : 'node');

/** Node 22: the machine's own where it is new enough, otherwise the one from the packages. */
export const node = Number(process.versions.node.split('.')[0]) >= 22 ? process.execPath : packaged;

/** Installs the locked packages when they are missing or the lock has changed since. Ends the process if that fails. */
export function ensurePackages() {
  if (packagesAreCurrent()) return;
  console.log('Installing the packages of package-lock.json (once; about a minute) …');
  const npm = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: 'inherit',
    shell: windows,
  });
  if (npm.status !== 0 || !existsSync(node)) {
    console.error(
      '\nThe packages could not be installed. `npm ci` above says why; most often the registry is out of reach.',
    );
    process.exit(1);
  }
  writeFileSync(stamp, lockHash());
}

function packagesAreCurrent() {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed) || !existsSync(node)) return false;
  if (existsSync(stamp)) return readFileSync(stamp, 'utf8') === lockHash();
  // Installed by hand: npm's own record is then newer than the lock.
  return statSync(installed).mtimeMs >= statSync(join(root, 'package-lock.json')).mtimeMs;
}

function lockHash() {
  return createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
}

/**
 * Runs a script with Node 22 and the packages' commands on the path.
 * `quiet` keeps its output back unless it fails. Returns the exit status.
 */
export function run(script, args = [], { quiet = false, env = {}, flags = [] } = {}) {
  const path = `${join(root, 'node_modules', '.bin')}${delimiter}${process.env.PATH ?? ''}`;
  const child = spawnSync(node, [...flags, join(root, script), ...args], {
    cwd: root,
    stdio: quiet ? ['ignore', 'pipe', 'pipe'] : 'inherit',
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    env: { ...process.env, PATH: path, ...env },
  });
  if (child.error) console.error(`${script}: ${child.error.message}`);
  if (quiet && child.status !== 0) process.stdout.write(`${child.stdout ?? ''}${child.stderr ?? ''}`);
  return child.status ?? 1;
}
