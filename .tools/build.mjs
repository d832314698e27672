// Bundles the command line (server/dist/broomline.mjs) and the language server: for Node (server.cjs) and for a browser's
// worker (worker.js). Each is one file that needs nothing else. With an argument they go to that folder instead.
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = process.argv[2] ?? join(root, 'server', 'dist');
const outfile = join(folder, 'broomline.mjs');

// The bundled parser needs Node 22; an older one would fail with a stack trace, so the first line says it in words.
const banner = `#!/usr/bin/env node
if (Number(process.versions.node.split('.')[0]) < 22) {
  console.error('broomline needs Node 22 or newer, and this is ' + process.versions.node + '. In a clone of the project, npx broomline takes the one that npm installed.');
  process.exit(2);
}
import { createRequire as broomlineCreateRequire } from 'node:module';
const require = broomlineCreateRequire(import.meta.url);`;

const common = {
  absWorkingDir: root,
  bundle: true,
  define: { 'process.env.NODE_ENV': '"production"' },
  legalComments: 'none',
  logLevel: 'warning',
};
const forNode = { ...common, platform: 'node', target: 'node22' };

await Promise.all([
  build({ ...forNode, entryPoints: ['server/cli/main.ts'], outfile, format: 'esm', banner: { js: banner } }),
  build({
    ...forNode,
    entryPoints: ['server/main/server.ts'],
    outfile: join(folder, 'server.cjs'),
    format: 'cjs',
  }),
  build({
    ...common,
    entryPoints: ['server/main/browser.ts'],
    outfile: join(folder, 'worker.js'),
    platform: 'browser',
    format: 'iife',
    target: 'es2023',
    minify: true,
  }),
]);
chmodSync(outfile, 0o755);
