/**
 * The syntax services of Broomline on Langium's core: nothing here knows of an editor, a file system or a platform.
 * A language server merges `BroomlineModule` and `BroomlineSharedModule` with its own modules.
 */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
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
import { BroomLexer, type BroomReport } from './lexer.ts';
import { createBroomParser } from './parser.ts';
import type { SyntaxProblem } from './problems.ts';
import { BroomTokenBuilder, BroomValueConverter, type UnitTable } from './tokens.ts';

export interface SyntaxEnvironment {
  /** Kinds that only stand at the top of a file; such a word at the start of a line closes what is still open. */
  readonly topLevelKinds: ReadonlySet<string>;
  readonly units?: UnitTable;
  readonly fileSystem?: FileSystemProvider;
}

export interface Syntax {
  readonly shared: LangiumSharedCoreServices;
  readonly services: LangiumCoreServices;
  parseText(text: string, uri?: string): ParsedText;
}

export interface ParsedText {
  readonly document: Document;
  readonly problems: readonly SyntaxProblem[];
  readonly langiumDocument: LangiumDocument<Document>;
}

/** Langium services for Broomline over the given environment. */
export function createSyntax(env: SyntaxEnvironment): Syntax {
  const fileSystemProvider = env.fileSystem === undefined ? EmptyFileSystem.fileSystemProvider : () => env.fileSystem!;
  const shared = inject(createDefaultSharedCoreModule({ fileSystemProvider }), BroomlineGeneratedSharedModule);
  const services = inject(createDefaultCoreModule({ shared }), BroomlineGeneratedModule, broomlineModule(env));
  shared.ServiceRegistry.register(services);
  return { shared, services, parseText: (text, uri) => parseText(shared, text, uri) };
}

export function broomlineModule(env: SyntaxEnvironment): Module<LangiumCoreServices, PartialLangiumCoreServices> {
  const units = env.units ?? { matchUnit, unitStartChars };
  return {
    parser: {
      TokenBuilder: () => new BroomTokenBuilder(units),
      ValueConverter: () => new BroomValueConverter(),
      Lexer: services => new BroomLexer(services, env.topLevelKinds),
      LangiumParser: services => createBroomParser(services),
      ParserConfig: () => ({ recoveryEnabled: false, nodeLocationTracking: 'full', skipValidations: true }),
    },
  };
}

function parseText(shared: LangiumSharedCoreServices, text: string, uri = 'memory:/text.broom'): ParsedText {
  const document = shared.workspace.LangiumDocumentFactory.fromString<Document>(text, URI.parse(uri));
  return { document: document.parseResult.value, problems: problemsOf(document), langiumDocument: document };
}

/** What is wrong with a document's text itself, in the order of the text. */
export function problemsOf(document: LangiumDocument): readonly SyntaxProblem[] {
  return (document.parseResult.lexerReport as BroomReport | undefined)?.problems ?? [];
}
