// The one table of which folder may import which. The lint rules in biome.json are written from it
// (`node .tools/lint.mjs`), and tests/unit/house.test.ts walks every import against it.

/** Folders of language/, earliest first. A folder imports itself and those before it, never one after it. */
export const STAGES = [
  'words',
  'units',
  'sources',
  'vocabulary',
  'generated',
  'grammar',
  'format',
  'formulas',
  'evaluate',
  'job',
  'explain',
  'tracks',
  'exposure',
  'schedule',
  'friction',
  'quantities',
  'mend',
  'pictures',
  'checks',
  'analysis',
  'documents',
];

/** Top folders of code, innermost first. */
export const PARTS = ['language', 'server', 'extension'];

/** What language/ must not import: it runs in a terminal, a server and a browser worker alike. */
export const FOREIGN_TO_LANGUAGE = ['langium/*', 'vscode', 'vscode-language*', 'vscode-jsonrpc*', 'node:*'];
