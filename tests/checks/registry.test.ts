/** What holds for every check as such, and that nothing a stage reports is without one. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import type { Check } from '../../language/checks/check.ts';
import { groups } from '../../language/checks/index.ts';
import { checkPage } from '../../language/checks/page.ts';
import { checkByCode, checks, groupOf } from '../../language/checks/registry.ts';
import { SYNTAX_CODES } from '../../language/grammar/problems.ts';
import { findSource } from '../../language/sources/sources.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const folder = join(root, 'language', 'checks');
const tool = await import(pathToFileURL(join(root, '.tools', 'new-check.mjs')).href);

test('every file is in the index, under its folder, with its name as code', () => {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map(file => file.replaceAll('\\', '/'))
    .filter(file => file.includes('/') && file.endsWith('.ts'));
  const listed = Object.entries(groups).flatMap(([group, list]) => list.map(check => `${group}/${check.code}.ts`));
  expect(listed.toSorted()).toEqual(files.toSorted());
});

test('the index is as the tool writes it', () => {
  const words = (text: string) => text.replace(/,(\s*[\]}])/g, '$1').replace(/\s+/g, '');
  expect(words(readFileSync(join(folder, 'index.ts'), 'utf8'))).toBe(words(tool.indexText()));
});

test('codes are unique, plain words with hyphens', () => {
  expect(checkByCode.size).toBe(checks.length);
  for (const { code } of checks) expect(code).toMatch(/^[a-z]+(-[a-z]+)+$/);
});

test('at least sixty checks of the trade, and those of safety can not be waived', () => {
  const trade = checks.filter(check => !['language', 'values'].includes(groupOf(check.code) ?? ''));
  expect(trade.length).toBeGreaterThanOrEqual(60);
  const safety = checks.filter(check => check.safety);
  expect(safety.map(check => check.code)).toEqual(
    expect.arrayContaining([
      'safety-data-sheet-missing',
      'jetting-on-porous',
      'pressure-class-contradicts',
      'reopening-inspection-missing',
      'magnet-missing',
      'broom-last',
      'emergency-missing',
      'recall-missing',
    ]),
  );
  for (const check of safety) expect(check.waivable).toBe(false);
  for (const check of checks.filter(each => groupOf(each.code) === 'language')) expect(check.waivable).toBe(false);
});

test.each(checks.map(check => [check.code, check] as const))('%s says what it is for', (_, check: Check) => {
  expect(check.title).toMatch(/^[A-Z`][^.]+$/);
  expect(check.why.split(/[.:](?: |$)/).filter(Boolean).length).toBeGreaterThanOrEqual(2);
  expect(findSource(check.source)).toBeDefined();
  // A remembered figure says so where people read it.
  if (findSource(check.source)?.mark === 'from memory' && check.severity !== 'hint') {
    expect(`${check.why}${check.title}${checkPage(check)}`).toContain('from memory');
  }
});

test.each(checks.map(check => [check.code, check] as const))('%s has a page', (code, check: Check) => {
  const page = checkPage(check);
  expect(page.startsWith(`# ${check.title}\n`)).toBe(true);
  expect(page).toContain(`\`${code}\``);
  for (const heading of ['Why it matters', 'Example', 'Source']) expect(page).toContain(`\n## ${heading}\n`);
  expect(page).toContain(check.why);
  expect(page.split('\n').length).toBeLessThan(120);
  expect(page).not.toMatch(/undefined|\[object/);
  if (check.safety) expect(page).toContain('certifies nothing');
});

test('whatever a stage reports has a check', () => {
  const reported = new Set<string>(SYNTAX_CODES);
  for (const stage of ['evaluate', 'job', 'analysis']) {
    const files = readdirSync(join(root, 'language', stage)).filter(file => file.endsWith('.ts'));
    for (const file of files) {
      const text = readFileSync(join(root, 'language', stage, file), 'utf8');
      const codes = text.matchAll(/(?:code: (?:[^'\n]*\? )?|fail\(\w+, |: )'([a-z]+(?:-[a-z]+)+)'(?=[,;\s])/g);
      for (const [whole, code] of codes) if (/code|fail/.test(whole) || isCode(text, code!)) reported.add(code!);
    }
  }
  for (const state of importStates()) reported.add(`import-${state}`);
  expect(reported.size).toBeGreaterThan(60);
  expect([...reported].filter(code => !checkByCode.has(code))).toEqual([]);
});

/** The other branch of `code: late ? 'quantity-too-late' : 'unknown-quantity'`. */
function isCode(text: string, code: string): boolean {
  return new RegExp(`code:[^\\n]*'${code}'`).test(text);
}

/** What can become of a `use`, read from its type: each is reported as import-…; 'ok' is none. */
function importStates(): readonly string[] {
  const text = readFileSync(join(root, 'language', 'grammar', 'imports.ts'), 'utf8');
  const type = /type ImportState\s*=([^;]+);/.exec(text) ?? /state:([^;]+);/.exec(text);
  const states = [...(type?.[1] ?? '').matchAll(/'([a-z-]+)'/g)].map(match => match[1]!);
  expect(states).toContain('cyclic');
  return states.filter(state => state !== 'ok');
}

test('the scaffold of a new check is a check', async () => {
  const text: string = tool.scaffold('crossfall-missing');
  expect(text).toContain("code: 'crossfall-missing'");
  // It has to run as it is written: its own example raises it.
  const body = /\*find\([\s\S]*\n {2}\},\n\}\);/.exec(text);
  expect(body).not.toBeNull();
  expect(text).toMatch(/from '\.\.\/check\.ts'/);
});
