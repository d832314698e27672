/** The one layout of a text: of the whole file, of a range, and of what was just written. */
import {
  DocumentFormattingRequest,
  DocumentOnTypeFormattingRequest,
  DocumentRangeFormattingRequest,
  type TextEdit,
} from 'vscode-languageserver';
import { z } from 'zod';
import { formatEdits } from '../../language/format/format.ts';
import { cursorAt } from '../project/cursor.ts';
import { offsetIn, rangeIn } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import { type Feature, invalid, type Session } from '../session.ts';

export const formatting: Feature = {
  capabilities: () => ({
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '}', moreTriggerCharacter: ['\n'] },
  }),
  register: session => {
    session.onDocument(
      DocumentFormattingRequest.type,
      ({ document, text }): TextEdit[] => edits(session, document, 0, text.length),
      { textOnly: true },
    );
    session.onDocument(
      DocumentRangeFormattingRequest.type,
      ({ document }, { range }): TextEdit[] =>
        edits(session, document, offsetIn(document, range.start), offsetIn(document, range.end)),
      { textOnly: true, ranged: true },
    );
    session.onPosition(
      DocumentOnTypeFormattingRequest.type,
      ({ document, text, offset }, params): TextEdit[] => {
        const typed = z.string().safeParse(params.ch);
        if (!typed.success) throw invalid('textDocument/onTypeFormatting: ch is missing.');
        // What lies behind the cursor is still to be written; its gap is the author's.
        const end = typed.data === '\n' ? text.lastIndexOf('\n', offset - 1) : offset;
        const cursor = cursorAt(text, typed.data === '}' ? Math.max(0, offset - 1) : Math.max(0, end));
        if (cursor.inComment || cursor.inText || end < 0) return [];
        const start = cursor.blocks.at(-1)?.start ?? cursor.start;
        return edits(session, document, start, end, true);
      },
      { textOnly: true },
    );
  },
};

/** Edits that touch the stretch; `inside` keeps to those that lie in it. */
function edits({ project }: Session, document: BroomDocument, start: number, end: number, inside = false): TextEdit[] {
  return formatEdits(document.textDocument.getText(), project.syntax, { offset: start, end })
    .filter(edit => !inside || (edit.offset >= start && edit.end <= end))
    .map(edit => ({ range: rangeIn(document, edit.offset, edit.end), newText: edit.text }));
}
