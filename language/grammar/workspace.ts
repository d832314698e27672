/** Reading files: one bad file costs that file, and nothing outside the workspace is read. */
import {
  type AstNode,
  type Cancellation,
  DefaultDocumentBuilder,
  DefaultLangiumDocumentFactory,
  DefaultWorkspaceManager,
  type FileSystemNode,
  type FileSystemProvider,
  type LangiumDocument,
  type LangiumDocuments,
  type ParseResult,
  type Stream,
  type URI,
  UriUtils,
} from 'langium';
import type { Document } from '../generated/ast.ts';
import { type Failures, type Imports, isInside } from './imports.ts';
import type { BroomReport } from './lexer.ts';
import type { BroomParser } from './parser.ts';
import { problem } from './problems.ts';

/** What went wrong when files were read, by URI. */
export class FailureLog implements Failures {
  private readonly failures = new Map<string, { state: 'missing' | 'unreadable' | 'outside'; similar?: string }>();

  get(uri: string) {
    return this.failures.get(uri);
  }

  set(uri: URI, failure: { state: 'missing' | 'unreadable' | 'outside'; similar?: string }): void {
    this.failures.set(uri.toString(), failure);
  }

  clear(uri: URI): void {
    this.failures.delete(uri.toString());
  }
}

/** Documents of files that can't be read are empty and carry a problem that says so. */
export class BroomDocumentFactory extends DefaultLangiumDocumentFactory {
  private readonly failures: FailureLog;

  constructor(services: ConstructorParameters<typeof DefaultLangiumDocumentFactory>[0], failures: FailureLog) {
    super(services);
    this.failures = failures;
  }

  /**
   * The document of a text that came about by a change of another one; see {@link BroomParser.parseChange}. The document
   * before must not be used any more.
   */
  fromChange(before: LangiumDocument<Document>, text: string): LangiumDocument<Document> {
    const { uri } = before;
    const { parser, references } = this.serviceRegistry.getServices(uri);
    // What the references mean is found anew: the names around them may have changed.
    references.Linker.unlink(before);
    const result = (parser.LangiumParser as BroomParser).parseChange(before, text);
    return this.createLangiumDocument(result, uri, undefined, text);
  }

  protected override async getInitialText(uri: URI, token: Cancellation.CancellationToken): Promise<string> {
    return this.reading(uri, () => super.getInitialText(uri, token));
  }

  protected override async getUpdatedText<T extends AstNode>(
    document: LangiumDocument<T>,
    textDocument: Parameters<DefaultLangiumDocumentFactory['createLangiumDocument']>[2],
    token: Cancellation.CancellationToken,
  ): Promise<string> {
    return this.reading(document.uri, () => super.getUpdatedText(document, textDocument, token));
  }

  protected override async parseAsync<T extends AstNode>(
    uri: URI,
    text: string,
    token: Cancellation.CancellationToken,
  ): Promise<ParseResult<T>> {
    const result = await super.parseAsync<T>(uri, text, token);
    if (this.failures.get(uri.toString())?.state !== 'unreadable') return result;
    const message = 'This file can’t be read. Check that it exists, that it is text, and that you may open it.';
    const report: BroomReport = { diagnostics: [], problems: [problem('unreadable-file', 0, 0, message)] };
    return { ...result, lexerReport: report };
  }

  private async reading(uri: URI, read: () => Promise<string>): Promise<string> {
    try {
      const text = await read();
      this.failures.clear(uri);
      return text;
    } catch {
      this.failures.set(uri, { state: 'unreadable' });
      return '';
    }
  }
}

/** Relinks only what a change can reach: documents that bring in a changed file, directly or through others. */
export class BroomDocumentBuilder extends DefaultDocumentBuilder {
  private readonly imports: () => Imports;

  constructor(services: ConstructorParameters<typeof DefaultDocumentBuilder>[0], imports: () => Imports) {
    super(services);
    this.imports = imports;
  }

  protected override shouldRelink(document: LangiumDocument, changedUris: Set<string>): boolean {
    return this.imports().reaches(document, changedUris);
  }
}

