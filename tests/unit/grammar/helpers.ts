/** What the tests of the syntax share: services with a small vocabulary, a short printed form of trees, a file system in memory. */
import { type FileSystemNode, type FileSystemProvider, URI } from 'langium';
import { createSyntax, createWorkspace, type SyntaxEnvironment } from '../../../language/grammar/services.ts';

export const TOP_KINDS = new Set([
  'job',
  'airport',
  'runway',
  'deposit',
  'product',
  'sprayer',
  'broom',
  'method',
  'work',
  'closure',
]);
export const ENVIRONMENT: SyntaxEnvironment = { topLevelKinds: TOP_KINDS };
export const syntax = createSyntax(ENVIRONMENT);

export function parse(text: string) {
  return syntax.parseText(text);
}

export function codes(text: string): string[] {
  return parse(text).problems.map(problem => problem.code);
}

/** A tree in short: `Property(name=length value=List(…))`, references as `^Name`. Positions are left out. */
export function show(node: unknown): string {
  if (Array.isArray(node)) return `[${node.map(show).join(' ')}]`;
  if (typeof node !== 'object' || node === null) return String(node);
  if ('$refText' in node) return `^${String(node.$refText)}`;
  const fields = Object.entries(node)
    .filter(
      ([key, value]) =>
        !key.startsWith('$') && value !== undefined && value !== false && !(Array.isArray(value) && value.length === 0),
    )
    .map(([key, value]) => `${key}=${show(value)}`)
    .sort();
  return `${String((node as { $type?: unknown }).$type)}(${fields.join(' ')})`;
}

/** The value of the only property in a block, in short. */
export function value(written: string): string {
  const { document } = parse(`work North {\n    x: ${written}\n}\n`);
  const block = document.items[0] as unknown as { entries: { value: unknown }[] };
  return block.entries.map(entry => (entry.value === undefined ? show(entry) : show(entry.value))).join(' | ');
}

export interface MemoryOptions {
  /** Paths that are listed but whose reading fails. */
  readonly unreadable?: readonly string[];
  /** Paths that are links: listed as neither file nor folder. */
  readonly links?: readonly string[];
}

/** A file system over a table of paths; it remembers every path that was read. */
export function memory(files: Record<string, string>, options: MemoryOptions = {}) {
  const reads: string[] = [];
  const isLink = (path: string) => options.links?.includes(path) ?? false;
  const nodeOf = (path: string): FileSystemNode | undefined => {
    if (path in files) return { isFile: !isLink(path), isDirectory: false, uri: URI.file(path) };
    const isDirectory = Object.keys(files).some(file => file.startsWith(`${path}/`));
    return isDirectory ? { isFile: false, isDirectory: !isLink(path), uri: URI.file(path) } : undefined;
  };
  const stat = (uri: URI): FileSystemNode => {
    const node = nodeOf(uri.path);
    if (node === undefined) throw new Error('no such file');
    return node;
  };
  const readFile = (uri: URI): string => {
    reads.push(uri.path);
    const text = files[uri.path];
    if (text === undefined || options.unreadable?.includes(uri.path)) throw new Error('can not read');
    return text;
  };
  const readDirectory = (uri: URI): FileSystemNode[] => {
    const base = uri.path.endsWith('/') ? uri.path : `${uri.path}/`;
    const names = new Set(
      Object.keys(files)
        .filter(file => file.startsWith(base))
        .map(file => file.slice(base.length).split('/')[0]!),
    );
    return [...names].map(name => nodeOf(base + name)!);
  };
  const provider: FileSystemProvider = {
    stat: async uri => stat(uri),
    statSync: stat,
    exists: async uri => nodeOf(uri.path) !== undefined,
    existsSync: uri => nodeOf(uri.path) !== undefined,
    readBinary: async uri => new TextEncoder().encode(readFile(uri)),
    readBinarySync: uri => new TextEncoder().encode(readFile(uri)),
    readFile: async uri => readFile(uri),
    readFileSync: readFile,
    readDirectory: async uri => readDirectory(uri),
    readDirectorySync: readDirectory,
  };
  return { provider, reads, files };
}

/** A workspace over files in memory, rooted at `/job`. */
export function workspace(
  files: Record<string, string>,
  options: MemoryOptions = {},
  env: SyntaxEnvironment = ENVIRONMENT,
) {
  const disk = memory(files, options);
  return { ...createWorkspace(disk.provider, [URI.file('/job')], env), disk };
}
