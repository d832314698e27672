/** The table of the protocol's methods against what the server really announces and answers. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as protocol from 'vscode-languageserver-protocol/node';
import { lspMethods, lspTable } from '../../server/lspMatrix.ts';
import { FULL, startClient } from './client.ts';

/** What the protocol's own library defines, with the version each method came with left out. */
function definedMethods(): string[] {
  return Object.values(protocol)
    .map(
      each =>
        (each as { type?: { method?: string } } | undefined)?.type?.method ??
        (each as { method?: string } | undefined)?.method,
    )
    .filter(
      (method): method is string =>
        typeof method === 'string' && /^[$\w]+\/|^(initialize|initialized|shutdown|exit)$/.test(method),
    );
}

/** Came after 3.17: https://microsoft.github.io/language-server-protocol/specifications/lsp/3.18/specification/ [V] */
const LATER = new Set([
  'textDocument/inlineCompletion',
  'textDocument/rangesFormatting',
  'workspace/textDocumentContent',
  'workspace/textDocumentContent/refresh',
  'workspace/foldingRange/refresh',
]);

const FULLER = {
  ...FULL,
  workspace: { ...FULL.workspace, fileOperations: { willRename: true } },
  textDocument: { ...FULL.textDocument, diagnostic: {} },
};

test('no method of the protocol is missing from the table, and none stands in it twice', () => {
  const listed = lspMethods.map(each => each.method);
  expect(new Set(listed).size).toBe(listed.length);
  const defined = definedMethods().filter(method => !LATER.has(method) && !method.startsWith('$/'));
  expect(
    defined.filter(
      method => !listed.includes(method) && !['textDocument/semanticTokens', 'notebookDocument/sync'].includes(method),
    ),
  ).toEqual([]);
  // The other way round too: a method that nobody defines is a slip of the pen.
  const known = new Set(definedMethods());
  expect(
    listed.filter(
      method => !known.has(method) && !['$/setTrace', '$/logTrace', '$/cancelRequest', '$/progress'].includes(method),
    ),
  ).toEqual([]);
});

test('what it calls supported is announced, and what it does not is not', async () => {
  const client = await startClient({}, { capabilities: FULLER });
  const announced = (path: string) =>
    path
      .split('.')
      .reduce<unknown>(
        (at, key) => (at as Record<string, unknown> | undefined)?.[key],
        client.initialized.capabilities,
      );
  for (const { method, capability, supported } of lspMethods) {
    if (capability === undefined) continue;
    expect(Boolean(announced(capability)), `${method}: ${capability}`).toBe(supported);
  }
  // Nothing is announced that the table does not know.
  const covered = new Set(lspMethods.flatMap(each => each.capability?.split('.')[0] ?? []));
  const own = Object.keys(client.initialized.capabilities).filter(
    key => !['positionEncoding', 'workspace', 'experimental'].includes(key),
  );
  expect(own.filter(key => !covered.has(key))).toEqual([]);
  await client.dispose();
});

test('what is not supported is answered as an unknown method', async () => {
  const client = await startClient({ 'a.broom': 'broomline 1\n' }, { capabilities: FULLER });
  client.open('a.broom');
  for (const { method, supported } of lspMethods) {
    if (
      supported ||
      !/^(textDocument\/(?!will)|codeAction\/|documentLink\/|inlayHint\/|workspaceSymbol\/|workspace\/(executeCommand|will))/.test(
        method,
      )
    )
      continue;
    await expect(client.request(method, client.at('a.broom', 'broomline')), method).rejects.toMatchObject({
      code: -32601,
    });
  }
  await client.dispose();
});

test('the table in DEVELOPERS.md is this one', () => {
  const text = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
  expect(text).toContain(lspTable());
});
