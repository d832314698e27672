/**
 * The syntax services of Broomline on Langium's core: nothing here knows of an editor, a file system or a platform.
 * A language server merges `broomlineSharedModule` and `broomlineModule` with Langium's modules for servers.
 */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  DocumentState,
  EmptyFileSystem,
  type FileSystemProvider,
  inject,
  type LangiumCoreServices,
  type LangiumDocument,
  type LangiumSharedCoreServices,
  type Module,
  type PartialLangiumCoreServices,
  URI,
} from 'langium';
import type { Document } from '../generated/ast.ts';
import { BroomlineGeneratedModule, BroomlineGeneratedSharedModule } from '../generated/module.ts';
import { matchUnit, unitStartChars } from '../units/index.ts';
import { type ImportResult, Imports } from './imports.ts';
import { BroomLexer, type BroomReport } from './lexer.ts';
import {
  BroomLinker,
  BroomReferenceDescriptions,
  BroomReferences,
  BroomScopeComputation,
  BroomScopeProvider,
  Descriptions,
} from './linking.ts';
import { createBroomParser } from './parser.ts';
import type { SyntaxProblem } from './problems.ts';
import { type NameRules, Names } from './scope.ts';
import { BroomTokenBuilder, BroomValueConverter, type UnitTable } from './tokens.ts';
import { BroomValidator } from './validator.ts';
import { BroomDocumentBuilder, BroomDocumentFactory, BroomWorkspaceManager, FailureLog, Loader } from './workspace.ts';

export interface SyntaxEnvironment {
  /** Kinds that only stand at the top of a file; such a word at the start of a line closes what is still open. */
  readonly topLevelKinds: ReadonlySet<string>;
  /** What the vocabulary says about words; by default every word may be a reference. */
  readonly rules?: NameRules;
  /** By default the units of language/units. */
  readonly units?: UnitTable;
}

/** Services that Langium does not have. */
export interface BroomlineAddedServices {
  readonly syntax: {
    readonly Names: Names;
    readonly Imports: Imports;
    readonly Descriptions: Descriptions;
  };
}

export interface BroomlineAddedSharedServices {
  readonly syntax: {
    readonly Failures: FailureLog;
    /** The folders that may be read. */
    readonly Roots: () => readonly URI[];
  };
}

export type BroomlineServices = LangiumCoreServices & BroomlineAddedServices;
export type BroomlineSharedServices = LangiumSharedCoreServices & BroomlineAddedSharedServices;

export interface ParsedText {
  readonly document: Document;
  readonly problems: readonly SyntaxProblem[];
  /** The Langium document: text, positions and references. References within the text resolve when they are read. */
  readonly langiumDocument: LangiumDocument<Document>;
}

export interface Syntax {
  readonly shared: BroomlineSharedServices;
  readonly services: BroomlineServices;
  readonly names: Names;
  readonly imports: Imports;
  /** Parses one text, outside any workspace. Never throws. */
  parseText(text: string, uri?: string): ParsedText;
}

export interface Workspace extends Syntax {
  /** Reads, parses and links files and all they bring in. Returns the documents that could be read. */
  open(uris: readonly (URI | string)[]): Promise<LangiumDocument<Document>[]>;
  /** Reads changed files again, and relinks those that bring them in. */
  refresh(changed: readonly URI[], deleted?: readonly URI[]): Promise<void>;
  documents(): LangiumDocument<Document>[];
  importsOf(document: LangiumDocument): ImportResult[];
}

/** Langium services for Broomline that know no files. */
export function createSyntax(env: SyntaxEnvironment): Syntax {
  return createWorkspace(EmptyFileSystem.fileSystemProvider(), [], env);
}

/**
 * A workspace over a file system: `roots` are the folders that may be read, nothing else is.
 * @param roots URIs of folders; a file outside all of them is never opened.
 */
