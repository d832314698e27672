/** The other side of the benchmarks: what Langium itself does with a text. */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EmptyFileSystem,
  inject,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  URI,
} from 'langium';
import { BroomlineGeneratedModule, BroomlineGeneratedSharedModule } from '../../language/generated/module.ts';
import { BroomLexer } from '../../language/grammar/lexer.ts';
import { BroomTokenBuilder, BroomValueConverter } from '../../language/grammar/tokens.ts';
import { matchUnit, unitStartChars } from '../../language/units/index.ts';

/**
 * Langium's default services with our lexer, since its own can't tell where our lines end. Its parser with its recovery,
 * its scopes, linker and index.
 */
export function plainLangium(topLevelKinds: ReadonlySet<string>): LangiumSharedCoreServices {
  const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), BroomlineGeneratedSharedModule);
  const services = inject(createDefaultCoreModule({ shared }), BroomlineGeneratedModule, {
    parser: {
      TokenBuilder: () => new BroomTokenBuilder({ matchUnit, unitStartChars }),
      ValueConverter: () => new BroomValueConverter(),
      Lexer: (own: LangiumCoreServices) => new BroomLexer(own, topLevelKinds),
    },
  });
  shared.ServiceRegistry.register(services);
  return shared;
}

/** Parses and links a text. */
export async function build(shared: LangiumSharedCoreServices, text: string) {
  const document = shared.workspace.LangiumDocumentFactory.fromString(text, URI.parse('memory:/bench.broom'));
  await shared.workspace.DocumentBuilder.build([document], { validation: false });
  return document;
}
