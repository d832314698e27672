/** All files of the workspace that could matter: listed when asked for, read one by one, and only those that fit. */
import { URI, UriUtils } from 'langium';
import type { Pace, Session } from '../session.ts';

/** Addresses of the `.broom` files of the workspace, sorted; open files that lie elsewhere too. */
export async function workspaceFiles(session: Session, pace: Pick<Pace, 'step'>): Promise<readonly string[]> {
  const { project, settings, environment } = session;
  const found = new Set<string>(project.openFiles().map(address => URI.parse(address).toString()));
  const folders = [...project.workspaceFolders()];
  for (let i = 0; i < folders.length && found.size < settings.budgets.files; i++) {
    await pace.step();
    for (const entry of await listed(environment.files, folders[i]!)) {
      const name = UriUtils.basename(entry.uri);
      if (entry.isDirectory && !name.startsWith('.') && name !== 'node_modules') folders.push(entry.uri);
      if (entry.isFile && name.endsWith('.broom') && found.size < settings.budgets.files)
        found.add(entry.uri.toString());
    }
  }
  return [...found].sort();
}

async function listed(files: Session['environment']['files'], folder: URI) {
  try {
    return await files.readDirectory(folder);
  } catch {
    // A folder that may not be read holds nothing for us.
    return [];
  }
}

/** The newest text of a file: the editor's, else the disk's. Undefined where it can't be read. */
export async function textOf({ project, environment }: Session, address: string): Promise<string | undefined> {
  if (project.isOpen(address)) return (await project.ready(address))?.textDocument.getText();
  const loaded = project.documentOf(address);
  if (loaded !== undefined) return loaded.textDocument.getText();
  try {
    return await environment.files.readFile(URI.parse(address));
  } catch {
    return undefined;
  }
}

/** Loads every file of the workspace whose text holds one of the words. Those that can't be read are left out. */
export async function loadFilesWith(session: Session, words: readonly string[], pace: Pace): Promise<void> {
  const files = await workspaceFiles(session, pace);
  for (const [at, address] of files.entries()) {
    await pace.step();
    pace.progress?.report(Math.round((100 * at) / files.length));
    const text = await textOf(session, address);
    if (text !== undefined && words.some(word => text.includes(word))) await session.project.ready(address);
  }
}
