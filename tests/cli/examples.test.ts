/**
 * Baselines: what the command line prints for every example, kept beside it and read in the diff of a change. A baseline
 * that changes on purpose is written again by `npm run baselines`.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { broomline, root } from './command.ts';

const folder = join(root, 'tests/baselines');
const examples = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' })
  .filter(name => name.endsWith('.broom'))
  .map(name => name.replaceAll('\\', '/'))
  .toSorted();
const commands = ['check', 'derive'] as const;
const baselineOf = (example: string, command: string) =>
  `${example.replace('.broom', '').replaceAll('/', '.')}.${command}.txt`;

// A missing baseline is written by the runner and passes; so it is seen here that none is missing, and none left over.
test('every example has its baselines, and every baseline its example', () => {
  const wanted = examples.flatMap(example => commands.map(command => baselineOf(example, command)));
  expect(readdirSync(folder).toSorted()).toEqual(wanted.toSorted());
});

describe.each(examples)('%s', example => {
  test.each(commands)('%s', async command => {
    const { status, out, err } = await broomline([command, `examples/${example}`], { columns: 120 });
    const printed = `${out}${err && `\n${err}`}\nexit status ${status}\n`;
    await expect(printed).toMatchFileSnapshot(join(folder, baselineOf(example, command)));
  });

  test('is clean, unless it is wrong on purpose', async () => {
    const { status, out } = await broomline(['check', `examples/${example}`]);
    if (example.startsWith('wrong-on-purpose')) expect(status).toBe(1);
    else expect({ status, warnings: out.includes('\n       warning: ') }).toEqual({ status: 0, warnings: false });
  });
});
