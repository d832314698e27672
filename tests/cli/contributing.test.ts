/** What DEVELOPERS.md and README.md promise, tried: the one line that adds a property, and the code in the text. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { expect, test } from 'vitest';
import { createSyntax } from '../../language/grammar/services.ts';
import { topKindWords } from '../../language/vocabulary/index.ts';
import { folderOf, root } from './command.ts';

const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');

test('adding a property takes the one line of the guide', async () => {
  const line = /```ts\n( +lift: quantity\(.*\),)\n```/.exec(guide)?.[1];
  expect(line).toBeDefined();
  const folder = folderOf({
    'good.broom': broomWith('lift: 6 in'),
    'bare.broom': broomWith('lift: 150'),
    'high.broom': broomWith('lift: 3 m'),
    'typo.broom': broomWith('lfit: 150 mm'),
  });
  const outfile = join(folder, 'broomline.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['server/cli/main.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'silent',
    plugins: [
      {
        name: 'one line more',
        setup: ({ onLoad }) => {
          onLoad({ filter: /vocabulary[\\/]plant\.ts$/ }, ({ path }) => {
            const [before, after] = readFileSync(path, 'utf8').split("  kind: 'broom',");
            return {
              loader: 'ts',
              contents: `${before}  kind: 'broom',${after?.replace('properties: {', `properties: {\n${line}`)}`,
            };
          });
        },
      },
    ],
  });
  const check = (file: string) =>
    spawnSync(process.execPath, [outfile, 'check', file], { cwd: folder, encoding: 'utf8' }).stdout;
  expect(check('good.broom')).toContain('No findings');
  expect(check('bare.broom')).toContain('(unit-missing)');
  expect(check('high.broom')).toContain('(out-of-range)');
  expect(check('typo.broom')).toMatch(/Did you mean\s+lift\?/);
});

test('the Broomline text in the README can be read', () => {
  const blocks = [...readFileSync(join(root, 'README.md'), 'utf8').matchAll(/```\n([^`]*\buse "[^`]*)```/g)];
  expect(blocks.length).toBeGreaterThan(0);
  const syntax = createSyntax({ topLevelKinds: topKindWords });
  for (const [, text = ''] of blocks) expect(syntax.parseText(text).problems).toEqual([]);
});

test('every file and folder that the guides name is there', () => {
  const known = new Set(
    execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard'], {
      cwd: root,
      encoding: 'utf8',
    }).split('\n'),
  );
  const folders = new Set([...known].flatMap(path => path.split('/').map((_, i, all) => all.slice(0, i).join('/'))));
  const named = [guide, readFileSync(join(root, 'README.md'), 'utf8')].flatMap(text =>
    [...text.matchAll(/[`(]((?:language|server|tests|examples|\.tools|\.ci)\/[\w./-]*)[`)]/g)].map(match => match[1]!),
  );
  const made = /^language\/generated|^server\/dist/;
  const missing = named.filter(path => !made.test(path) && !known.has(path) && !folders.has(path.replace(/\/$/, '')));
  expect(missing).toEqual([]);
});

function broomWith(property: string): string {
  return `broomline 1\nbroom B {\n  width: 2.4 m\n  bristles: nylon\n  ${property}\n}\n`;
}
