/**
 * The files of the workspace as the server knows them: the editor's text where a file is open, else the disk's. Parsed
 * when asked for, analysed once for each state of a file and of the files it brings in. Nothing is read before it is needed.
 *
 * Texts are immutable here: a change makes a new document, and whatever was computed from the old one stays consistent
 * in itself until nobody holds it any more.
 */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  DocumentState,
  type FileSystemProvider,
  inject,
  type LangiumDocument,
  type LangiumDocuments,
  URI,
} from 'langium';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Analysis, analyse } from '../../language/analysis/analyse.ts';
import type { Document } from '../../language/generated/ast.ts';
import { BroomlineGeneratedModule, BroomlineGeneratedSharedModule } from '../../language/generated/module.ts';
import { isInside } from '../../language/grammar/imports.ts';
import type { BroomLinker } from '../../language/grammar/linking.ts';
import {
  type BroomlineServices,
  type BroomlineSharedServices,
  broomlineModule,
  broomlineSharedModule,
  problemsOf,
  type Syntax,
} from '../../language/grammar/services.ts';
import { type BroomDocumentFactory, Loader } from '../../language/grammar/workspace.ts';
import { Memory } from '../../language/job/memory.ts';
import { nameRules } from '../../language/vocabulary/names.ts';

export type BroomDocument = LangiumDocument<Document>;

/** What is known of a file. A fault is a defect of ours: it costs this file's analysis and nothing else. */
export type Known = { readonly analysis: Analysis } | { readonly fault: string };

export type TextChange = Parameters<typeof TextDocument.update>[1][number];

export class Project {
  readonly shared: BroomlineSharedServices;
  readonly services: BroomlineServices;
  /** Counts every change of any file; answers that took several turns compare it. */
  revision = 0;
  /** How often a file was analysed; tests and benchmarks read it. */
  analysed = 0;
  /** How often a file was parsed. */
  parsed = 0;
  asOf: string | undefined;
  /** Called with the address of each file whose schedule is provisional, once for each state of it. */
  onProvisional: (address: string) => void = () => undefined;

  private readonly folders: URI[] = [];
  private readonly roots: URI[] = [];
  private readonly buffers = new Map<string, TextDocument>();
  private readonly stale = new Set<string>();
  /** File → the files that its `use` lines mean, and the other way round; by address, whether they exist or not. */
  private readonly uses = new Map<string, readonly string[]>();
  private readonly usedBy = new Map<string, Set<string>>();
  private readonly memory = new Map<string, Known>();
  /** What is kept from one text of an open file to the next. */
  private readonly memories = new Map<string, Memory>();
  /** How often a file changed on disk, so that one that changes while it is read is noticed. */
  private readonly touches = new Map<string, number>();
  private readonly loader: Loader;
  private loading: Promise<unknown> = Promise.resolve();

  /** Makes the judge of how long the search for a schedule may hold up the first findings. */
  private readonly patience: () => () => boolean;

  constructor(files: FileSystemProvider, patience: () => () => boolean = () => () => false) {
    this.patience = patience;
    this.shared = inject(
      createDefaultSharedCoreModule({ fileSystemProvider: () => files }),
      BroomlineGeneratedSharedModule,
      broomlineSharedModule(() => this.roots),
    );
    this.services = inject(
      createDefaultCoreModule({ shared: this.shared }),
      BroomlineGeneratedModule,
      broomlineModule({ topLevelKinds: nameRules.topLevelKinds, rules: nameRules }),
    );
    this.shared.ServiceRegistry.register(this.services);
    const shelf = {
      getDocument: (uri: URI) => this.documentOf(uri.toString()),
      getOrCreateDocument: (uri: URI) => this.read(uri),
    } as unknown as LangiumDocuments;
    this.loader = new Loader(files, shelf, this.services.syntax.Imports, this.shared.syntax.Failures, this.roots);
  }

  /** What the formatter needs. */
  get syntax(): Syntax {
    const { shared, services, names, imports } = this;
    return {
      shared,
      services,
      names,
      imports,
      parseText: (text, uri = 'memory:/text.broom') => {
        const langiumDocument = shared.workspace.LangiumDocumentFactory.fromString<Document>(text, URI.parse(uri));
        langiumDocument.state = DocumentState.Linked;
        return { document: langiumDocument.parseResult.value, problems: problemsOf(langiumDocument), langiumDocument };
      },
    };
  }

  get names(): BroomlineServices['syntax']['Names'] {
    return this.services.syntax.Names;
  }

  get imports(): BroomlineServices['syntax']['Imports'] {
    return this.services.syntax.Imports;
  }

  // --- what the editor says ---

  /** The folders of the workspace. Nothing outside them is read, except beside a file that is open from elsewhere. */
  setFolders(folders: readonly URI[]): void {
    this.folders.splice(0, this.folders.length, ...folders);
    this.setRoots();
  }

  workspaceFolders(): readonly URI[] {
    return this.folders;
  }

  open(address: string, languageId: string, version: number, text: string): void {
    const key = keyOf(address);
    this.buffers.set(key, TextDocument.create(address, languageId, version, text));
    this.stale.add(key);
    this.revision++;
    this.setRoots();
  }

