// Chromium for the tests: a profile of its own, no request that leaves this machine, and the editor's console.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * Opens a window.
 * @returns `{ page, outside, close }`; `outside` holds the addresses beyond localhost that were asked for, and not given.
 */
export async function openBrowser(executablePath, { width = 1280, height = 800, theme = 'light' } = {}) {
  const profile = mkdtempSync(join(tmpdir(), 'broomline-window-'));
  // Without this the service worker of the preview is refused as third-party, and the preview stays blank.
  mkdirSync(join(profile, 'Default'), { recursive: true });
  writeFileSync(join(profile, 'Default', 'Preferences'), '{"profile":{"cookie_controls_mode":0}}');
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    args: FLAGS,
    viewport: { width, height },
    colorScheme: theme,
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  const outside = [];
  await context.route('**/*', route => {
    const { protocol, hostname } = new URL(route.request().url());
    if (!/^https?:$|^wss?:$/.test(protocol) || /(^|\.)localhost$|^127\./.test(hostname)) return route.continue();
    outside.push(route.request().url());
    return route.abort();
  });
  const page = context.pages()[0] ?? (await context.newPage());
  return {
    page,
    outside,
    close: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** Opens an address with a suite in it; fulfilled with the suite's exit code and what it printed. */
export async function runSuiteAt(page, address, ceiling = 150_000) {
  const lines = [];
  let finish;
  const finished = new Promise(resolve => {
    finish = resolve;
  });
  await page.exposeFunction('codeAutomationLog', (_type, args) => {
    lines.push(args.map(each => (typeof each === 'string' ? each : JSON.stringify(each))).join(' '));
  });
  await page.exposeFunction('codeAutomationExit', code => finish(code));
  const timer = setTimeout(() => finish(-1), ceiling);
  await page.goto(address);
  const code = await finished;
  clearTimeout(timer);
  return { code, lines };
}