export function createWorkspace(
  fileSystem: FileSystemProvider,
  roots: readonly URI[],
  env: SyntaxEnvironment,
): Workspace {
  const shared = inject(
    createDefaultSharedCoreModule({ fileSystemProvider: () => fileSystem }),
    BroomlineGeneratedSharedModule,
    broomlineSharedModule(() => roots),
  );
  const services = inject(createDefaultCoreModule({ shared }), BroomlineGeneratedModule, broomlineModule(env));
  shared.ServiceRegistry.register(services);
  const { Names: names, Imports: imports } = services.syntax;
  const { LangiumDocuments: documents, DocumentBuilder: builder } = shared.workspace;
  const loader = new Loader(fileSystem, documents, imports, shared.syntax.Failures, roots);

  const link = async (found: LangiumDocument[]) => {
    await builder.build(found.filter(document => document.state < DocumentState.IndexedReferences));
  };
  return {
    shared,
    services,
    names,
    imports,
    parseText: (text, uri) => parseText(shared, text, uri),
    async open(uris) {
      const found = await loader.load(uris.map(uri => (typeof uri === 'string' ? URI.parse(uri) : uri)));
      await link(found);
      return found as LangiumDocument<Document>[];
    },
    async refresh(changed, deleted = []) {
      for (const uri of changed) shared.syntax.Failures.clear(uri);
      await builder.update([...changed], [...deleted]);
      await link(await loader.load(changed));
    },
    documents: () => documents.all.toArray() as LangiumDocument<Document>[],
    importsOf: document => imports.of(document),
  };
}

/** Shared services; `roots` says which folders may be read, by default those of the workspace. */
export function broomlineSharedModule(
  roots?: () => readonly URI[],
): Module<BroomlineSharedServices, SharedOverrides & BroomlineAddedSharedServices> {
  return {
    workspace: {
      LangiumDocumentFactory: shared => new BroomDocumentFactory(shared, shared.syntax.Failures),
      DocumentBuilder: shared => new BroomDocumentBuilder(shared, () => importsOf(shared)),
      WorkspaceManager: shared => new BroomWorkspaceManager(shared),
    },
    syntax: {
      Failures: () => new FailureLog(),
      Roots: shared =>
        roots ??
        (() => (shared.workspace.WorkspaceManager.workspaceFolders ?? []).map(folder => URI.parse(folder.uri))),
    },
  };
}

interface SharedOverrides {
  readonly workspace: Pick<
    LangiumSharedCoreServices['workspace'],
    'LangiumDocumentFactory' | 'DocumentBuilder' | 'WorkspaceManager'
  >;
}

/** The services of the language itself. */
export function broomlineModule(
  env: SyntaxEnvironment,
): Module<BroomlineServices, PartialLangiumCoreServices & BroomlineAddedServices> {
  const units = env.units ?? { matchUnit, unitStartChars };
  return {
    parser: {
      TokenBuilder: () => new BroomTokenBuilder(units),
      ValueConverter: () => new BroomValueConverter(),
      Lexer: services => new BroomLexer(services, env.topLevelKinds),
      LangiumParser: services => createBroomParser(services),
      ParserConfig: () => ({ recoveryEnabled: false, nodeLocationTracking: 'full', skipValidations: true }),
    },
    references: {
      ScopeProvider: services => new BroomScopeProvider(services.syntax.Names, services.syntax.Descriptions),
      ScopeComputation: services => new BroomScopeComputation(services.syntax.Descriptions),
      Linker: services => new BroomLinker(services, services.syntax.Names, services.syntax.Descriptions),
      References: services => new BroomReferences(services, services.syntax.Names),
    },
    workspace: {
      ReferenceDescriptionProvider: services => new BroomReferenceDescriptions(services),
    },
    validation: {
      DocumentValidator: services => new BroomValidator(services),
    },
    syntax: {
      Names: services => new Names(services.syntax.Imports, env.rules),
      Imports: services => {
        const shared = services.shared as BroomlineSharedServices;
        return new Imports(
          () => shared.workspace.LangiumDocuments,
          () => shared.syntax.Roots(),
          () => shared.syntax.Failures,
        );
      },
      Descriptions: services => new Descriptions(services),
    },
  };
}

/** What is wrong with a document's text itself, in the order of the text. */
export function problemsOf(document: LangiumDocument): readonly SyntaxProblem[] {
  return (document.parseResult.lexerReport as BroomReport | undefined)?.problems ?? [];
}

function importsOf(shared: LangiumSharedCoreServices): Imports {
  return (shared.ServiceRegistry.all[0] as BroomlineServices).syntax.Imports;
}

function parseText(shared: LangiumSharedCoreServices, text: string, uri = 'memory:/text.broom'): ParsedText {
  const document = shared.workspace.LangiumDocumentFactory.fromString<Document>(text, URI.parse(uri));
  // Names need no preparation, so references may be followed at once.
  document.state = DocumentState.ComputedScopes;
  return { document: document.parseResult.value, problems: problemsOf(document), langiumDocument: document };
}