  /** @returns false where the file is not open. */
  change(address: string, version: number, changes: readonly TextChange[]): boolean {
    const key = keyOf(address);
    const buffer = this.buffers.get(key);
    if (buffer === undefined) return false;
    this.buffers.set(key, TextDocument.update(buffer, [...changes], version));
    this.stale.add(key);
    this.revision++;
    return true;
  }

  close(address: string): void {
    const key = keyOf(address);
    this.buffers.delete(key);
    this.memories.delete(key);
    this.stale.delete(key);
    this.forget(key);
    this.setRoots();
  }

  /** A file on disk changed, came or went. The editor's own text stands above it. */
  touched(address: string): void {
    const key = keyOf(address);
    this.touches.set(key, (this.touches.get(key) ?? 0) + 1);
    this.shared.syntax.Failures.clear(URI.parse(key));
    if (this.buffers.has(key)) return;
    this.forget(key);
  }

  /** Files that could not be found are looked for again when they are next needed. */
  lookAgain(): void {
    for (const uses of this.uses.values()) {
      for (const key of uses) {
        if (this.shared.syntax.Failures.get(key) === undefined) continue;
        this.shared.syntax.Failures.clear(URI.parse(key));
        this.invalidate(key);
      }
    }
  }

  isOpen(address: string): boolean {
    return this.buffers.has(keyOf(address));
  }

  /** Version and address of an open file, as the editor gave them. */
  bufferOf(address: string): Pick<TextDocument, 'uri' | 'version'> | undefined {
    return this.buffers.get(keyOf(address));
  }

  /** Addresses of the open files, as the editor writes them. */
  openFiles(): readonly string[] {
    return [...this.buffers.values()].map(buffer => buffer.uri);
  }

  /** An address as the editor writes it, for a file that it knows. */
  addressOf(key: string): string {
    return this.buffers.get(key)?.uri ?? key;
  }

  // --- documents ---

