// `npm run bench [-- NAME…]`: the benchmarks one after another, each a script that compares its sides within one run.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { root, run } from './setup.mjs';

const folder = join(root, 'tests', 'bench');
const wanted = process.argv.slice(2);
const all = readdirSync(folder).filter(name => name.endsWith('.bench.ts'));
const chosen = wanted.length === 0 ? all : all.filter(name => wanted.some(word => name.startsWith(word)));

for (const name of chosen) {
  console.log(`\n${name}\n`);
  if (run(join('tests', 'bench', name)) !== 0) process.exitCode = 1;
}
