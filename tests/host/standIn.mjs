#!/usr/bin/env node
// Stands in for the desktop program, which does not run on every machine: takes the same flags, opens the same editor in
// Chromium with its extension host in Node, runs the suite, and exits with its code.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBrowser, ensureNodeEditor, freePort } from '../../.tools/editor.mjs';
import { openBrowser, runSuiteAt } from './browser.mjs';
import { serveNodeEditor, suiteAddress } from './nodeServer.mjs';

const flag = name => process.argv.find(each => each.startsWith(`--${name}=`))?.slice(name.length + 3);
const extension = flag('extensionDevelopmentPath');
const tests = flag('extensionTestsPath');
const folder = process.argv.slice(2).find(each => !each.startsWith('-'));

const { vscode, trouble } = ensureNodeEditor();
if (trouble) throw new Error(trouble);
const port = await freePort();
const data = process.env.BROOMLINE_HOST_DATA ?? mkdtempSync(join(tmpdir(), 'broomline-host-'));
const server = await serveNodeEditor({ vscode, data, port });
const window = await openBrowser(ensureBrowser());
let status = 1;
try {
  const { code, lines } = await runSuiteAt(window.page, suiteAddress(server, { extension, tests, folder }));
  for (const line of lines) console.log(line);
  for (const address of new Set(window.outside)) console.log(`asked for outside this machine: ${address}`);
  status = code;
  if (code === -1) {
    await window.page.screenshot({ path: join(tmpdir(), 'broomline-host-stuck.png') });
    console.log('the suite did not end');
  }
} finally {
  await window.close();
  await server.close();
  if (!process.env.BROOMLINE_HOST_DATA) rmSync(data, { recursive: true, force: true });
}
process.exit(status === 0 ? 0 : 1);
