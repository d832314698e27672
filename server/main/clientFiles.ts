/** Files that only the editor can reach: in a browser, and in workspaces that lie on no disk. It is asked for them. */
import type { URI } from 'langium';
import type { Connection } from 'vscode-languageserver';
import type { ReadOnlyFiles } from '../environment.ts';
import { FileExistsRequest, ReadDirectoryRequest, ReadFileRequest } from '../protocol.ts';

export function clientFiles(connection: Connection): ReadOnlyFiles {
  return {
    async readFile(uri) {
      return ReadFileRequest.result.parse(await connection.sendRequest(ReadFileRequest.method, { uri: uri.toString() }))
        .text;
    },
    async readDirectory(uri) {
      const { entries } = ReadDirectoryRequest.result.parse(
        await connection.sendRequest(ReadDirectoryRequest.method, { uri: uri.toString() }),
      );
      return entries.map(({ name, type }) => ({
        isFile: type === 'file',
        isDirectory: type === 'folder',
        uri: uri.with({ path: `${uri.path.replace(/\/$/, '')}/${name}` }),
      }));
    },
    async exists(uri) {
      return FileExistsRequest.result.parse(
        await connection.sendRequest(FileExistsRequest.method, { uri: uri.toString() }),
      ).exists;
    },
  };
}

/** The disk for addresses of files, the editor for all others. */
export function filesBySchema(disk: ReadOnlyFiles, editor: ReadOnlyFiles): ReadOnlyFiles {
  const of = (uri: URI) => (uri.scheme === 'file' ? disk : editor);
  return {
    readFile: uri => of(uri).readFile(uri),
    readDirectory: uri => of(uri).readDirectory(uri),
    exists: uri => of(uri).exists(uri),
  };
}
