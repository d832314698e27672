/**
 * Imports: which file a `use` means, and what can be wrong with it. Only files inside the workspace are ever read:
 * a path is relative, plain, and stays under one of the roots.
 */
import { AstUtils, type LangiumDocument, type LangiumDocuments, type URI } from 'langium';
import { type Document, isUse, type Use } from '../generated/ast.ts';

export type ImportState =
  | 'ok'
  | 'missing'
  | 'outside'
  | 'cyclic'
  | 'duplicate'
  | 'self'
  | 'not-a-broom-file'
  | 'unreadable';

/** Why a path leads out of the workspace, or could. */
export type OutsideReason = 'absolute' | 'above' | 'backslash' | 'encoded' | 'scheme' | 'odd-name' | 'link';

export interface ImportResult {
  readonly use: Use;
  readonly state: ImportState;
  /** The file that is meant, when it is inside the workspace. */
  readonly uri?: URI;
  readonly reason?: OutsideReason;
  /** For `cyclic`: the files on the way round, first and last are the same. */
  readonly chain?: readonly string[];
  /** For `missing`: a name in that folder which differs in case only. */
  readonly similar?: string;
}

export type ResolvedPath =
  | { readonly state: 'ok'; readonly uri: URI }
  | { readonly state: 'outside'; readonly reason: OutsideReason }
  | { readonly state: 'not-a-broom-file' };

/**
 * The file that a path in `use` means, seen from the file `from`. Looks at nothing but its arguments.
 * Without roots, the folder of the importing file is the only root.
 */
export function resolvePath(path: string, from: URI, roots: readonly URI[]): ResolvedPath {
  const outside = (reason: OutsideReason): ResolvedPath => ({ state: 'outside', reason });
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(path)) return outside('scheme');
  if (/^[/~]/.test(path) || /^\\\\/.test(path)) return outside('absolute');
  if (path.includes('\\')) return outside('backslash');
  if (/%[0-9A-Fa-f]{2}/.test(path)) return outside('encoded');
  const folder = from.path.split('/').slice(0, -1);
  const segments = [...folder];
  for (const segment of path.split('/')) {
    if (segment === '' || segment === '.') continue;
    if (segment === '..') {
      if (segments.length <= 1) return outside('above');
      segments.pop();
    } else if (isOddName(segment)) return outside('odd-name');
    else segments.push(segment);
  }
  const uri = from.with({ path: segments.join('/'), query: '', fragment: '' });
  const within = roots.length > 0 ? roots : [from.with({ path: folder.join('/') || '/' })];
  if (!within.some(root => isInside(root, uri))) return outside('above');
  if (!path.endsWith('.broom') || path.endsWith('/.broom') || path === '.broom') return { state: 'not-a-broom-file' };
  return { state: 'ok', uri };
}

/** Control characters, colons (streams, drives), and names whose end some file systems drop, so `.. ` could mean `..`. */
function isOddName(segment: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  return /[\u0000-\u001F\u007F:*?"<>|]/.test(segment) || /[. ]$/.test(segment);
}

/** Whether `uri` is below `root`, by whole names. */
export function isInside(root: URI, uri: URI): boolean {
  if (root.scheme !== uri.scheme || root.authority !== uri.authority) return false;
  const base = root.path.endsWith('/') ? root.path : `${root.path}/`;
  return uri.path.startsWith(base) && !uri.path.slice(base.length).split('/').includes('..');
}

/** What went wrong when a file was looked for; kept by whoever reads files. */
export interface Failures {
  /** By URI. */
  get(uri: string): { readonly state: 'missing' | 'unreadable' | 'outside'; readonly similar?: string } | undefined;
}

export class Imports {
  private readonly documents: () => LangiumDocuments;
  private readonly roots: () => readonly URI[];
  private readonly failures: () => Failures;

  constructor(documents: () => LangiumDocuments, roots: () => readonly URI[], failures: () => Failures) {
    this.documents = documents;
    this.roots = roots;
    this.failures = failures;
  }

  /** The path of one `use`, resolved. */
  pathOf(use: Use): ResolvedPath | undefined {
    const document = AstUtils.findRootNode(use).$document;
    if (document === undefined || typeof use.path !== 'string') return undefined;
    return resolvePath(use.path, document.uri, this.roots());
  }

  /** The document that a `use` brings in, when it is loaded. A file never brings in itself. */
  targetOf(use: Use): LangiumDocument<Document> | undefined {
    const path = this.pathOf(use);
    if (path?.state !== 'ok') return undefined;
    const target = this.documents().getDocument(path.uri) as LangiumDocument<Document> | undefined;
    return target?.parseResult.value === AstUtils.findRootNode(use) ? undefined : target;
  }

  /** URIs of the files that a document's `use` lines mean, whether they exist or not. */
  urisOf(document: LangiumDocument): URI[] {
    return usesOf(document).flatMap(use => {
      const path = this.pathOf(use);
      return path?.state === 'ok' ? [path.uri] : [];
    });
  }

  /** Whether a document brings in one of the given files, directly or through others. */
  reaches(document: LangiumDocument, uris: ReadonlySet<string>): boolean {
    return this.search(document, uri => uris.has(uri)) !== undefined;
  }

  /** Every `use` of a document with what became of it, in the order of the text. */
  of(document: LangiumDocument): ImportResult[] {
    const seen = new Set<string>();
    return usesOf(document).map(use => this.resultOf(use, document, seen));
  }

  private resultOf(use: Use, document: LangiumDocument, seen: Set<string>): ImportResult {
    const path = resolvePath(use.path ?? '', document.uri, this.roots());
    if (path.state !== 'ok') return { use, ...path };
    const { uri } = path;
    const key = uri.toString();
    if (key === document.uri.toString()) return { use, state: 'self', uri };
    if (seen.has(key)) return { use, state: 'duplicate', uri };
    seen.add(key);
    const failure = this.failures().get(key);
    const target = this.documents().getDocument(uri);
    if (failure !== undefined && (target === undefined || failure.state === 'unreadable')) {
      return { use, uri, ...failure, ...(failure.state === 'outside' ? { reason: 'link' as const } : {}) };
    }
    if (target === undefined) return { use, state: 'missing', uri };
    const home = document.uri.toString();
    const way = this.search(target, next => next === home);
    if (way === undefined) return { use, state: 'ok', uri };
    return { use, state: 'cyclic', uri, chain: [home, ...way] };
  }

  /** The shortest way along imports from a document to a URI that fits: the URIs, the document's own first. */
  private search(start: LangiumDocument, fits: (uri: string) => boolean): string[] | undefined {
    const from = new Map<string, string | undefined>([[start.uri.toString(), undefined]]);
    const queue: LangiumDocument[] = [start];
    for (let i = 0; i < queue.length; i++) {
      const document = queue[i]!;
      for (const uri of this.urisOf(document)) {
        const key = uri.toString();
        if (from.has(key)) continue;
        from.set(key, document.uri.toString());
        if (fits(key)) return wayTo(key, from);
        const next = this.documents().getDocument(uri);
        if (next !== undefined) queue.push(next);
      }
    }
    return undefined;
  }
}

function wayTo(end: string, from: ReadonlyMap<string, string | undefined>): string[] {
  const way: string[] = [];
  for (let at: string | undefined = end; at !== undefined; at = from.get(at)) way.unshift(at);
  return way;
}

/** The `use` lines of a document. */
export function usesOf(document: LangiumDocument): Use[] {
  const root = document.parseResult.value as Partial<Document>;
  return (root.items ?? []).filter(isUse);
}
