/** The value under the cursor, written in another unit. Which units suit it, the server's own rebuilding knows. */
import * as vscode from 'vscode';
import { LANGUAGE } from './extension.ts';

const KIND = vscode.CodeActionKind.RefactorRewrite;
const UNIT = KIND.append('unit');

export function registerConvert(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('broomline.convertUnits', async () => {
      const editor = vscode.window.activeTextEditor;
      if (editor?.document.languageId !== LANGUAGE) return;
      const found = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        editor.document.uri,
        editor.selection,
        KIND.value,
      );
      const actions = found.filter(
        each => each.edit !== undefined && each.kind !== undefined && UNIT.contains(each.kind),
      );
      if (actions.length === 0) {
        void vscode.window.showInformationMessage(
          vscode.l10n.t('Put the cursor into a number with a unit; there is none at this place.'),
        );
        return;
      }
      const chosen = await vscode.window.showQuickPick(
        actions.map(action => ({ label: action.title, action })),
        { title: vscode.l10n.t('Write this value in which unit?') },
      );
      if (chosen?.action.edit) await vscode.workspace.applyEdit(chosen.action.edit);
    }),
  );
}
