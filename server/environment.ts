/** What the language server needs of the platform it runs on: Node, a browser's worker, or a test. */
import type { FileSystemNode, FileSystemProvider, URI } from 'langium';

export interface Environment {
  /** Reads files and lists folders. May fail for any of them. */
  readonly files: ReadOnlyFiles;
  /** Runs something later, after at least so many milliseconds; the result cancels it. */
  readonly later: (run: () => void, milliseconds: number) => () => void;
  /** Lets everything that waits have its turn: messages that came in meanwhile, cancellations among them. */
  readonly breathe: () => Promise<void>;
  /** Milliseconds from some moment on; never runs backwards. */
  readonly clock: () => number;
  /** Does what would else be done in the middle of other work, such as collecting garbage; takes some milliseconds. */
  readonly tidy?: () => void;
}

export interface ReadOnlyFiles {
  readonly readFile: (uri: URI) => Promise<string>;
  readonly readDirectory: (uri: URI) => Promise<readonly FileSystemNode[]>;
  readonly exists: (uri: URI) => Promise<boolean>;
}

/** The files as Langium wants them. What is synchronous there, or writes, or is binary, nobody asks for here. */
export function asFileSystem(files: ReadOnlyFiles): FileSystemProvider {
  const never = (): never => {
    throw new Error('files are read one by one, and only as text');
  };
  return {
    readFile: uri => files.readFile(uri),
    readDirectory: async uri => [...(await files.readDirectory(uri))],
    exists: uri => files.exists(uri),
    stat: async () => never(),
    readBinary: async () => never(),
    statSync: never,
    existsSync: never,
    readBinarySync: never,
    readFileSync: never,
    readDirectorySync: never,
  };
}
