/** The reference pages: never stale, every example checks, every way to write a value means what the page says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Example } from '../../../language/checks/check.ts';
import { chemicalJob, filesOf } from '../../../language/checks/example.ts';
import { checks, groupOf } from '../../../language/checks/registry.ts';
import { exampleOf, exampleTexts } from '../../../language/documents/reference/examples.ts';
import { STATEMENTS, shownText } from '../../../language/documents/reference/statements.ts';
import { FORMS } from '../../../language/documents/reference/values.ts';
import { pageNamed, pageNames, referencePages } from '../../../language/documents/reference.ts';
import { createSyntax } from '../../../language/grammar/services.ts';
import type { AnyBlock } from '../../../language/job/job.ts';
import type { BlockKind, Property } from '../../../language/vocabulary/define.ts';
import { camel } from '../../../language/vocabulary/define.ts';
import { kinds, propertyTable } from '../../../language/vocabulary/index.ts';
import { nameRules } from '../../../language/vocabulary/names.ts';
import { analyseExample, shown } from '../../checks/support.ts';
import { codesOf, jobOf } from '../../support/jobs.ts';

const folder = fileURLToPath(new URL('../../../language/reference', import.meta.url));
const pages = referencePages();
const syntax = createSyntax({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules });

async function expectClean(example: Example): Promise<void> {
  const { findings, files } = await analyseExample(example);
  const open = findings.filter(finding => !finding.waived);
  expect(shown(open, files)).toEqual([]);
}

describe('the pages on disk', () => {
  const onDisk = (readdirSync(folder, { recursive: true }) as string[])
    .map(path => path.replaceAll('\\', '/'))
    .filter(path => path.endsWith('.md'));

  test('there is one for everything, and no other', () => {
    expect(onDisk.toSorted()).toEqual([...pages.keys()].toSorted());
    expect(pages.size).toBe(4 + kinds.size + checks.length);
  });

  test('none is stale: `npm run reference` writes them again', () => {
    const stale = onDisk.filter(path => readFileSync(join(folder, path), 'utf8') !== pages.get(path));
    expect(stale).toEqual([]);
  });

  test('every link leads to a page', () => {
    const broken = [...pages].flatMap(([path, text]) =>
      [...text.matchAll(/\]\(([^)#\s]+\.md)[^)]*\)/g)]
        .map(match => new URL(match[1]!, `file:///${path}`).pathname.slice(1))
        .filter(target => !pages.has(target)),
    );
    expect(broken).toEqual([]);
  });

  test('nothing of them is left over from a template', () => {
    for (const [path, text] of pages) {
      expect(text, path).not.toMatch(/undefined|NaN|\[object|\bnull\b|\n\n\n/);
      expect(text, path).toMatch(/^# .+\n\n/);
    }
  });
});

describe('blocks', () => {
  test('the texts that the examples are cut from check clean', async () => {
    for (const text of exampleTexts()) await expectClean(text);
  });

  test.each([...kinds.values()].map(kind => [kind.kind, kind] as const))('%s', (_, kind) => {
    const page = pages.get(`blocks/${kind.kind}.md`)!;
    const example = exampleOf(kind);
    expect(example).toMatch(new RegExp(`^${kind.kind}\\b`));
    expect(page).toContain(`\`\`\`broom\n${example}\n\`\`\``);
    const flat = (text: string) => text.replace(/\s+/g, ' ');
    expect(exampleTexts(syntax).some(text => flat(text).includes(flat(example)))).toBe(true);
    for (const [word, { property }] of propertyTable(kind)) {
      expect(page).toContain(`| \`${word}\` | ${property.doc.replaceAll('|', '\\|')} |`);
      if (property.default) expect(page).toContain(`\`${property.default.text}\``);
    }
  });

  test.each(
    [...kinds.values()].flatMap(kind =>
      [...propertyTable(kind)].map(([word, { property }]) => [`${kind.kind}.${word}`, kind, word, property] as const),
    ),
  )('the example value of %s can be read', async (_, kind, word, property) => {
    expect(await complaints(kind, word, property)).toEqual([]);
  });
});

/** What is wrong with the example of a property, names that are nowhere defined aside. */
async function complaints(kind: BlockKind, word: string, { type, example, only }: Property): Promise<string[]> {
  const rows =
    type.is === 'table'
      ? `\n${Object.values(type.columns)
          .map(() => '1')
          .join(' ')}`
      : '';
  const variant = kind.variant && word !== kind.variant ? `${kind.variant}: ${only?.[0] ?? 'apply'}\n` : '';
  const heading = kind.called === 'designator' ? `${kind.kind} "04"` : `${kind.kind} It`;
  const block = `${heading} {\n${variant}${word}: ${example}${rows}\n}`;
  const home = [...kinds.values()].find(each => Object.values(each.blocks).includes(kind));
  const text = kind.top ? block : `${home?.kind} Home {\n${block}\n}`;
  const codes = codesOf(await jobOf(`broomline 1\n\n${text}\n`));
  const others = [
    'missing-property',
    'unknown-name',
    'runway-ends',
    ...(type.is === 'table' ? ['wrong-value', 'unit-missing'] : []),
  ];
  return codes.filter(code => !others.includes(code));
}

