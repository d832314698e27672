/** The sample jobs: copied where the user wants them, so that they can be changed, and one of them opened. */
import * as vscode from 'vscode';
import { z } from 'zod';

const FOLDER = 'broomline-samples';
const FIRST = 'tern-sands/tender-2031.broom';

export function registerSample(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('broomline.openSample', async (into?: unknown) => {
      const parent = into instanceof vscode.Uri ? into : await chooseFolder();
      if (parent === undefined) return;
      const folder = vscode.Uri.joinPath(parent, FOLDER);
      const samples = await readSamples(context);
      for (const [path, text] of Object.entries(samples)) {
        const file = vscode.Uri.joinPath(folder, path);
        // What is there already may have been changed, and is kept.
        if (await exists(file)) continue;
        await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(text));
      }
      await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, FIRST), { preview: false });
      // Without an open folder the files of a job would not be found from each other.
      if (vscode.workspace.getWorkspaceFolder(folder) === undefined)
        vscode.workspace.updateWorkspaceFolders(vscode.workspace.workspaceFolders?.length ?? 0, 0, { uri: folder });
    }),
  );
}

const samplesFile = z.record(z.string(), z.string());

/** Text of each sample file by its path. One file holds them all: in a browser folders of the extension can't be listed. */
export async function readSamples(context: vscode.ExtensionContext): Promise<Readonly<Record<string, string>>> {
  const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(context.extensionUri, 'dist', 'samples.json'));
  return samplesFile.parse(JSON.parse(new TextDecoder().decode(bytes)));
}

/** A folder of the workspace, or one that is asked for. */
export async function chooseFolder(): Promise<vscode.Uri | undefined> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  if (folders.length === 1) return folders[0]?.uri;
  if (folders.length > 1) return (await vscode.window.showWorkspaceFolderPick())?.uri;
  const chosen = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel: vscode.l10n.t('Put the Files Here'),
  });
  return chosen?.[0];
}

export function exists(uri: vscode.Uri): Promise<boolean> {
  return Promise.resolve(vscode.workspace.fs.stat(uri)).then(
    () => true,
    () => false,
  );
}