  /** The file in its newest text, with all that it brings in loaded. Undefined where it can't be read. */
  async ready(address: string): Promise<BroomDocument | undefined> {
    const key = keyOf(address);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      this.flush();
      const missing = this.unread(key);
      if (missing.length === 0) break;
      // One load at a time: two of the same file would make two documents of it.
      const next = this.loading.then(() => this.loader.load(missing.map(each => URI.parse(each))));
      // What was loaded is not this promise's to keep.
      this.loading = next.then(
        () => undefined,
        () => undefined,
      );
      await this.loading;
    }
    return this.documentOf(key);
  }

  /** The document of a file that is loaded. */
  documentOf(address: string): BroomDocument | undefined {
    const key = keyOf(address);
    return this.shared.workspace.LangiumDocuments.getDocument(URI.parse(key)) as BroomDocument | undefined;
  }

  loadedDocuments(): readonly BroomDocument[] {
    return this.shared.workspace.LangiumDocuments.all.toArray() as BroomDocument[];
  }

  /** All files that bring this one in, directly or through others, of those that are loaded. */
  dependentsOf(address: string): ReadonlySet<string> {
    const found = new Set<string>();
    const queue = [keyOf(address)];
    for (const key of queue) {
      for (const user of this.usedBy.get(key) ?? []) {
        if (found.has(user)) continue;
        found.add(user);
        queue.push(user);
      }
    }
    return found;
  }

  /** Drops a file that nobody has open and no open file needs, to keep memory level. */
  release(address: string): void {
    const key = keyOf(address);
    if (this.buffers.has(key)) return;
    for (const user of this.dependentsOf(key)) if (this.buffers.has(user)) return;
    this.forget(key);
  }

  // --- analyses ---

  /** What is known of a loaded file; computed once for each state of it and of what it brings in. */
  known(document: BroomDocument): Known {
    const key = document.uri.toString();
    const before = this.memory.get(key);
    if (before !== undefined && this.documentOf(key) === document) return before;
    this.analysed++;
    const known = this.analyseNow(document);
    if (this.documentOf(key) === document) {
      this.memory.set(key, known);
      if ('analysis' in known && known.analysis.further) this.onProvisional(key);
    }
    return known;
  }

  /**
   * Goes on with the search for a schedule of a file that was analysed, until told that it is enough. What follows from it
   * is worked out when the search is done, or when this is the last go.
   * @returns whether there is more to do; undefined where the file has no provisional analysis any more.
   */
  improve(address: string, enough: () => boolean, last: boolean): boolean | undefined {
    const key = keyOf(address);
    const known = this.memory.get(key);
    if (known === undefined || !('analysis' in known) || !known.analysis.further || !known.analysis.searchOn)
      return undefined;
    try {
      const done = known.analysis.searchOn(enough);
      if (done || last) this.memory.set(key, { analysis: known.analysis.further(0) });
      return !done;
    } catch (error) {
      this.memory.set(key, { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
      return false;
    }
  }

  analysisOf(document: BroomDocument): Analysis | undefined {
    const known = this.known(document);
    return 'analysis' in known ? known.analysis : undefined;
  }

  /** Whether `known` would have to compute. */
  isKnown(address: string): boolean {
    const key = keyOf(address);
    return !this.stale.has(key) && this.memory.has(key);
  }

  setAsOf(asOf: string | undefined): void {
    if (this.asOf === asOf) return;
    this.asOf = asOf;
    this.forgetAnalyses();
  }

  /** Everything is analysed again when it is next asked for. */
  forgetAnalyses(): void {
    this.memory.clear();
    this.memories.clear();
    this.revision++;
  }

  private analyseNow(document: BroomDocument): Known {
    try {
      // References are followed when they are read; the analysis wants those of the file itself followed beforehand.
      (this.services.references.Linker as BroomLinker).linkNow(document);
      const memory = this.memoryOf(document.uri.toString());
      const options = {
        enough: this.patience(),
        ...(this.asOf !== undefined && { asOf: this.asOf }),
        ...(memory && { memory }),
      };
      const syntax = { names: this.names, imports: this.imports, shared: this.shared };
      return { analysis: analyse(document, syntax, options) };
    } catch (error) {
      // Nobody knows in which state it was left.
      this.memories.delete(document.uri.toString());
      return { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
    }
  }

  /** Only files that are open change at every key. */
  private memoryOf(key: string): Memory | undefined {
    if (!this.buffers.has(key)) return undefined;
    let memory = this.memories.get(key);
    if (!memory) {
      memory = new Memory();
      this.memories.set(key, memory);
    }
    return memory;
  }

  // --- details ---

  private flush(): void {
    for (const key of this.stale) {
      const buffer = this.buffers.get(key);
      if (buffer === undefined) continue;
      const uri = URI.parse(key);
      const text = buffer.getText();
      const before = this.documentOf(key);
      if (before?.textDocument.getText() === text) continue;
      this.shared.syntax.Failures.clear(uri);
      const factory = this.shared.workspace.LangiumDocumentFactory as BroomDocumentFactory;
      this.adopt(before ? factory.fromChange(before, text) : factory.fromString<Document>(text, uri));
    }
    this.stale.clear();
  }

  private async read(uri: URI): Promise<BroomDocument> {
    const key = uri.toString();
    for (;;) {
      const touches = this.touches.get(key);
      const document = await this.shared.workspace.LangiumDocumentFactory.fromUri<Document>(uri);
      this.flush();
      const known = this.documentOf(key);
      if (known !== undefined) return known;
      // A file that changed while it was read is read again, or its old text would stand until the next change.
      if (this.touches.get(key) !== touches) continue;
      this.adopt(document);
      return document;
    }
  }

  private adopt(document: BroomDocument): void {
    const { LangiumDocuments: documents } = this.shared.workspace;
    const key = document.uri.toString();
    this.parsed++;
    // Names need no preparation, so references may be followed at once.
    document.state = DocumentState.Linked;
    documents.deleteDocument(document.uri);
    documents.addDocument(document);
    this.setUses(
      key,
      this.imports.urisOf(document).map(uri => uri.toString()),
    );
    this.invalidate(key);
  }

  private forget(key: string): void {
    this.shared.workspace.LangiumDocuments.deleteDocument(URI.parse(key));
    this.setUses(key, []);
    this.invalidate(key);
  }

  private setUses(key: string, uses: readonly string[]): void {
    for (const used of this.uses.get(key) ?? []) this.usedBy.get(used)?.delete(key);
    if (uses.length === 0) this.uses.delete(key);
    else this.uses.set(key, uses);
    for (const used of uses) {
      const users = this.usedBy.get(used);
      if (users === undefined) this.usedBy.set(used, new Set([key]));
      else users.add(key);
    }
  }

  /** Nothing that was concluded from this file holds any more: not its own analysis, and none of those that use it. */
  private invalidate(key: string): void {
    this.revision++;
    this.memory.delete(key);
    for (const user of this.dependentsOf(key)) {
      this.memory.delete(user);
      const document = this.documentOf(user);
      if (document !== undefined && user !== key) this.services.references.Linker.unlink(document);
    }
  }

  /** Files among this one and those it brings in that have not been read and have not failed. */
  private unread(key: string): readonly string[] {
    const seen = new Set([key]);
    for (const each of seen) for (const used of this.uses.get(each) ?? []) seen.add(used);
    const { Failures: failures } = this.shared.syntax;
    return [...seen].filter(each => this.documentOf(each) === undefined && failures.get(each) === undefined);
  }

  private setRoots(): void {
    const beside = [...this.buffers.keys()].flatMap(key => {
      const uri = URI.parse(key);
      if (this.folders.some(folder => isInside(folder, uri))) return [];
      return [uri.with({ path: uri.path.split('/').slice(0, -1).join('/') || '/' })];
    });
    this.roots.splice(0, this.roots.length, ...this.folders, ...beside);
  }
}

/** More rounds than any chain of files needs in which each is found only when the one before was read. */
const MOST_ROUNDS = 1_000;

/** One spelling for each file: editors write drive letters and colons in several ways. */
export function keyOf(address: string): string {
  return URI.parse(address).toString();
}