describe('statements', () => {
  test.each(STATEMENTS.map(statement => [statement.heading, statement] as const))('%s', async (_, { shown, job }) => {
    expect(pages.get('statements.md')).toContain(`\`\`\`broom\n${shownText(shown)}\n\`\`\``);
    const texts = filesOf(job)!.map(file => file.text);
    for (const part of shown)
      expect(
        texts.some(text => text.includes(part)),
        part,
      ).toBe(true);
    await expectClean(job);
  });
});

describe('values', () => {
  test.each(FORMS.map(form => [form.written, form] as const))('%s', async (_, { at, written, same }) => {
    expect(pages.get('values.md')).toContain(`| \`${written}\` |`);
    const [heading, property] = at;
    const value = await valueAt(heading, property, written);
    expect(value).toBeDefined();
    if (same !== undefined) expect(value).toEqual(await valueAt(heading, property, same));
  });

  test('every unit and its spellings stand on the page', async () => {
    const page = pages.get('values.md')!;
    for (const word of [
      'km/h',
      'mph',
      'sq ft',
      'gal/1000 ft2',
      'gpm',
      'Δ°C',
      'US gallon',
      'imperial gallon',
      '`€` is EUR',
    ]) {
      expect(page).toContain(word);
    }
    expect(page).toContain('| `ft` | length | 0.3048 m |');
    expect(page).toContain('| `gal` | volume | 0.003785411784 m3 |');
    expect(page).toContain('| `psi` | pressure | about 6894.75729317 Pa |');
  });
});

/** The value of a property of the common job with another value in its place, which must not be a finding of values. */
async function valueAt(heading: string, property: string, written: string): Promise<unknown> {
  const block = new RegExp(`^ *${heading} \\{[\\s\\S]*?\\}`, 'm').exec(chemicalJob)![0];
  const line = new RegExp(`(\\b${property}: +).*`);
  expect(block).toMatch(line);
  const text = chemicalJob.replace(block, block.replace(line, `$1${written}`));
  const { job, findings, files } = await analyseExample(text);
  const wrong = findings.filter(({ code }) => ['language', 'values'].includes(groupOf(code) ?? ''));
  expect(shown(wrong, files)).toEqual([]);
  const [kind, name = ''] = heading.split(' ');
  const found = [...job.byId.values()].find(each => each.kind === kind && each.name === name) as unknown as
    | Record<string, AnyBlock[keyof AnyBlock] & { readonly value?: unknown }>
    | undefined;
  return found?.[camel(property)]?.value;
}

describe('by name', () => {
  test('every kind, every check, and the pages beside them', () => {
    for (const name of pageNames()) expect(pageNamed(name), name).toMatch(/^# /);
    expect(pageNamed('broom')).toBe(pages.get('blocks/broom.md'));
    expect(pageNamed('soak-short')).toBe(pages.get('checks/soak-short.md'));
    expect(pageNamed('values')).toBe(pages.get('values.md'));
    expect(pageNamed('brom')).toBeUndefined();
    expect(pageNamed('constructor')).toBeUndefined();
  });

  test('no word means two pages', () => {
    expect(new Set(pageNames()).size).toBe(pageNames().length);
  });
});
