/** A host for the preview that keeps what it hears: a page in a plain browser, with the editor's variables and policy. */
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { Sender } from '../../extension/preview/delivery.ts';
import { type ToHost, type ToPreview, toHost } from '../../extension/preview/messages.ts';
import { previewPage } from '../../extension/preview/page.ts';
import type { PictureData } from '../../language/pictures/data.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
export const output = join(root, 'tests', 'output', 'preview');

const { buildPreview } = (await import(join(root, '.tools', 'preview.mjs'))) as {
  buildPreview: (folder: string, options?: { minify?: boolean }) => Promise<void>;
};

export type ThemeName = 'light' | 'dark' | 'high contrast' | 'high contrast light';

/** A message to the preview, or one whose picture is still to be put into parts. */
export type Said =
  | ToPreview
  | { readonly type: 'show'; readonly data: PictureData; readonly clock: string }
  | { readonly type: 'whatIf'; readonly id: number; readonly data: PictureData };

export interface Opened {
  readonly page: Page;
  /** Messages of the preview so far, each of which fits the schema. */
  readonly heard: () => Promise<readonly ToHost[]>;
  /** Says it, and waits until it is drawn. */
  readonly say: (message: Said) => Promise<void>;
  /** Waits until all that is to be drawn is drawn: it is drawn in turns. */
  readonly rest: () => Promise<void>;
  /** What the host knows of what the preview has. */
  readonly sender: Sender;
  /** Requests that went anywhere but to the page itself, and errors of the page and its policy. */
  readonly trouble: readonly string[];
  readonly kept: () => Promise<unknown>;
  readonly close: () => Promise<void>;
}

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: ThemeName;
  readonly kept?: unknown;
  readonly reducedMotion?: boolean;
  readonly scale?: number;
  readonly font?: string;
  /** Translations, as the editor hands them over. */
  readonly words?: Readonly<Record<string, string>>;
}

/** Builds the preview once for a test file. */
export async function built(): Promise<void> {
  mkdirSync(output, { recursive: true });
  await buildPreview(output);
}

export async function openPreview(browser: Browser, options: OpenOptions = {}): Promise<Opened> {
  const { width = 640, height = 780, theme = 'light', kept, reducedMotion = false, scale = 1, font, words } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: scale,
    reducedMotion: reducedMotion ? 'reduce' : 'no-preference',
  });
  const page = await context.newPage();
  const trouble: string[] = [];
  page.on('pageerror', error => trouble.push(`error: ${error.message}`));
  page.on('console', message => {
    if (message.type() === 'error') trouble.push(`console: ${message.text()}`);
  });
  const origin = 'http://preview.test';
  await context.route('**/*', route => {
    const { pathname, origin: from } = new URL(route.request().url());
    if (from !== origin) {
      trouble.push(`outside request: ${route.request().url()}`);
      return route.abort();
    }
    if (pathname === '/') {
      const body = previewPage({
        script: `${origin}/preview.js`,
        style: `${origin}/preview.css`,
        source: origin,
        nonce: 'n0nce',
        title: 'Preview',
        words,
      });
      return route.fulfill({ contentType: 'text/html', body });
    }
    if (pathname === '/preview.js' || pathname === '/preview.css') {
      return route.fulfill({
        contentType: pathname.endsWith('js') ? 'text/javascript' : 'text/css',
        body: readFileSync(join(output, pathname.slice(1))),
      });
    }
    return route.fulfill({ status: 404 });
  });
  await context.addInitScript(
    ({ colours, classes, state, family }) => {
      const heard: unknown[] = [];
      let stored: unknown = state;
      Object.assign(window, {
        heard,
        storedState: () => stored,
        acquireVsCodeApi: () => ({
          postMessage: (message: unknown) => heard.push(JSON.parse(JSON.stringify(message))),
          getState: () => stored,
          setState: (next: unknown) => {
            stored = JSON.parse(JSON.stringify(next));
          },
        }),
      });
      document.addEventListener('DOMContentLoaded', () => {
        document.body.classList.add(...classes);
        for (const [name, colour] of Object.entries(colours)) document.documentElement.style.setProperty(name, colour);
        if (family) document.documentElement.style.setProperty('--vscode-font-family', family);
      });
    },
    { colours: editorThemes[theme].colours, classes: editorThemes[theme].classes, state: kept, family: font },
  );
  await page.goto(`${origin}/`);
  // What is said before it listens is lost.
  await page.waitForFunction(() =>
    (window as unknown as { heard: { type: string }[] }).heard.some(each => each.type === 'ready'),
  );
  const sender = new Sender();
  const twoFrames = () => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
  const rest = async (): Promise<void> => {
    await page.evaluate(twoFrames);
    await page.waitForFunction(() => !document.querySelector('[aria-busy="true"]'));
    await page.evaluate(twoFrames);
  };
  return {
    sender,
    page,
    rest,
    trouble,
    heard: async () => {
      const all = (await page.evaluate(() => (window as unknown as { heard: unknown[] }).heard)) as unknown[];
      return all.map(message => toHost.parse(message));
    },
    say: async message => {
      const said = 'data' in message ? { ...message, data: undefined, picture: sender.deliver(message.data) } : message;
      await page.evaluate(each => window.postMessage(each, '*'), said as unknown as object);
      await rest();
    },
    kept: () => page.evaluate(() => (window as unknown as { storedState: () => unknown }).storedState()),
    close: () => context.close(),
  };
}

