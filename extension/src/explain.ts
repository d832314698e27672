/** Where a number comes from: the explanation of a quantity as a read-only text beside the spec, kept up to date. */
import * as vscode from 'vscode';
import { BlocksRequest, ExplainRequest, OverviewRequest } from '../../server/protocol.ts';
import { LANGUAGE } from './extension.ts';
import { Later } from './later.ts';
import { type Server, said } from './server.ts';

const SCHEME = 'broomline-explain';

export function registerExplain(context: vscode.ExtensionContext, server: Server): void {
  const changed = new vscode.EventEmitter<vscode.Uri>();
  const later = new Later(400);
  const refresh = (address: string) => {
    for (const { uri } of vscode.workspace.textDocuments)
      if (uri.scheme === SCHEME && specOf(uri) === address) changed.fire(uri);
  };
  context.subscriptions.push(
    changed,
    later,
    vscode.workspace.registerTextDocumentContentProvider(SCHEME, {
      onDidChange: changed.event,
      provideTextDocumentContent: async uri => {
        try {
          return (await server.ask(ExplainRequest, { uri: specOf(uri), path: pathOf(uri) })).text;
        } catch (error) {
          return said(error);
        }
      },
    }),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === LANGUAGE) later.run(() => refresh(document.uri.toString()));
    }),
    vscode.commands.registerCommand('broomline.explainQuantity', async (wanted?: unknown) => {
      const editor = vscode.window.activeTextEditor;
      if (editor?.document.languageId !== LANGUAGE) return;
      const address = editor.document.uri.toString();
      const path = typeof wanted === 'string' ? wanted : await quantityAtCursor(server, editor);
      if (path !== undefined) await showExplanation(address, path);
    }),
  );
}

export async function showExplanation(address: string, path: string): Promise<void> {
  const uri = vscode.Uri.from({ scheme: SCHEME, path: `/${path}.txt`, query: address });
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true });
}

const specOf = (uri: vscode.Uri): string => uri.query;
const pathOf = (uri: vscode.Uri): string => uri.path.slice(1).replace(/\.txt$/, '');

/** The name under the cursor where it is a quantity's, otherwise a choice: those of the block around come first. */
async function quantityAtCursor(server: Server, editor: vscode.TextEditor): Promise<string | undefined> {
  const { document, selection } = editor;
  const address = document.uri.toString();
  const dotted = document.getWordRangeAtPosition(selection.active, /[\p{L}_][\p{L}\d_-]*(?:\.[\p{L}_][\p{L}\d_-]*)*/u);
  const word = dotted && document.getText(dotted);
  const { blocks } = await server.ask(BlocksRequest, { uri: address });
  const around = blocks.filter(({ range: { start, end } }) =>
    new vscode.Range(start.line, start.character, end.line, end.character).contains(selection.active),
  );
  const inner = around.at(-1)?.path;
  return pickQuantity(
    server,
    address,
    path => inner !== undefined && (path.startsWith(`${inner}.`) || path === inner),
    word === undefined ? [] : [word, ...around.map(block => `${block.path}.${word}`)],
  );
}

/** Asks for one of the computed quantities; those of `first` stand on top. One of `exact` is taken without asking. */
export async function pickQuantity(
  server: Server,
  address: string,
  first: (path: string) => boolean,
  exact: readonly string[] = [],
): Promise<string | undefined> {
  const { quantities } = await server.ask(OverviewRequest, { uri: address });
  const known = quantities.find(each => exact.includes(each.path));
  if (known) return known.path;
  if (quantities.length === 0) {
    void vscode.window.showInformationMessage(vscode.l10n.t('Nothing is computed in this file yet.'));
    return undefined;
  }
  const items = [...quantities.filter(each => first(each.path)), ...quantities.filter(each => !first(each.path))];
  const chosen = await vscode.window.showQuickPick(
    items.map(({ path, label, shown }) => ({ label: path, description: shown, detail: label })),
    { title: vscode.l10n.t('Explain which quantity?'), matchOnDetail: true },
  );
  return chosen?.label;
}