export class BroomWorkspaceManager extends DefaultWorkspaceManager {
  /** File by file, so that one that can't be opened does not keep the others from the author. */
  protected override async loadWorkspaceDocuments(
    uris: Stream<URI>,
    collector: (document: LangiumDocument) => void,
  ): Promise<void> {
    for (const uri of uris) {
      try {
        collector(await this.langiumDocuments.getOrCreateDocument(uri));
      } catch {
        // The document factory has its own way with unreadable files; what still throws has no document at all.
      }
    }
  }
}

/** Loads files and what they bring in, each once, in the order in which they are met. */
export class Loader {
  private readonly fileSystem: FileSystemProvider;
  private readonly documents: LangiumDocuments;
  private readonly imports: Imports;
  private readonly failures: FailureLog;
  private readonly roots: readonly URI[];
  private readonly folders = new Map<string, Promise<readonly FileSystemNode[] | undefined>>();

  constructor(
    fileSystem: FileSystemProvider,
    documents: LangiumDocuments,
    imports: Imports,
    failures: FailureLog,
    roots: readonly URI[],
  ) {
    this.fileSystem = fileSystem;
    this.documents = documents;
    this.imports = imports;
    this.failures = failures;
    this.roots = roots;
  }

  /** The documents of these files and of all files they bring in. Files that are not there are left out and noted. */
  async load(uris: readonly URI[]): Promise<LangiumDocument[]> {
    this.folders.clear();
    const loaded: LangiumDocument[] = [];
    const seen = new Set<string>();
    const queue = [...uris];
    for (let i = 0; i < queue.length; i++) {
      const uri = queue[i]!;
      if (seen.has(uri.toString())) continue;
      seen.add(uri.toString());
      const document = await this.open(uri);
      if (document === undefined) continue;
      loaded.push(document);
      queue.push(...this.imports.urisOf(document));
    }
    return loaded;
  }

  private async open(uri: URI): Promise<LangiumDocument | undefined> {
    const known = this.documents.getDocument(uri);
    if (known !== undefined) return known;
    const look = await this.lookFor(uri);
    if (look !== 'there') {
      this.failures.set(uri, look);
      return undefined;
    }
    return this.documents.getOrCreateDocument(uri);
  }

  /**
   * Goes from the root to the file, name by name, so that a name in the wrong case is missing on every system, and a
   * link, whose end can't be seen from here, is not followed.
   */
  private async lookFor(uri: URI): Promise<'there' | { state: 'missing' | 'outside'; similar?: string }> {
    const root = this.roots.find(one => isInside(one, uri));
    if (root === undefined) return { state: 'outside' };
    const base = root.path.endsWith('/') ? root.path : `${root.path}/`;
    const names = uri.path.slice(base.length).split('/');
    let folder = root;
    for (let i = 0; i < names.length; i++) {
      const entries = await this.list(folder);
      // A file system that can't list its folders is asked for the file itself, when that is opened.
      if (entries === undefined) return (await this.exists(uri)) ? 'there' : { state: 'missing' };
      const entry = entries.find(one => UriUtils.basename(one.uri) === names[i]);
      if (entry === undefined) {
        const lower = names[i]!.toLowerCase();
        const similar = entries.map(one => UriUtils.basename(one.uri)).find(name => name.toLowerCase() === lower);
        return similar === undefined ? { state: 'missing' } : { state: 'missing', similar };
      }
      const last = i === names.length - 1;
      if (last ? !entry.isFile : !entry.isDirectory) {
        return !entry.isFile && !entry.isDirectory ? { state: 'outside' } : { state: 'missing' };
      }
      folder = UriUtils.joinPath(folder, names[i]!);
    }
    return 'there';
  }

  private list(folder: URI): Promise<readonly FileSystemNode[] | undefined> {
    const key = folder.toString();
    let listing = this.folders.get(key);
    if (listing === undefined) {
      listing = (async () => {
        try {
          return await this.fileSystem.readDirectory(folder);
        } catch {
          return undefined;
        }
      })();
      this.folders.set(key, listing);
    }
    return listing;
  }

  private async exists(uri: URI): Promise<boolean> {
    try {
      return await this.fileSystem.exists(uri);
    } catch {
      return false;
    }
  }
}
