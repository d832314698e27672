/**
 * Parsing after a change in the value of one property: only that line is read again. All other lines keep their syntax
 * nodes, also those beside it in the same block, so that whatever was read from them can be kept. The blocks around the
 * line become new nodes, since what they say has changed.
 *
 * That a line can be read by itself is only certain where nothing of the layout is touched: what is typed is no bracket, no
 * quote, no comma and the like, the line holds the property and nothing else, and what follows begins a statement whatever
 * stands before it. Everywhere else the stretch around it is read (reparse.ts).
 */
import type { AstNode, CompositeCstNode, CstNode, LeafCstNode, ParseResult } from 'langium';
import type { Block, Document, Entry, Property } from '../generated/ast.ts';
import type { BroomReport } from './lexer.ts';
import { moveNode, type Spanning, type Whole } from './moving.ts';
import { movedProblem, problemsIn } from './problems.ts';

/** From where to where the text before is another, and how much longer the new one is. */
export interface Change {
  readonly from: number;
  readonly to: number;
  readonly chars: number;
}

/** What has no meaning for the layout, whatever it stands beside. */
const PLAIN = /^[\p{L}\p{N} .%°]*$/u;

/**
 * @param before result for the text before; its nodes become those of the new result
 * @param parse reads a text as a whole
 * @returns undefined where more than a line has to be read; nothing has been moved then
 */
export function reparseLine(
  before: ParseResult<Document>,
  text: string,
  { from, to, chars }: Change,
  parse: (text: string) => ParseResult<Document>,
): ParseResult<Document> | undefined {
  const { value: oldRoot } = before;
  const oldText = oldRoot.$cstNode!.root.fullText;
  if (!PLAIN.test(oldText.slice(from, to)) || !PLAIN.test(text.slice(from, to + chars))) return undefined;
  const found = propertyAround(oldRoot, from, to);
  if (!found) return undefined;
  const { property, block, top, at } = found;
  const start = lineStart(oldText, property.$cstNode!.offset);
  const { end } = property.$cstNode!;
  const problems = problemsIn(before);
  const { offset, end: topEnd } = top.$cstNode!;
  if (problems.some(each => each.end >= offset && each.offset <= topEnd)) return undefined;
  if (!standsAlone(oldText, start, property) || !endsThere(block, at)) return undefined;

  const line = text.slice(start, end + chars);
  const result = parse(line);
  const [fresh, more] = result.value.items;
  if (more || fresh?.$type !== 'Property' || fresh.name !== property.name || fresh.value.$type !== 'List')
    return undefined;
  if (problemsIn(result).length > 0 || line.slice(fresh.$cstNode!.end).trim() !== '') return undefined;

  const holder = partsOf(property.$cstNode as CompositeCstNode);
  const { line: lineNumber } = property.$cstNode!.range.start;
  const { content } = partsOf(fresh.$cstNode as CompositeCstNode);
  for (const node of content) {
    moveNode(node, start, lineNumber);
    Object.assign(node, { container: holder });
  }
  Object.assign(holder, { content });
  moveBehind(holder, chars);
  (oldRoot.$cstNode as unknown as Whole)._text = text;

  const value = renewed(property, { value: fresh.value });
  const root = renewUpwards(property, value) as Document;
  const report: BroomReport = {
    diagnostics: [],
    problems: problems.map(each => (each.offset < from ? each : movedProblem(each, chars))),
  };
  return { ...before, value: root, lexerReport: report };
}

interface Found {
  readonly property: Property;
  readonly block: Block;
  /** Its index in the block. */
  readonly at: number;
  /** The statement at the top of the file in which it stands. */
  readonly top: Block;
}

/** The property in whose value a stretch of text lies, where it stands in a block. */
function propertyAround(root: Document, from: number, to: number): Found | undefined {
  const around = (node: AstNode): boolean => node.$cstNode!.offset < from && to <= node.$cstNode!.end;
  const top = root.items.find(around);
  if (top?.$type !== 'Block') return undefined;
  let block: Block = top;
  for (;;) {
    const at: number = block.entries.findIndex(around);
    const entry: Entry | undefined = block.entries[at];
    if (entry?.$type === 'Block') block = entry;
    else if (entry?.$type !== 'Property' || from < (entry.value.$cstNode?.offset ?? Infinity)) return undefined;
    else return entry.value.$type === 'List' ? { property: entry, block, at, top } : undefined;
  }
}

/** Whether a line holds a property and nothing else, no comment either. */
function standsAlone(text: string, start: number, property: Property): boolean {
  const { offset, end, text: written } = property.$cstNode!;
  const rest = /^[ \t]*(?:\r?\n|$)/;
  return (
    text.slice(start, offset).trim() === '' && !/[\r\n]|\/[/*]/.test(written) && rest.test(text.slice(end, end + 200))
  );
}

/** Whether what follows a property in its block is no part of it, whatever the property says. */
function endsThere({ entries, $cstNode }: Block, at: number): boolean {
  const next = entries[at + 1];
  if (next) return next.$type === 'Property' || (next.$type === 'Block' && next.open !== undefined);
  return lastLeaf($cstNode!)?.text === '}';
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1;
}

function lastLeaf(node: CstNode): LeafCstNode | undefined {
  let at: CstNode | undefined = node;
  while (at && 'content' in at) at = (at as CompositeCstNode).content.at(-1);
  return at as LeafCstNode | undefined;
}

/** The syntax node that holds the parts of a statement: rules that only choose another one wrap it. */
function partsOf(node: CompositeCstNode): CompositeCstNode {
  let at = node;
  while (at.content.length === 1 && 'content' in at.content[0]!) at = at.content[0] as CompositeCstNode;
  return at;
}

/** Moves what stands behind a node, which has changed. */
function moveBehind(node: CompositeCstNode, chars: number): void {
  (node as unknown as Spanning)._rangeCache = undefined;
  let child: CstNode = node;
  for (let { container } = child; container; child = container, { container } = child) {
    (container as unknown as Spanning)._rangeCache = undefined;
    if (chars === 0) continue;
    const { content } = container;
    for (let i = content.indexOf(child) + 1; i < content.length; i++) moveNode(content[i]!, chars, 0);
  }
}

/** A node with other parts, in the place of the one before. */
function renewed<T extends AstNode>(node: T, parts: Partial<T>): T {
  const now = { ...node, ...parts };
  for (const [key, part] of Object.entries(now)) {
    if (key.startsWith('$') || typeof part !== 'object' || part === null) continue;
    for (const each of Array.isArray(part) ? part : [part]) {
      if (typeof each === 'object' && each !== null && '$type' in each) Object.assign(each, { $container: now });
    }
  }
  for (
    let cst = node.$cstNode as Owning | undefined;
    cst;
    cst = cst.content?.length === 1 ? cst.content[0] : undefined
  ) {
    if (cst._astNode === node) cst._astNode = now;
  }
  return now;
}

interface Owning {
  _astNode?: AstNode;
  readonly content?: readonly Owning[];
}

/** The root of the tree in which a node stands in the place of another. */
function renewUpwards(before: AstNode, now: AstNode): AstNode {
  const { $container: container, $containerProperty: property, $containerIndex: index } = before;
  if (!container) return now;
  const siblings = (container as unknown as Record<string, readonly AstNode[]>)[property!]!;
  return renewUpwards(container, renewed(container, { [property!]: siblings.with(index!, now) } as Partial<AstNode>));
}
