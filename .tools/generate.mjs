// Generates the parser from the grammar when it is missing or older than the grammar.
import { execFileSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const age = path => (existsSync(root + path) ? statSync(root + path).mtimeMs : 0);
const sources = ['language/grammar/broomline.langium', 'language/grammar/types.langium', 'langium-config.json'];

if (age('language/generated/grammar.ts') < Math.max(...sources.map(age)) || process.argv.includes('--force')) {
  execFileSync(process.execPath, [`${root}node_modules/langium-cli/bin/langium.js`, 'generate'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
