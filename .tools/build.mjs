// Bundles the command line into one file, server/dist/broomline.mjs.
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const outfile = join(root, 'server', 'dist', 'broomline.mjs');

// The bundled parser needs Node 22; an older one would fail with a stack trace, so the first line says it in words.
const banner = `#!/usr/bin/env node
if (Number(process.versions.node.split('.')[0]) < 22) {
  console.error('broomline needs Node 22 or newer, and this is ' + process.versions.node + '. In a clone of the project, npx broomline takes the one that npm installed.');
  process.exit(2);
}`;

await build({
  absWorkingDir: root,
  entryPoints: ['server/cli/main.ts'],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node22',
  banner: { js: banner },
  define: { 'process.env.NODE_ENV': '"production"' },
  legalComments: 'none',
  logLevel: 'warning',
});
chmodSync(outfile, 0o755);
