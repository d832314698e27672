/** What was computed, as a table for the clipboard: parted by tabs for a spreadsheet, or as Markdown for a text. */
import * as vscode from 'vscode';
import type { z } from 'zod';
import { DeriveRequest } from '../../server/protocol.ts';
import { LANGUAGE } from './extension.ts';
import { previewedSpec } from './preview/panel.ts';
import type { Server } from './server.ts';
import { asMarkdown, asTabs, type Table, tablesOf } from './table.ts';

export type Derived = z.infer<typeof DeriveRequest.result>['derived'];

export function registerTables(context: vscode.ExtensionContext, server: Server): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('broomline.copyTable', async (which?: unknown, how?: unknown) => {
      const address = activeSpec();
      if (address === undefined) return;
      const { derived } = await server.ask(DeriveRequest, { uri: address });
      const tables = tablesOf(derived).filter(each => each.rows.length > 0);
      if (tables.length === 0) {
        void vscode.window.showInformationMessage(vscode.l10n.t('Nothing is computed in this file yet.'));
        return;
      }
      const table = tables.find(each => each.id === which) ?? (await chooseTable(tables));
      if (table === undefined) return;
      const form = how === 'tabs' || how === 'markdown' ? how : await chooseForm();
      if (form === undefined) return;
      await vscode.env.clipboard.writeText(form === 'tabs' ? asTabs(table) : asMarkdown(table));
      vscode.window.setStatusBarMessage(vscode.l10n.t('Copied {0} rows', table.rows.length), 4000);
    }),
  );
}

/** The spec in the active editor, otherwise the one in the preview. */
export function activeSpec(): string | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document?.languageId === LANGUAGE ? document.uri.toString() : previewedSpec();
}

async function chooseTable(tables: readonly Table[]): Promise<Table | undefined> {
  const chosen = await vscode.window.showQuickPick(
    tables.map(table => ({
      label: titleOf(table),
      description: vscode.l10n.t('{0} rows', table.rows.length),
      table,
    })),
    { title: vscode.l10n.t('Copy which table?') },
  );
  return chosen?.table;
}

function titleOf({ id, block }: Table): string {
  if (id === 'schedule') return vscode.l10n.t('Who does what when');
  if (block === undefined) return vscode.l10n.t('All quantities');
  return vscode.l10n.t('Quantities of {0}', block);
}

async function chooseForm(): Promise<'tabs' | 'markdown' | undefined> {
  const forms = [
    { label: vscode.l10n.t('For a spreadsheet'), description: vscode.l10n.t('parted by tabs'), form: 'tabs' as const },
    { label: vscode.l10n.t('For a text'), description: vscode.l10n.t('a Markdown table'), form: 'markdown' as const },
  ];
  return (await vscode.window.showQuickPick(forms, { title: vscode.l10n.t('Copy it how?') }))?.form;
}
