// The tests in a real VS Code: one suite in three hosts, then the window as a person uses it. `npm run test:host`, or with
// names of hosts: `npm run test:host -- browser node packed activation person`. The counts go to tests/output/host/counts.json.
//
// What can't be installed here (no network, no Chromium) has failed: a test that did not run has shown nothing.
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { ensureBrowser, ensureNodeEditor, ensureWebEditor, freePort, serveWebEditor } from '../../.tools/editor.mjs';
import { buildExtension } from '../../.tools/extension.mjs';
import { root } from '../../.tools/setup.mjs';
import { LARGEST, packExtension, packedFiles } from '../../.tools/vsix.mjs';
import { activationCounts } from './activation.mjs';
import { openBrowser, runSuiteAt } from './browser.mjs';
import { installExtension, serveNodeEditor, suiteAddress } from './nodeServer.mjs';

const host = join(root, 'tests', 'host');
const out = join(root, 'tests', 'output', 'host');
const extension = join(root, 'extension');
const HOSTS = { browser: inBrowser, node: onNode, packed: packed, activation, person: asPerson };

const wanted = process.argv.slice(2).filter(each => each in HOSTS);
const total = { passed: 0, failed: 0, skipped: 0 };
mkdirSync(out, { recursive: true });
await prepare();
for (const name of wanted.length > 0 ? wanted : Object.keys(HOSTS)) {
  const began = Date.now();
  console.log(`── ${name}`);
  let counts;
  try {
    counts = await HOSTS[name]();
  } catch (error) {
    console.log(error?.stack ?? String(error));
    counts = { passed: 0, failed: 1, skipped: 0 };
  }
  console.log(`── ${name}: ${JSON.stringify(counts)} (${((Date.now() - began) / 1000).toFixed(1)} s)\n`);
  for (const key of Object.keys(total)) total[key] += counts[key] ?? 0;
}
console.log(JSON.stringify(total));
writeFileSync(join(out, 'counts.json'), JSON.stringify(total));
process.exit(total.failed === 0 ? 0 : 1);

async function prepare() {
  await buildExtension();
  const suite = { bundle: true, format: 'cjs', absWorkingDir: root, logLevel: 'warning', external: ['vscode'] };
  await Promise.all([
    build({
      ...suite,
      entryPoints: [join(host, 'suite', 'node.ts')],
      outfile: join(out, 'node.cjs'),
      platform: 'node',
      external: ['vscode', 'mocha'],
    }),
    build({
      ...suite,
      entryPoints: [join(host, 'suite', 'activation.ts')],
      outfile: join(out, 'activation.cjs'),
      platform: 'browser',
    }),
    build({
      ...suite,
      entryPoints: [join(host, 'suite', 'web.ts')],
      outfile: join(out, 'web.js'),
      platform: 'browser',
    }),
  ]);
}

// --- hosts ---