/** Variables as editors set them; only those that the preview reads. */
const editorThemes: Readonly<Record<ThemeName, { classes: string[]; colours: Record<string, string> }>> = {
  light: {
    classes: ['vscode-light'],
    colours: {
      '--vscode-foreground': '#3b3b3b',
      '--vscode-descriptionForeground': '#616161',
      '--vscode-editor-background': '#ffffff',
      '--vscode-charts-purple': '#652d90',
      '--vscode-charts-blue': '#1a85ff',
      '--vscode-editorError-foreground': '#e51400',
      '--vscode-editorWarning-foreground': '#bf8803',
      '--vscode-focusBorder': '#005fb8',
      '--vscode-button-background': '#005fb8',
      '--vscode-button-foreground': '#ffffff',
    },
  },
  dark: {
    classes: ['vscode-dark'],
    colours: {
      '--vscode-foreground': '#cccccc',
      '--vscode-descriptionForeground': '#9d9d9d',
      '--vscode-editor-background': '#1f1f1f',
      '--vscode-charts-purple': '#b180d7',
      '--vscode-charts-blue': '#3794ff',
      '--vscode-editorError-foreground': '#f85149',
      '--vscode-editorWarning-foreground': '#cca700',
      '--vscode-focusBorder': '#0078d4',
      '--vscode-button-background': '#0078d4',
      '--vscode-button-foreground': '#ffffff',
    },
  },
  'high contrast': {
    classes: ['vscode-high-contrast'],
    colours: {
      '--vscode-foreground': '#ffffff',
      '--vscode-descriptionForeground': '#ffffff',
      '--vscode-editor-background': '#000000',
      '--vscode-charts-purple': '#b180d7',
      '--vscode-charts-blue': '#3794ff',
      '--vscode-editorError-foreground': '#f48771',
      '--vscode-editorWarning-foreground': '#ffd370',
      '--vscode-focusBorder': '#f38518',
      '--vscode-button-background': '#000000',
      '--vscode-button-foreground': '#ffffff',
      '--vscode-contrastBorder': '#6fc3df',
    },
  },
  'high contrast light': {
    classes: ['vscode-high-contrast', 'vscode-high-contrast-light'],
    colours: {
      '--vscode-foreground': '#292929',
      '--vscode-descriptionForeground': '#292929',
      '--vscode-editor-background': '#ffffff',
      '--vscode-charts-purple': '#652d90',
      '--vscode-charts-blue': '#1a85ff',
      '--vscode-editorError-foreground': '#b5200d',
      '--vscode-editorWarning-foreground': '#895503',
      '--vscode-focusBorder': '#006bbd',
      '--vscode-button-background': '#0f4a85',
      '--vscode-button-foreground': '#ffffff',
      '--vscode-contrastBorder': '#0f4a85',
    },
  },
};
