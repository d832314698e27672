/** Places of syntax nodes. */
import { type AstNode, AstUtils, type CompositeCstNode, type CstNode, GrammarUtils } from 'langium';
import type { Block } from '../generated/ast.ts';
import type { Place } from '../vocabulary/given.ts';

/** Address of the file a node stands in; '' for a tree without a document. */
export function fileOf(node: AstNode): string {
  let root = node;
  while (root.$container) root = root.$container;
  return root.$document?.uri.toString() ?? '';
}

export function textOfFile(node: AstNode): string {
  return AstUtils.getDocument(node).textDocument.getText();
}

/** The whole node. A node that recovery made up stands at the end of its container. */
export function placeOf(node: AstNode): Place {
  const cst = node.$cstNode;
  if (cst) return { file: fileOf(node), start: cst.offset, end: cst.end };
  const container = node.$container;
  if (!container) return { file: fileOf(node), start: 0, end: 0 };
  const around = placeOf(container);
  return { ...around, start: around.end };
}

/** A part of a node: `placeOfPart(block, 'name')`. The whole node where the part is not there. */
export function placeOfPart(node: AstNode, part: string, index?: number): Place {
  const cst = GrammarUtils.findNodeForProperty(node.$cstNode, part, index);
  return cst ? { file: fileOf(node), start: cst.offset, end: cst.end } : placeOf(node);
}

/** Kind and name: where a finding about the block as a whole stands. */
export function headingOf(block: Block): Place {
  const cst = block.$cstNode as CompositeCstNode | undefined;
  if (!cst) return placeOf(block);
  // Kind comes first and name second, so there is no need to search the whole block for them.
  const [kind, name] = firstTwo(cst);
  const named = block.name !== undefined || block.label !== undefined;
  return { file: fileOf(block), start: cst.offset, end: (named ? name : kind)?.end ?? kind?.end ?? cst.end };
}

function firstTwo(cst: CompositeCstNode): readonly (CstNode | undefined)[] {
  const [first, second] = seen(cst);
  // The rules that a block is an alternative of (Item, Entry) wrap its node in theirs; its kind is a token.
  return first && 'content' in first ? firstTwo(first as CompositeCstNode) : [first, second];
}

/** The first two children that are no blanks and comments. */
function seen(cst: CompositeCstNode): readonly CstNode[] {
  const found: CstNode[] = [];
  for (const child of cst.content ?? []) {
    if (!child.hidden) found.push(child);
    if (found.length === 2) break;
  }
  return found;
}

/** Place and text at once: both are asked for at every value, and looking for the ends of a node costs. */
export function standingAt(node: AstNode, file: string): { readonly place: Place; readonly text: string } {
  const cst = node.$cstNode;
  if (!cst) return { place: placeOf(node), text: '' };
  const { offset: start, end } = cst;
  return { place: { file, start, end }, text: cst.root.fullText.slice(start, end) };
}

/** What stands in the text at a node, blanks at the ends left out. */
export function textOf(node: AstNode): string {
  return node.$cstNode?.text.trim() ?? '';
}
