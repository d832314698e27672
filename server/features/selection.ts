/** Growing a selection as the text is built: word, value, property, body of the block, block, file. */
import type { CstNode } from 'langium';
import { type SelectionRange, SelectionRangeRequest } from 'vscode-languageserver';
import { z } from 'zod';
import { isBlock } from '../../language/generated/ast.ts';
import { offsetIn, rangeIn } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import { leafAt } from '../project/symbols.ts';
import { type Feature, invalid } from '../session.ts';

export const selection: Feature = {
  capabilities: () => ({ selectionRangeProvider: true }),
  register: session =>
    session.onDocument(
      SelectionRangeRequest.type,
      ({ document }, params): SelectionRange[] => {
        const positions = z
          .array(z.object({ line: z.int().min(0), character: z.int().min(0) }))
          .safeParse(params.positions);
        if (!positions.success) throw invalid('textDocument/selectionRange: positions are missing.');
        return positions.data.map(position => selectionAt(document, offsetIn(document, position)));
      },
      { textOnly: true },
    ),
};

function selectionAt(document: BroomDocument, offset: number): SelectionRange {
  const spans: [number, number][] = [[offset, offset]];
  for (let cst: CstNode | undefined = leafAt(document, offset); cst !== undefined; cst = cst.container) {
    const node = cst.astNode;
    if (isBlock(node) && cst === node.$cstNode && node.open) {
      const open = cst.text.indexOf('{');
      const close = cst.text.lastIndexOf('}');
      if (open >= 0 && close > open) spans.push(trimmed(cst.text, cst.offset, open + 1, close));
    }
    spans.push([cst.offset, cst.end]);
  }
  spans.push([0, document.textDocument.getText().length]);
  let range: SelectionRange | undefined;
  const growing = spans.filter(([start, end], i) => {
    const [from, to] = spans.slice(0, i).reduce(([a, b], [c, d]) => [Math.min(a, c), Math.max(b, d)], [offset, offset]);
    return start <= from && end >= to && (i === 0 || start < from || end > to);
  });
  for (const [start, end] of growing.reverse()) {
    range = { range: rangeIn(document, start, end), ...(range && { parent: range }) };
  }
  return range ?? { range: rangeIn(document, offset, offset) };
}

function trimmed(text: string, offset: number, from: number, to: number): [number, number] {
  const inner = text.slice(from, to);
  const lead = inner.length - inner.trimStart().length;
  const tail = inner.length - inner.trimEnd().length;
  return lead >= inner.length ? [offset + from, offset + to] : [offset + from + lead, offset + to - tail];
}
