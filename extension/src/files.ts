/** Files that only the editor can reach, read for the server: in a browser, and in workspaces that lie on no disk. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { FileExistsRequest, ReadDirectoryRequest, ReadFileRequest } from '../../server/protocol.ts';

/** The largest file that is handed over; a tender of 2,000 lines has about 0.1 MB. */
const LARGEST = 8 * 1024 * 1024;

export function answerForFiles(client: BaseLanguageClient): void {
  const { fs } = vscode.workspace;
  client.onRequest(ReadFileRequest.method, async (params: unknown) => {
    const address = vscode.Uri.parse(ReadFileRequest.params.parse(params).uri, true);
    const { size } = await fs.stat(address);
    if (size > LARGEST) throw new Error(`${address.path} has ${size} bytes; a spec has at most ${LARGEST}.`);
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(await fs.readFile(address)) };
  });
  client.onRequest(ReadDirectoryRequest.method, async (params: unknown) => {
    const address = vscode.Uri.parse(ReadDirectoryRequest.params.parse(params).uri, true);
    const entries = await fs.readDirectory(address);
    return { entries: entries.map(([name, type]) => ({ name, type: typeName(type) })) };
  });
  client.onRequest(FileExistsRequest.method, async (params: unknown) => {
    const address = vscode.Uri.parse(FileExistsRequest.params.parse(params).uri, true);
    return fs.stat(address).then(
      () => ({ exists: true }),
      () => ({ exists: false }),
    );
  });
}

/** Links count as 'other': they are never followed. */
function typeName(type: vscode.FileType): 'file' | 'folder' | 'other' {
  if (type === vscode.FileType.File) return 'file';
  return type === vscode.FileType.Directory ? 'folder' : 'other';
}
