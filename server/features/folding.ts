/** What can be folded: blocks, tables, runs of `use` lines and of comments. */
import { AstUtils } from 'langium';
import { type FoldingRange, FoldingRangeKind, FoldingRangeRequest } from 'vscode-languageserver';
import { isBlock, isTable, isUse } from '../../language/generated/ast.ts';
import type { BroomDocument } from '../project/project.ts';
import type { Feature } from '../session.ts';

export const folding: Feature = {
  capabilities: () => ({ foldingRangeProvider: true }),
  register: session =>
    session.onDocument(FoldingRangeRequest.type, ({ document }) => foldingOf(document), { textOnly: true }),
};

export function foldingOf(document: BroomDocument): FoldingRange[] {
  const found: FoldingRange[] = [];
  const lineOf = (offset: number) => document.textDocument.positionAt(offset).line;
  const add = (startLine: number, endLine: number, kind?: FoldingRangeKind) => {
    if (endLine > startLine) found.push({ startLine, endLine, ...(kind && { kind }) });
  };
  for (const node of AstUtils.streamAllContents(document.parseResult.value)) {
    const cst = node.$cstNode;
    if (cst === undefined) continue;
    // The closing brace stays in sight.
    if (isBlock(node) && node.open) add(lineOf(cst.offset), lineOf(cst.end) - (cst.text.endsWith('}') ? 1 : 0));
    else if (isTable(node)) add(lineOf(cst.offset), lineOf(cst.end));
  }
  const uses = document.parseResult.value.items.filter(isUse);
  if (uses.length > 1)
    add(lineOf(uses[0]!.$cstNode?.offset ?? 0), lineOf(uses.at(-1)!.$cstNode?.end ?? 0), FoldingRangeKind.Imports);
  const lines = document.textDocument.getText().split('\n');
  for (let line = 0; line < lines.length; line++) {
    if (/^\s*\/\//.test(lines[line]!)) {
      const first = line;
      while (line + 1 < lines.length && /^\s*\/\//.test(lines[line + 1]!)) line++;
      add(first, line, FoldingRangeKind.Comment);
    } else if (/^\s*\/\*/.test(lines[line]!)) {
      const first = line;
      while (line + 1 < lines.length && !lines[line]!.includes('*/')) line++;
      add(first, line, FoldingRangeKind.Comment);
    }
  }
  return found.sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
}
