// Bundles the extension into extension/dist: the client and the server, each for the desktop and for a browser; the
// preview; the grammar; the sample jobs. What lies there afterwards is what the VSIX holds.
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

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

const common = {
  absWorkingDir: root,
  bundle: true,
  minify: true,
  define: { 'process.env.NODE_ENV': '"production"' },
  legalComments: 'none',
  logLevel: 'warning',
  inject: ['extension/src/polyfill.ts'],
  plugins: [englishOnly],
};
// Node 20 is what VS Code 1.91 to 1.100 run extensions on.
const forNode = { ...common, platform: 'node', target: 'node20', format: 'cjs' };
const forBrowser = { ...common, platform: 'browser', target: 'es2022' };

/** Entry, output, and what is particular about each bundle. */
const BUNDLES = [
  { ...forNode, entryPoints: ['extension/src/node.ts'], outfile: 'node.cjs', external: ['vscode'] },
  { ...forNode, entryPoints: ['server/main/server.ts'], outfile: 'server.cjs' },
  {
    ...forBrowser,
    entryPoints: ['extension/src/browser.ts'],
    outfile: 'browser.js',
    format: 'cjs',
    external: ['vscode'],
  },
  { ...forBrowser, entryPoints: ['server/main/browser.ts'], outfile: 'worker.js', format: 'iife' },
  { ...forBrowser, entryPoints: ['extension/preview/main.tsx'], outfile: 'preview.js', format: 'iife', inject: [] },
];

export async function buildExtension() {
  rmSync(dist, { recursive: true, force: true });
  mkdirSync(dist, { recursive: true });
  await Promise.all(BUNDLES.map(({ outfile, ...rest }) => build({ ...rest, outfile: join(dist, outfile) })));
  for (const name of ['language-configuration.json', 'broomline.tmLanguage.json'])
    copyFileSync(join(root, 'syntaxes', name), join(dist, name));
  writeFileSync(join(dist, 'samples.json'), JSON.stringify(samples()));
  writeFileSync(join(dist, 'preview.css'), await previewStyle());
}

/** The style sheet of the preview, which is code: the same colours serve pictures that are exported. */
async function previewStyle() {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ['extension/preview/style.ts'],
    bundle: true,
    write: false,
    format: 'esm',
  });
  const code = `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`;
  return (await import(code)).previewStyle();
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
