/** What a file shows, for tests that hold the end of many changes against a fresh start. */
import { type Client, uriOf } from './client.ts';

/** Everything that is shown of a file, once no better schedule is to come. */
export async function shownOf(client: Client, name: string): Promise<Readonly<Record<string, unknown>>> {
  const textDocument = { uri: uriOf(name) };
  const range = { start: { line: 0, character: 0 }, end: { line: 100_000, character: 0 } };
  // How far a schedule has got depends on the clock; the end does not.
  const { project } = client.running.session!;
  for (;;) {
    const document = await project.ready(uriOf(name));
    if (!document || !project.analysisOf(document)?.further) break;
    await new Promise(resolve => setTimeout(resolve, 5));
  }
  return {
    diagnostics: await client.diagnostics(name),
    symbols: await client.request('textDocument/documentSymbol', { textDocument }),
    hints: await client.request('textDocument/inlayHint', { textDocument, range }),
    folds: await client.request('textDocument/foldingRange', { textDocument }),
    links: await client.request('textDocument/documentLink', { textDocument }),
    lenses: await client.request('textDocument/codeLens', { textDocument }),
    // Answers have ids of their own.
    tokens: (await client.request<{ data: unknown }>('textDocument/semanticTokens/full', { textDocument })).data,
  };
}
