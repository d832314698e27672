/** A browser for the tests of the preview: Debian's, installed when it is missing, so that no test is skipped in silence. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const places = [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** Starts the browser; fails with what to do where there is none and none can be installed. */
export async function startBrowser(): Promise<Browser> {
  let executablePath = found();
  if (!executablePath) {
    spawnSync('apt-get', ['install', '-y', 'chromium', 'fonts-dejavu-core'], { stdio: 'ignore', timeout: 300_000 });
    executablePath = found();
  }
  if (!executablePath)
    throw new Error('No Chromium: install it, or say where it is in the environment variable CHROMIUM.');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

function found(): string | undefined {
  return places.find(each => each !== undefined && existsSync(each));
}
