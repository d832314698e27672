/** The server on Node: over the channel that the editor started it with (IPC, a pipe, a socket or stdin and stdout). */
import { setImmediate as turn } from 'node:timers/promises';
import { getHeapSpaceStatistics } from 'node:v8';
import { createConnection } from 'vscode-languageserver/node';
import type { Environment } from '../environment.ts';
import { startServer } from '../start.ts';
import { clientFiles, filesBySchema } from './clientFiles.ts';
import { nodeFiles } from './nodeFiles.ts';

/** Serves until the editor ends the connection. The channel is read from the process's own arguments. */
export function serve(): void {
  const connection = createConnection();
  startServer(connection, nodeEnvironment(filesBySchema(nodeFiles, clientFiles(connection))));
}

export function nodeEnvironment(files: Environment['files']): Environment {
  return {
    files,
    clock: () => performance.now(),
    breathe: async () => {
      await turn();
    },
    later: (run, milliseconds) => {
      if (milliseconds <= 0) {
        const soon = setImmediate(run);
        return () => clearImmediate(soon);
      }
      const timer = setTimeout(run, milliseconds);
      return () => clearTimeout(timer);
    },
    tidy: collectYoung,
  };
}

/** Where the young generation holds so many bytes, the next key would mostly have to wait for its collection. */
const WORTH_COLLECTING = 16e6;

/** Collects the young generation, where Node was started with `--expose-gc`; a few ms. */
function collectYoung(): void {
  const { gc } = globalThis as { gc?: (how: { type: 'minor' }) => void };
  if (!gc) return;
  const young = getHeapSpaceStatistics().find(space => space.space_name === 'new_space');
  if (young && young.space_used_size > WORTH_COLLECTING) gc({ type: 'minor' });
}
