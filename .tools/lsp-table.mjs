// Writes the table of the protocol's methods from server/lspMatrix.ts into DEVELOPERS.md, between its two marks.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from './setup.mjs';

const page = join(root, 'DEVELOPERS.md');
const BEGIN = '<!-- written by node .tools/lsp-table.mjs from server/lspMatrix.ts -->';
const END = '<!-- end of what is written -->';

const { outputFiles } = await build({
  absWorkingDir: root,
  entryPoints: ['server/lspMatrix.ts'],
  bundle: true,
  format: 'esm',
  write: false,
});
const { lspTable } = await import(
  `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`
);

const text = readFileSync(page, 'utf8');
const [before, after] = [text.indexOf(BEGIN), text.indexOf(END)];
const section = `${BEGIN}\n\n${lspTable()}\n\n${END}`;
writeFileSync(
  page,
  before < 0
    ? `${text.trimEnd()}\n\n## Editor protocol\n\nWhat the language server does with each method of the Language Server Protocol 3.17. Positions count UTF-16 units.\n\n${section}\n`
    : text.slice(0, before) + section + text.slice(after + END.length),
);
