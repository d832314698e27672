/**
 * Writes a new check and its line in the index: `npm run new:check -- GROUP CODE`. Without arguments it only writes the
 * index anew from the files there are.
 */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', 'language', 'checks');

/** The text of the index for the files that are there. The core runs in browsers, so it can't list a folder itself. */
export function indexText() {
  const groups = readdirSync(root)
    .filter(name => statSync(join(root, name)).isDirectory())
    .sort();
  const files = groups.map(group => [
    group,
    readdirSync(join(root, group))
      .filter(name => name.endsWith('.ts'))
      .map(name => name.slice(0, -3))
      .sort(),
  ]);
  const named = code => code.replace(/-([a-z0-9])/g, (_, letter) => letter.toUpperCase());
  const imports = files.flatMap(([group, codes]) =>
    codes.map(code => `import ${named(code)} from './${group}/${code}.ts';`),
  );
  const lists = files.map(([group, codes]) => {
    const line = `  ${group}: [${codes.map(named).join(', ')}],`;
    return line.length <= 120 ? line : `  ${group}: [\n${codes.map(code => `    ${named(code)},\n`).join('')}  ],`;
  });
  return `/**
 * Every check there is, by group. Written by \`npm run new:check\`; a test fails when a file is missing here.
 */
import type { Check } from './check.ts';
${imports.sort((a, b) => (path(a) < path(b) ? -1 : 1)).join('\n')}

export const groups = {
${lists.join('\n')}
} as const satisfies Readonly<Record<string, readonly Check[]>>;

export type CheckGroup = keyof typeof groups;

export const all: readonly Check[] = Object.values(groups).flat();

const groupByCode: ReadonlyMap<string, CheckGroup> = new Map(
  (Object.keys(groups) as CheckGroup[]).flatMap(group => groups[group].map(check => [check.code, group] as const)),
);

/** The group of a check, which is the folder of its file. */
export function groupOf(code: string): CheckGroup | undefined {
  return groupByCode.get(code);
}
`;
}

function path(line) {
  return line.slice(line.indexOf("'"));
}

/** What a new check's file begins with. */
export function scaffold(code) {
  return `import { check } from '../check.ts';

export default check({
  code: '${code}',
  title: 'Say in one short sentence what is wrong',
  severity: 'warning',
  why: 'Say in two to four plain sentences why it matters to the work.',
  source: 'common-practice',
  bad: ['    crossfall: 1.5 %\\n', ''],
  *find({ job }) {
    for (const runway of job.blocks.runways) {
      if (runway.crossfall) continue;
      yield {
        message: 'What is wrong, why, and what to do, with numbers in the units of the author.',
        place: runway.heading,
        about: { kind: runway.kind, id: runway.id, name: runway.name },
      };
    }
  },
});
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [group, code] = process.argv.slice(2);
  if (code !== undefined) {
    if (!/^[a-z]+(-[a-z0-9]+)*$/.test(code))
      fail(`'${code}' is no code: write plain words with hyphens, such as broom-overlap.`);
    if (!existsSync(join(root, group))) fail(`There is no group '${group}'.`);
    const file = join(root, group, `${code}.ts`);
    if (existsSync(file)) fail(`${file} is there already.`);
    writeFileSync(file, scaffold(code));
    process.stdout.write(`${file}\n`);
  } else if (group !== undefined) fail('Say the group and the code: npm run new:check -- method broom-overlap');
  writeFileSync(join(root, 'index.ts'), indexText());
}

function fail(message) {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}
