/**
 * Parsing after a change: only the stretch that changed is read again, the statements around it are moved to where they
 * now stand. The result is that of parsing the whole text, but for the identity of what did not change: its syntax nodes
 * are the ones of before, so whatever was worked out from them can be kept.
 *
 * A stretch runs from one block at the top of the file to another, both at the start of a line: there the layout begins
 * anew, whatever stands before. Where that can't be told (a brace or a comment left open), nothing is reused.
 */
import type { CompositeCstNode, CstNode, LangiumDocument, LeafCstNode, ParseResult } from 'langium';
import type { Block, Document, Item } from '../generated/ast.ts';
import type { BroomReport } from './lexer.ts';
import { moveNode, type Spanning, type Whole } from './moving.ts';
import { MOST_PROBLEMS, movedProblem, problemsIn, type SyntaxProblem, tidy } from './problems.ts';
import { reparseLine } from './reparseLine.ts';

/** A block at the top that the layout takes for the start of something new. */
interface Boundary {
  /** Its index among the items. */
  readonly at: number;
  readonly start: number;
  /** End of its first two words, which make it a block. */
  readonly headEnd: number;
  readonly line: number;
}

/** Problems whose cause may lie where the stretch ends. */
const OPEN_ENDED: ReadonlySet<string> = new Set(['block-not-closed', 'comment-not-closed']);

/**
 * The parse result of a text, made from that of the text before it. The syntax nodes of what did not change move from
 * there into the new tree, so the old one must not be used any more.
 * @param before document of the text before; its references have to be unlinked
 * @param kinds kinds of block that stand at the top of a file
 * @param parse reads a text as a whole
 * @returns undefined where nothing could be kept; nothing has been moved then
 */
export function reparse(
  before: LangiumDocument<Document>,
  text: string,
  kinds: ReadonlySet<string>,
  parse: (text: string) => ParseResult<Document>,
): ParseResult<Document> | undefined {
  const { value: oldRoot } = before.parseResult;
  const oldTree = oldRoot.$cstNode;
  const problems = problemsIn(before.parseResult);
  if (!oldTree || problems.length >= MOST_PROBLEMS) return undefined;
  const oldText = oldTree.root.fullText;
  const { items } = oldRoot;

  const prefix = samePrefix(oldText, text);
  const changedEnd = oldText.length - sameSuffix(oldText, text, prefix);
  const chars = text.length - oldText.length;
  const line = reparseLine(before.parseResult, text, { from: prefix, to: changedEnd, chars }, parse);
  if (line) return line;
  const boundaries = items.flatMap((item, at) => boundaryOf(item, at, kinds) ?? []);
  const first = startOf(boundaries, items, prefix, problems);
  // The line break before a boundary has to be an unchanged one.
  const last = boundaries.find(each => each.start > changedEnd && (!first || each.at > first.at));
  if (!first && !last) return undefined;

  const from = first?.start ?? 0;
  const oldTo = last?.start ?? oldText.length;
  const stretch = text.slice(from, last ? oldTo + chars : text.length);
  const result = parse(stretch);
  const found = problemsIn(result);
  const tree = result.value.$cstNode;
  if (!tree || (last && found.some(each => OPEN_ENDED.has(each.code)))) return undefined;

  const fromLine = first?.line ?? 0;
  const lines = last ? fromLine + lineBreaks(stretch) - last.line : 0;
  const contents = (oldTree as CompositeCstNode).content;
  const head = contents.filter(node => node.offset < from);
  const tail = last ? contents.filter(node => node.offset >= oldTo) : [];
  const middle = (tree as CompositeCstNode).content;
  if (from > 0) for (const node of middle) moveNode(node, from, fromLine);
  if (chars !== 0 || lines !== 0) for (const node of tail) moveNode(node, chars, lines);
  adopt(tree as CompositeCstNode, [...head, ...middle, ...tail], text);

  const root = result.value;
  root.items = [...items.slice(0, first?.at ?? 0), ...root.items, ...(last ? items.slice(last.at) : [])];
  for (const [index, item] of root.items.entries()) Object.assign(item, { $container: root, $containerIndex: index });

  const all = [
    ...problems.filter(each => each.offset < from),
    ...found.map(each => movedProblem(each, from)),
    ...problems.filter(each => last && each.offset >= oldTo).map(each => movedProblem(each, chars)),
  ];
  const report: BroomReport = { diagnostics: [], problems: tidy(all) };
  return { ...result, lexerReport: report };
}

/** The last boundary from which on the text may be read again: its head is unchanged, and all before it is sound. */
function startOf(
  boundaries: readonly Boundary[],
  items: readonly Item[],
  prefix: number,
  problems: readonly SyntaxProblem[],
): Boundary | undefined {
  return boundaries.findLast(({ at, start, headEnd }) => {
    if (headEnd >= prefix) return false;
    const previous = items[at - 1]?.$cstNode?.offset ?? 0;
    return !problems.some(each => each.offset >= previous && each.offset < start);
  });
}

function boundaryOf(item: Item, at: number, kinds: ReadonlySet<string>): Boundary | undefined {
  if (item.$type !== 'Block' || !kinds.has(item.kind) || (item as Block).open === undefined) return undefined;
  const [kind, name] = firstLeaves(item.$cstNode);
  if (!kind || !name) return undefined;
  const { start } = kind.range;
  if (start.character !== 0 || name.range.start.line !== start.line) return undefined;
  return { at, start: kind.offset, headEnd: name.end, line: start.line };
}

/** The first two tokens of a node. */
function firstLeaves(node: CstNode | undefined): readonly LeafCstNode[] {
  const found: LeafCstNode[] = [];
  const visit = (each: CstNode): void => {
    if (found.length === 2) return;
    if ('content' in each) (each as CompositeCstNode).content.forEach(visit);
    else if (!each.hidden) found.push(each as LeafCstNode);
  };
  if (node) visit(node);
  return found;
}

function samePrefix(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let same = 0;
  while (same < most && a.charCodeAt(same) === b.charCodeAt(same)) same++;
  return same;
}

/** Characters at the end that are the same in both, those of the common start not counted again. */
function sameSuffix(a: string, b: string, prefix: number): number {
  const most = Math.min(a.length, b.length) - prefix;
  let same = 0;
  while (same < most && a.charCodeAt(a.length - 1 - same) === b.charCodeAt(b.length - 1 - same)) same++;
  return same;
}

/** As the lexer counts lines. */
function lineBreaks(text: string): number {
  return text.match(/\n|\r\n?/g)?.length ?? 0;
}

function adopt(root: CompositeCstNode, content: CstNode[], text: string): void {
  (root as unknown as Whole)._text = text;
  (root as unknown as Spanning)._rangeCache = undefined;
  for (const node of content) Object.assign(node, { container: root });
  Object.assign(root, { content });
}
