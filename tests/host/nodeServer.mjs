// A VS Code whose extensions run in Node: its server, started here, to be looked at with a browser.
import { spawn } from 'node:child_process';
import { join } from 'node:path';

/** Starts it; fulfilled once it serves. `{ address, close }` */
export async function serveNodeEditor({ vscode, data, port }) {
  const flags = [
    ...['--host', '127.0.0.1', '--port', String(port), '--without-connection-token', '--accept-server-license-terms'],
    ...['--server-data-dir', data, '--telemetry-level', 'off', '--disable-workspace-trust'],
    // Without it a built VS Code ignores the suite that is asked for in the address.
    '--enable-smoke-test-driver',
  ];
  const child = start(vscode, flags);
  await new Promise((resolve, reject) => {
    let said = '';
    const listen = chunk => {
      said += chunk;
      if (said.includes('Extension host agent started')) resolve();
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    child.once('exit', code => reject(new Error(`the editor's server ended with ${code}: ${said}`)));
    setTimeout(() => reject(new Error(`the editor's server does not start: ${said}`)), 60_000).unref();
  });
  return {
    address: `http://localhost:${port}/`,
    close: () =>
      new Promise(resolve => {
        child.once('exit', resolve);
        child.kill();
      }),
  };
}

/** Address at which the editor opens a folder and runs a suite; the extension is one of this machine's folders, if given. */
export function suiteAddress({ address }, { extension, tests, folder }) {
  const remote = path => `vscode-remote://${new URL(address).host}${path}`;
  const payload = [
    ...(extension ? [['extensionDevelopmentPath', remote(extension)]] : []),
    ['extensionTestsPath', remote(tests)],
    ['skipWelcome', 'true'],
  ];
  return `${address}?folder=${encodeURIComponent(folder)}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
}

/** Installs a packed extension into it. */
export function installExtension({ vscode, data, vsix }) {
  const child = start(vscode, [
    '--server-data-dir',
    data,
    '--accept-server-license-terms',
    '--install-extension',
    vsix,
  ]);
  let said = '';
  child.stdout.on('data', chunk => {
    said += chunk;
  });
  child.stderr.on('data', chunk => {
    said += chunk;
  });
  return new Promise((resolve, reject) => {
    child.once('exit', code => (code === 0 ? resolve(said) : reject(new Error(`not installed (${code}): ${said}`))));
  });
}

function start(vscode, flags) {
  return spawn(process.execPath, [join(vscode, 'out', 'server-main.js'), ...flags], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, EXTENSIONS_GALLERY: '{}' },
  });
}