async function inBrowser() {
  const browser = ensureBrowser();
  const editor = ensureWebEditor();
  if (!browser || editor.trouble) return notRun(editor.trouble ?? 'there is no Chromium.');
  const folder = copyOfExamples();
  const port = await freePort();
  const staged = stagedExtension();
  const server = await serveWebEditor({ ...editor, folder, port, extension: staged, tests: join(staged, 'suite.js') });
  const window = await openBrowser(browser);
  try {
    const { code, lines } = await runSuiteAt(window.page, server.address);
    if (code === -1) await window.page.screenshot({ path: join(out, 'stuck-browser.png') });
    return withoutRequests(countsFrom(lines, code), window.outside);
  } finally {
    await window.close();
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Through the tool that starts the desktop program; which program that is, a variable says, and our stand-in without. */
async function onNode() {
  return withElectron({ extensionDevelopmentPath: extension });
}

/** What is installed is the packed file; the folder that is named for development holds nothing. */
async function packed() {
  const path = await packExtension();
  const { size } = statSync(path);
  console.log(`${path.slice(root.length)}: ${(size / 1e6).toFixed(2)} MB`);
  const editor = ensureNodeEditor();
  if (editor.trouble) return notRun(editor.trouble);
  const data = mkdtempSync(join(tmpdir(), 'broomline-packed-'));
  try {
    await installExtension({ vscode: editor.vscode, data, vsix: path });
    const counts = await withElectron({ data });
    return size <= LARGEST ? { ...counts, passed: counts.passed + 1 } : { ...counts, failed: counts.failed + 1 };
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

async function withElectron({ extensionDevelopmentPath, data }) {
  const editor = ensureNodeEditor();
  if (editor.trouble || !ensureBrowser()) return notRun(editor.trouble ?? 'there is no Chromium.');
  const folder = copyOfExamples();
  const lines = [];
  const write = process.stdout.write;
  // The tool passes on what the program prints.
  process.stdout.write = text => {
    lines.push(...String(text).split('\n'));
    return true;
  };
  let code = 0;
  try {
    const { runTests } = (
      await import(pathToFileURL(join(editor.packages, '@vscode', 'test-electron', 'out', 'index.js')).href)
    ).default;
    await runTests({
      ...(process.env.VSCODE_EXE === 'download'
        ? {}
        : { vscodeExecutablePath: process.env.VSCODE_EXE ?? join(host, 'standIn.mjs') }),
      ...(extensionDevelopmentPath
        ? { extensionDevelopmentPath }
        : { extensionDevelopmentPath: join(host, 'nothing') }),
      extensionTestsPath: join(out, 'node.cjs'),
      launchArgs: [folder],
      extensionTestsEnv: data ? { BROOMLINE_HOST_DATA: data } : {},
    });
  } catch (error) {
    code = 1;
    lines.push(String(error));
  } finally {
    process.stdout.write = write;
    rmSync(folder, { recursive: true, force: true });
  }
  const outside = lines.filter(line => line.startsWith('asked for outside')).map(line => line.split(': ')[1]);
  return withoutRequests(countsFrom(lines, code), outside);
}

/** Several fresh windows, one after the other, first with extensions in Node and then in a browser's worker. */
async function activation() {
  const browser = ensureBrowser();
  const [node, web] = [ensureNodeEditor(), ensureWebEditor()];
  if (!browser || node.trouble || web.trouble) return notRun(node.trouble ?? web.trouble ?? 'there is no Chromium.');
  const folder = copyOfExamples();
  writeFileSync(join(folder, 'notes.md'), '# Notes\n');
  const data = mkdtempSync(join(tmpdir(), 'broomline-activation-'));
  const staged = stagedExtension();
  const tests = join(staged, 'activation.js');
  const look = async address => {
    const seen = [];
    for (const how of ['by the language', 'asked for', 'asked for', 'asked for']) {
      writeFileSync(join(folder, 'how.txt'), how);
      const window = await openBrowser(browser);
      try {
        seen.push({ how, ...(await runSuiteAt(window.page, address)) });
      } finally {
        await window.close();
      }
    }
    return seen;
  };
  try {
    const desktop = await serveNodeEditor({ vscode: node.vscode, data, port: await freePort() });
    const onDesktop = await look(suiteAddress(desktop, { extension, tests: join(out, 'activation.cjs'), folder }));
    await desktop.close();
    const served = await serveWebEditor({ ...web, folder, port: await freePort(), extension: staged, tests });
    const inWorker = await look(served.address);
    await served.close();
    return activationCounts({ 'in Node': onDesktop, "in a browser's worker": inWorker });
  } finally {
    rmSync(folder, { recursive: true, force: true });
    rmSync(data, { recursive: true, force: true });
  }
}

async function asPerson() {
  const browser = ensureBrowser();
  const editor = ensureWebEditor();
  if (!browser || editor.trouble) return notRun(editor.trouble ?? 'there is no Chromium.');
  const { person } = await import('./person.mjs');
  const counts = await person({ browser, editor, folder: copyOfExamples(), out, stage: stagedExtension });
  // Those of the README, when they are asked for.
  if (process.argv.includes('--keep-pictures') && counts.failed === 0)
    for (const theme of ['light', 'dark'])
      cpSync(join(out, `editor-1280x800-${theme}.png`), join(root, 'examples', 'pictures', `editor-${theme}.png`));
  return counts;
}

// --- counting ---

function countsFrom(lines, code) {
  const line = lines.find(each => each.includes('BROOMLINE-COUNTS'));
  for (const each of lines)
    if (/^passed {2}|^FAILED {2}|^activation took|^AssertionError|^\s+at .*suite/.test(each))
      console.log(each.trimEnd());
  if (line === undefined) {
    console.log(lines.slice(-40).join('\n'));
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const counts = JSON.parse(line.slice(line.indexOf('{'), line.lastIndexOf('}') + 1));
  return code === 0 || counts.failed > 0 ? counts : { ...counts, failed: 1 };
}

/** That nothing outside this machine was asked for is a test too. */
function withoutRequests(counts, outside) {
  for (const address of new Set(outside)) console.log(`FAILED  asked for outside this machine: ${address}`);
  return outside.length === 0 ? { ...counts, passed: counts.passed + 1 } : { ...counts, failed: counts.failed + 1 };
}

function notRun(why) {
  console.log(`FAILED, could not be run: ${why}`);
  return { passed: 0, failed: 1, skipped: 0 };
}

/**
 * What is packed, and the suite in it: in a browser, tests are only found inside the extension's own folder. Settings of
 * the editor go in as defaults, since its own are in the browser's storage.
 */
function stagedExtension(settings) {
  const folder = join(out, 'extension');
  rmSync(folder, { recursive: true, force: true });
  for (const name of packedFiles()) cpSync(join(extension, name), join(folder, name));
  cpSync(join(out, 'web.js'), join(folder, 'suite.js'));
  cpSync(join(out, 'activation.cjs'), join(folder, 'activation.js'));
  if (settings) {
    const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    Object.assign(manifest.contributes.configurationDefaults, settings);
    writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest));
  }
  return folder;
}

function copyOfExamples() {
  const folder = mkdtempSync(join(tmpdir(), 'broomline-folder-'));
  cpSync(join(root, 'examples'), folder, { recursive: true });
  return folder;
}
