// `npm run bench [-- NAME…]`: the benchmarks one after another, each a script that compares its sides within one run.
// They run with the young generation that the extension gives its server (extension/src/node.ts).
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { root, run } from './setup.mjs';

const folder = join(root, 'tests', 'bench');
const wanted = process.argv.slice(2);
const all = readdirSync(folder).filter(name => name.endsWith('.bench.ts'));
const chosen = wanted.length === 0 ? all : all.filter(name => wanted.some(word => name.startsWith(word)));

const flags = ['--expose-gc', '--max-semi-space-size=32'];

for (const name of chosen) {
  console.log(`\n${name}\n`);
  if (run(join('tests', 'bench', name), [], { flags }) !== 0) process.exitCode = 1;
}
