/** The page of a check: why it matters, its source, a bad and a good example. */
import * as vscode from 'vscode';
import { LANGUAGE } from './extension.ts';
import type { Server } from './server.ts';

/** The server provides the pages as documents; see server/features/checkPages.ts. */
const SCHEME = 'broomline-check';

export function registerCheckPages(context: vscode.ExtensionContext, server: Server): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('broomline.showCheckPage', async (wanted?: unknown) => {
      const code = typeof wanted === 'string' ? wanted : await chooseCode();
      if (code === undefined) return;
      const uri = vscode.Uri.from({ scheme: SCHEME, path: `/${code}.md` });
      try {
        await vscode.commands.executeCommand('markdown.showPreviewToSide', uri);
      } catch (error) {
        // An editor without its own preview of Markdown shows the text.
        server.log.debug(String(error));
        await vscode.window.showTextDocument(uri, { viewColumn: vscode.ViewColumn.Beside });
      }
    }),
  );
}

/** One of the findings of the file, those at the cursor first. */
async function chooseCode(): Promise<string | undefined> {
  const editor = vscode.window.activeTextEditor;
  const document = editor?.document.languageId === LANGUAGE ? editor.document : undefined;
  const all = (document ? [document.uri] : vscode.workspace.textDocuments.map(each => each.uri)).flatMap(uri =>
    vscode.languages.getDiagnostics(uri).filter(each => each.source === LANGUAGE),
  );
  const here = (each: vscode.Diagnostic) =>
    document !== undefined && editor !== undefined && each.range.intersection(editor.selection) !== undefined;
  const seen = new Map<string, string>();
  for (const each of [...all.filter(here), ...all]) {
    const code = codeOf(each);
    if (code !== undefined && !seen.has(code)) seen.set(code, each.message);
  }
  if (seen.size === 0) {
    void vscode.window.showInformationMessage(vscode.l10n.t('There are no findings in the open files.'));
    return undefined;
  }
  const chosen = await vscode.window.showQuickPick(
    [...seen].map(([label, detail]) => ({ label, detail })),
    { title: vscode.l10n.t('The page of which check?'), matchOnDetail: true },
  );
  return chosen?.label;
}

function codeOf({ code }: vscode.Diagnostic): string | undefined {
  const value = typeof code === 'object' ? code.value : code;
  return value === undefined ? undefined : String(value);
}
