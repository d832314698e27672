/**
 * The rules of the house that a machine can hold: who may import whom, what language/ must not know, and that the lint
 * rules in biome.json say the same as the one table in .tools/order.mjs.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { STAGES, PARTS } = (await import(join(root, '.tools/order.mjs'))) as { STAGES: string[]; PARTS: string[] };
const { importRules } = (await import(join(root, '.tools/lint.mjs'))) as { importRules: () => unknown };

interface Import {
  readonly from: string;
  readonly to: string;
}

/** Every import of every source file, static and dynamic; relative ones as paths from the root. */
const imports: readonly Import[] = PARTS.flatMap(part => sourcesIn(part)).flatMap(importsOf);

describe('imports point one way', () => {
  test('every folder of language/ has its place in the order', () => {
    const folders = readdirSync(join(root, 'language'), { withFileTypes: true });
    // language/reference holds pages that are written out, and no code.
    const ofCode = folders.filter(each => each.isDirectory() && sourcesIn(join('language', each.name)).length > 0);
    expect(ofCode.filter(each => !STAGES.includes(each.name)).map(each => each.name)).toEqual([]);
    // A loose file would have no place in the order either.
    expect(folders.filter(each => each.isFile() && each.name.endsWith('.ts')).map(each => each.name)).toEqual([]);
  });

  test('inside language/, later stages import earlier ones and never the other way', () => {
    expect(wrongWay(imports)).toEqual([]);
  });

  test('extension → server → language', () => {
    expect(imports.filter(each => partOf(each.to) > partOf(each.from)).map(arrow)).toEqual([]);
  });

  test('language/ imports no platform, no editor protocol', () => {
    const foreign = imports.filter(each => partOf(each.from) === 0 && isForeign(each.to));
    expect(foreign.map(arrow)).toEqual([]);
  });

  test('the walk sees a wrong import when there is one', () => {
    const wrong = { from: 'language/units/table.ts', to: 'language/checks/check.ts' };
    expect(wrongWay([...imports, wrong])).toEqual([arrow(wrong)]);
    expect(
      ['langium/lsp', 'langium/node', 'node:fs', 'fs', 'vscode', 'vscode-languageserver/node.js'].every(isForeign),
    ).toBe(true);
    expect(['langium', 'zod', 'language/units/index.ts'].some(isForeign)).toBe(false);
    expect(imports.length).toBeGreaterThan(100);
  });
});

test('the lint rules are those of the table', () => {
  const settings = JSON.parse(readFileSync(join(root, 'biome.json'), 'utf8')) as { overrides: Override[] };
  const ours = settings.overrides.filter(each => each.linter?.rules?.style?.noRestrictedImports !== undefined);
  expect(ours).toEqual(importRules());
});

test('the lock file names no host', () => {
  const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
  expect(lock.match(/"resolved"/g)).toBeNull();
});

interface Override {
  linter?: { rules?: { style?: { noRestrictedImports?: unknown } } };
}

function sourcesIn(part: string): string[] {
  if (!existsSync(join(root, part))) return [];
  return readdirSync(join(root, part), { recursive: true, encoding: 'utf8' })
    .filter(name => /\.tsx?$/.test(name) && !/(^|[\\/])(dist|node_modules)[\\/]/.test(name))
    .map(name => join(part, name));
}

function importsOf(file: string): Import[] {
  const found = ts.preProcessFile(readFileSync(join(root, file), 'utf8'), true, true).importedFiles;
  return found.map(({ fileName }) => ({
    from: file,
    to: fileName.startsWith('.') ? relative(root, resolve(root, dirname(file), fileName)) : fileName,
  }));
}

/** Imports inside language/ that go from a stage to a later one. */
function wrongWay(all: readonly Import[]): string[] {
  return all.filter(({ from, to }) => partOf(from) === 0 && partOf(to) === 0 && stageOf(to) > stageOf(from)).map(arrow);
}

function stageOf(path: string): number {
  return STAGES.indexOf(path.split(sep)[1] ?? '');
}

/** 0 for language/, -1 for a package. */
function partOf(path: string): number {
  return PARTS.indexOf(path.split(sep)[0] ?? '');
}

function isForeign(name: string): boolean {
  return (
    /^(langium\/.|vscode|node:)/.test(name) || /^(fs|path|os|url|util|child_process|process|crypto)(\/|$)/.test(name)
  );
}

function arrow({ from, to }: Import): string {
  return `${from} → ${to}`;
}
