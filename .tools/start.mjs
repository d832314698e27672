// `npm start`: sets up what is missing, checks the full example job and prints what was computed from it, then serves an
// editor in the browser. `npm start -- --once` stops after the printout.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensurePackages, node, root, run } from './setup.mjs';

const EXAMPLE = 'examples/tern-sands/tender-2031.broom';
const BROOMLINE = 'server/dist/broomline.mjs';

ensurePackages();
for (const script of ['.tools/generate.mjs', '.tools/build.mjs']) {
  const status = run(script);
  if (status !== 0) process.exit(status);
}

heading(`broomline check ${EXAMPLE}`);
const checked = run(BROOMLINE, ['check', EXAMPLE]);
heading(`broomline derive ${EXAMPLE}`);
const derived = run(BROOMLINE, ['derive', EXAMPLE]);

console.log(`
What to try next
  Open ${EXAMPLE}, change a number, and run npm start -- --once again.
  npx broomline explain ${EXAMPLE} North.product      where a number comes from
  npx broomline check examples/wrong-on-purpose.broom                  what findings look like
  npx broomline --help                                                 everything else

Broomline computes and checks what the text says. It certifies nothing. The airport operator's rules, the safety data
sheet, local codes and the judgement of a licensed engineer come before anything it prints.`);
process.exitCode = Math.max(checked, derived);
if (!process.argv.includes('--once')) serve();

/** Ends with the editor, and ends it when it is ended itself. */
function serve() {
  const child = spawn(node, [join(root, '.tools', 'serve.mjs')], { cwd: root, stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', code => {
    process.exitCode = Math.max(process.exitCode ?? 0, code ?? 0);
  });
}

function heading(text) {
  console.log(`\n── ${text} ${'─'.repeat(Math.max(0, 110 - text.length))}\n`);
}
