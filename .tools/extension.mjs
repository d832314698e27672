// Bundles the extension into extension/dist: the client and the server, each for the desktop and for a browser; the
// preview; the grammar; the sample jobs. What lies there afterwards is what the VSIX holds.
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildPreview } from './preview.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'extension', 'dist');

/** Messages of the schemas in forty other languages: a quarter of a bundle, and nobody is shown them. */
const englishOnly = {
  name: 'english-only',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js';",
    }));
  },
};

/**
 * The schemas' library is used through one object that holds all of it, so all of it would come along; through the module
 * itself, the bundler sees what is used. A seventh of the client less to read before it is active.
 */
const usedOnly = {
  name: 'used-only',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/](language|server|extension)[\\/].*\.tsx?$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8');
      if (!text.includes("import { z } from 'zod';")) return undefined;
      const contents = text.replace("import { z } from 'zod';", "import * as z from 'zod';");
      return { contents, loader: path.endsWith('x') ? 'tsx' : 'ts' };
    });
  },
};

const common = {
  absWorkingDir: root,
  bundle: true,
  minify: true,
  define: { 'process.env.NODE_ENV': '"production"' },
  legalComments: 'none',
  logLevel: 'warning',
  inject: ['extension/src/polyfill.ts'],
  plugins: [englishOnly, usedOnly],
};
// Node 20 is what VS Code 1.91 to 1.100 run extensions on.
const forNode = { ...common, platform: 'node', target: 'node20', format: 'cjs' };
const forBrowser = { ...common, platform: 'browser', target: 'es2022' };

/** Entry, output, and what is particular about each bundle. */
const BUNDLES = [
  { ...forNode, entryPoints: ['extension/src/node.ts'], outfile: 'node.cjs', external: ['vscode'] },
  // One file for both. It asks for Node's modules in functions that a browser never calls.
  {
    ...forNode,
    entryPoints: ['server/main/either.ts'],
    outfile: 'server.js',
    format: 'iife',
    conditions: ['node', 'browser'],
  },
  {
    ...forBrowser,
    entryPoints: ['extension/src/browser.ts'],
    outfile: 'browser.js',
    format: 'cjs',
    external: ['vscode'],
  },
];

export async function buildExtension() {
  rmSync(dist, { recursive: true, force: true });
  mkdirSync(dist, { recursive: true });
  await Promise.all(BUNDLES.map(({ outfile, ...rest }) => build({ ...rest, outfile: join(dist, outfile) })));
  for (const name of ['language-configuration.json', 'broomline.tmLanguage.json'])
    copyFileSync(join(root, 'syntaxes', name), join(dist, name));
  writeFileSync(join(dist, 'samples.json'), JSON.stringify(samples()));
  await buildPreview(dist);
}

/** Text of every example by its path below examples/. */
function samples() {
  const folder = join(root, 'examples');
  return Object.fromEntries(
    readdirSync(folder, { recursive: true })
      .map(name => name.replaceAll('\\', '/'))
      .filter(name => name.endsWith('.broom'))
      .sort()
      .map(name => [name, readFileSync(join(folder, name), 'utf8')]),
  );
}

if (process.argv[1] && existsSync(process.argv[1]) && fileURLToPath(import.meta.url) === process.argv[1])
  await buildExtension();
