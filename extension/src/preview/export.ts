/** The picture that the preview shows, as a file: SVG for reports and print, PNG for what takes nothing else. */
import * as vscode from 'vscode';
import type { Preview } from './panel.ts';

/**
 * Asks for the format and the file where they are not given, and writes it.
 * @param format 'svg' or 'png'
 * @param target a vscode.Uri
 */
export async function exportPicture(preview: Preview, format: unknown, target: unknown): Promise<void> {
  const form = format === 'svg' || format === 'png' ? format : await chooseForm();
  if (form === undefined) return;
  const file = target instanceof vscode.Uri ? target : await chooseFile(preview.spec, form);
  if (file === undefined) return;
  try {
    const content = await preview.picture(form);
    await vscode.workspace.fs.writeFile(file, form === 'svg' ? new TextEncoder().encode(content) : bytesOf(content));
    vscode.window.setStatusBarMessage(vscode.l10n.t('Written: {0}', file.path), 6000);
  } catch (error) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('The picture was not written: {0}', error instanceof Error ? error.message : String(error)),
    );
  }
}

async function chooseForm(): Promise<'svg' | 'png' | undefined> {
  const forms = [
    { label: 'SVG', description: vscode.l10n.t('sharp at any size, for reports and print'), form: 'svg' as const },
    { label: 'PNG', description: vscode.l10n.t('for what takes no SVG'), form: 'png' as const },
  ];
  return (await vscode.window.showQuickPick(forms, { title: vscode.l10n.t('Export the picture as') }))?.form;
}

async function chooseFile(spec: string | undefined, form: 'svg' | 'png'): Promise<vscode.Uri | undefined> {
  const beside = spec === undefined ? undefined : vscode.Uri.parse(spec);
  const defaultUri = beside?.with({ path: beside.path.replace(/\.broom$/, `.${form}`) });
  return vscode.window.showSaveDialog({
    ...(defaultUri && { defaultUri }),
    filters: { [form.toUpperCase()]: [form] },
    title: vscode.l10n.t('Export Picture'),
  });
}

/** `data:image/png;base64,…` as bytes. */
function bytesOf(address: string): Uint8Array {
  const match = /^data:image\/png;base64,([A-Za-z0-9+/=]+)$/.exec(address);
  if (!match?.[1]) throw new Error(vscode.l10n.t('the preview gave something that is no picture'));
  return Uint8Array.from(atob(match[1]), letter => letter.charCodeAt(0));
}
