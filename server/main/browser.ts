/** The server in a browser's worker. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { startServer } from '../start.ts';
import { clientFiles } from './clientFiles.ts';

// The library of the workspace is that of Node; a worker's own scope is described by no type of it.
const scope = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope));

startServer(connection, {
  files: clientFiles(connection),
  clock: () => performance.now(),
  breathe: () => new Promise(resolve => setTimeout(resolve, 0)),
  later: (run, milliseconds) => {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
});
