/** What is packed: its size, that nothing in it can reach a network, and that its manifest says what the code does. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = join(root, 'extension');
const dist = join(folder, 'dist');

interface Tools {
  buildExtension(): Promise<void>;
  packExtension(): Promise<string>;
  packedFiles(): string[];
  manifestFiles(): Promise<Record<string, unknown>>;
  LARGEST: number;
}
const tool = async (name: string) => (await import(join(root, '.tools', name))) as Tools;

/** What may stand in a bundle although it looks like a way out. Everything else that does is a finding. */
const ADDRESSES_OF_NAMES =
  /^https?:\/\/(json-schema\.org|www\.w3\.org|chevrotain\.io|langium\.org|en\.wikipedia\.org|github\.com\/chevrotain)(\/|$)/;
/** `net`: the pipe or socket on which an editor may start a language server; it listens to nobody and calls nobody by itself. */
const MODULES_OF_THE_PLATFORM = new Set(
  'vscode child_process crypto fs fs/promises net os path readline timers/promises url util'.split(' '),
);

let bundles: ReadonlyMap<string, string>;

beforeAll(async () => {
  await (await tool('extension.mjs')).buildExtension();
  const names = readdirSync(dist).filter(name => /\.c?js$/.test(name));
  bundles = new Map(names.map(name => [name, readFileSync(join(dist, name), 'utf8')]));
}, 120_000);

describe('no network', () => {
  test('no bundle names an address that it could ask', () => {
    for (const [name, text] of bundles) {
      const found = text.match(/\b(?:https?|wss?|ftp):\/\/[\w.-]+[^\s"'`)\\]*/g) ?? [];
      expect(
        found.filter(address => !ADDRESSES_OF_NAMES.test(address)),
        name,
      ).toEqual([]);
    }
  });

  test('no bundle uses what asks a network', () => {
    expect([...bundles].flatMap(([name, text]) => waysOut(text).map(each => `${name}: ${each}`))).toEqual([]);
    // The search would see it.
    expect(waysOut('const a=await fetch("x");require("node:https")')).toEqual(['fetch(', 'https']);
    expect(waysOut('new XMLHttpRequest;navigator.sendBeacon(a)')).toEqual(['XMLHttpRequest', 'sendBeacon']);
  });

  test('no source has a telemetry reporter, and the manifest no dependency that could bring one', () => {
    for (const text of bundles.values()) expect(text).not.toMatch(/createTelemetryLogger|applicationinsights/i);
    expect(manifest()).not.toHaveProperty('dependencies');
  });

  function waysOut(text: string): string[] {
    const calls = text.match(
      /(?<![\w.$])fetch\(|XMLHttpRequest|new WebSocket|EventSource\(|sendBeacon|RTCPeerConnection/g,
    );
    const modules = [...text.matchAll(/require\("(?:node:)?([\w/]+)"\)/g)].map(match => match[1]!);
    return [...new Set([...(calls ?? []), ...modules.filter(each => !MODULES_OF_THE_PLATFORM.has(each))])];
  }
});

describe('the packed file', () => {
  test('is small, and holds no source map', async () => {
    const { packExtension, packedFiles, LARGEST } = await tool('vsix.mjs');
    const { size } = statSync(await packExtension());
    expect(size).toBeLessThan(LARGEST);
    expect(LARGEST).toBe(1.5e6);
    const files = packedFiles();
    expect(files.filter(name => /\.map$|\.ts$|node_modules|src\//.test(name))).toEqual([]);
    for (const text of bundles.values()) expect(text).not.toMatch(/sourceMappingURL=/);
  });

  test('holds every file that the manifest names', async () => {
    const { packedFiles } = await tool('vsix.mjs');
    const named = [...JSON.stringify(manifest()).matchAll(/"(?:\.\/)?((?:dist|icons|walkthrough)\/[^"]+)"/g)].map(
      match => match[1]!,
    );
    expect(named.length).toBeGreaterThan(8);
    for (const name of named) expect(packedFiles()).toContain(name);
  });
});

describe('the manifest', () => {
  test('has the settings of their schemas, and every text of the code in the table for translators', async () => {
    for (const [name, content] of Object.entries(await (await tool('manifest.mjs')).manifestFiles()))
      expect(JSON.parse(readFileSync(join(folder, name), 'utf8')), `${name}: run npm run manifest`).toEqual(content);
  });

  test('takes every text from the table, and the table has no other', () => {
    const table = Object.keys(JSON.parse(readFileSync(join(folder, 'package.nls.json'), 'utf8')) as object);
    const used = [...JSON.stringify(manifest()).matchAll(/"%([^%"]+)%"/g)].map(match => match[1]!);
    expect([...new Set(used)].sort()).toEqual(table.sort());
  });

  test('declares the commands that the code registers, and no other', () => {
    const code = readdirSync(join(folder, 'src'), { recursive: true, encoding: 'utf8' })
      .filter(name => name.endsWith('.ts'))
      .map(name => readFileSync(join(folder, 'src', name), 'utf8'))
      .join('\n');
    const registered = [...code.matchAll(/registerCommand\(\s*'([\w.]+)'/g)].map(match => match[1]!);
    const { commands } = manifest().contributes;
    expect(commands.map(each => each.command).sort()).toEqual(registered.sort());
    for (const each of commands) expect(each.category).toBe('Broomline');
  });

  test('hides from the palette what needs arguments, and what needs a spec where there is none', () => {
    const palette = new Map(manifest().contributes.menus.commandPalette!.map(each => [each.command, each.when]));
    for (const name of ['showQuantities', 'showReferences']) expect(palette.get(`broomline.${name}`)).toBe('false');
    for (const name of ['openPreview', 'explainQuantity', 'convertUnits', 'exportPicture', 'copyTable'])
      expect(palette.get(`broomline.${name}`)).toMatch(/editorLangId == broomline/);
  });

  test('starts the extension for its language only, and works without trust and without a disk', () => {
    const { activationEvents, capabilities, main, browser } = manifest();
    expect(activationEvents).toEqual(['onLanguage:broomline', 'onWebviewPanel:broomline.preview']);
    expect(capabilities).toEqual({ virtualWorkspaces: true, untrustedWorkspaces: { supported: true } });
    for (const entry of [main, browser]) expect(existsSync(join(folder, entry))).toBe(true);
  });

  test('the walkthrough has at most six steps, each with what completes it', () => {
    for (const { steps } of manifest().contributes.walkthroughs) {
      expect(steps.length).toBeLessThanOrEqual(6);
      for (const step of steps) expect(step.completionEvents.length, step.id).toBeGreaterThan(0);
    }
  });
});

interface Manifest {
  main: string;
  browser: string;
  activationEvents: string[];
  capabilities: object;
  contributes: {
    commands: { command: string; category: string }[];
    menus: Record<string, { command: string; when?: string }[]>;
    walkthroughs: { steps: { id: string; completionEvents: string[] }[] }[];
  };
}

function manifest(): Manifest {
  return JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;
}
