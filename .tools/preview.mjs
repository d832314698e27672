// Bundles the preview: one script and one style sheet, for the extension and for the tests that drive it in a browser.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Writes preview.js and preview.css into a folder. */
export async function buildPreview(folder, { minify = true } = {}) {
  const common = {
    absWorkingDir: root,
    bundle: true,
    jsx: 'automatic',
    jsxImportSource: 'preact',
    define: { 'process.env.NODE_ENV': '"production"' },
    legalComments: 'none',
    logLevel: 'warning',
  };
  await build({
    ...common,
    entryPoints: ['extension/preview/main.tsx'],
    outfile: join(folder, 'preview.js'),
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    minify,
  });
  // The style sheet is written by the same code that writes that of exported pictures.
  const { outputFiles } = await build({
    ...common,
    entryPoints: ['extension/preview/style.ts'],
    platform: 'neutral',
    format: 'esm',
    write: false,
  });
  const { previewStyle } = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
  writeFileSync(join(folder, 'preview.css'), previewStyle());
}
