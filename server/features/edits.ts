/** Changes of several files as an edit of the workspace, with the versions they were computed for. */
import type { CreateFile, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { rangeIn } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import type { Session } from '../session.ts';

export interface Change {
  readonly document: BroomDocument;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface NewFile {
  readonly uri: string;
  readonly text: string;
}

/** Each change once; new files are created first. */
export function workspaceEdit(
  session: Session,
  changes: readonly Change[],
  created: readonly NewFile[] = [],
): WorkspaceEdit {
  const { project, client } = session;
  const byFile = new Map<string, { document: BroomDocument; edits: Map<string, TextEdit> }>();
  for (const { document, start, end, text } of changes) {
    const key = document.uri.toString();
    const entry = byFile.get(key) ?? { document, edits: new Map<string, TextEdit>() };
    byFile.set(key, entry);
    entry.edits.set(`${start} ${end} ${text}`, { range: rangeIn(document, start, end), newText: text });
  }
  const files = [...byFile].map(([key, { edits }]) => ({ uri: project.addressOf(key), edits: [...edits.values()] }));
  if (client.workspace?.workspaceEdit?.documentChanges !== true) {
    return { changes: Object.fromEntries(files.map(({ uri, edits }) => [uri, edits])) };
  }
  const creations = created.flatMap(({ uri, text }): (CreateFile | TextDocumentEdit)[] => [
    { kind: 'create', uri, options: { overwrite: false, ignoreIfExists: false } },
    { textDocument: { uri, version: null }, edits: [{ range: { start: TOP, end: TOP }, newText: text }] },
  ]);
  const edits = files.map(
    ({ uri, edits }): TextDocumentEdit => ({
      textDocument: { uri, version: project.bufferOf(uri)?.version ?? null },
      edits,
    }),
  );
  return { documentChanges: [...creations, ...edits] };
}

const TOP = { line: 0, character: 0 };

/** Whether new files may be part of an edit for this client. */
export function createsFiles({ client }: Session): boolean {
  const edit = client.workspace?.workspaceEdit;
  return edit?.documentChanges === true && edit.resourceOperations?.includes('create') === true;
}
