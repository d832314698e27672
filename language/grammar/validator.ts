/**
 * Langium's own diagnostics for a text: the syntax problems with their codes, and nothing of its lists of expected
 * tokens or of unresolved names. Whoever turns findings into diagnostics leaves out the category `built-in`.
 */
import { DefaultDocumentValidator, type LangiumDocument, type ParseResult } from 'langium';
import type { BroomReport } from './lexer.ts';

type Diagnostics = Awaited<ReturnType<DefaultDocumentValidator['validateDocument']>>;

export class BroomValidator extends DefaultDocumentValidator {
  protected override processLexingErrors(parseResult: ParseResult, diagnostics: Diagnostics): void {
    const document = parseResult.value.$document;
    if (document === undefined) return;
    const { textDocument } = document;
    for (const one of (parseResult.lexerReport as BroomReport | undefined)?.problems ?? []) {
      const source = this.getSource();
      diagnostics.push({
        severity: one.severity === 'error' ? 1 : 2,
        range: { start: textDocument.positionAt(one.offset), end: textDocument.positionAt(one.end) },
        message: one.message,
        code: one.code,
        data: { code: one.code, ...one.data },
        ...(source === undefined ? {} : { source }),
      });
    }
  }

  protected override processParsingErrors(): void {}

  protected override processLinkingErrors(_document: LangiumDocument): void {}
}
