/**
 * What a word at a place means, and everywhere the same thing is named: in references, in properties that bind roles, in
 * `without`, and in blocks that override one of the same name in the block they are like. A runway's end is named by its
 * designator, in quotes. Rename, references, highlights and definitions all read this, so they can't disagree.
 */
import { type AstNode, AstUtils, type CstNode, CstUtils, GrammarUtils } from 'langium';
import {
  type Argument,
  type Block,
  isArgument,
  isBlock,
  isParameter,
  isPhrase,
  isProperty,
  isReference,
  isText,
  isUse,
  isWithout,
  type Named,
  type Reference,
  type Text,
  type Without,
} from '../../language/generated/ast.ts';
import type { BroomDocument, Project } from './project.ts';

export interface Occurrence {
  readonly document: BroomDocument;
  readonly start: number;
  readonly end: number;
  readonly is: 'declaration' | 'reference' | 'binding';
  /** The node in which the name stands. */
  readonly node: AstNode;
}

export interface SymbolAt {
  readonly symbol: Named;
  readonly start: number;
  readonly end: number;
  readonly is: Occurrence['is'];
}

/** The leaf of the text at an offset; at the seam of two, the one that is a word. */
export function leafAt(document: BroomDocument, offset: number): CstNode | undefined {
  const root = document.parseResult.value.$cstNode;
  if (root === undefined) return undefined;
  const after = CstUtils.findLeafNodeAtOffset(root, offset);
  if (after !== undefined && after.end > offset && isWordy(after.text)) return after;
  const before = offset > 0 ? CstUtils.findLeafNodeAtOffset(root, offset - 1) : undefined;
  if (before !== undefined && before.end === offset && isWordy(before.text)) return before;
  return after ?? before;
}

const isWordy = (text: string): boolean => /[\p{L}\p{N}_"]/u.test(text);

/** The named thing that the word at an offset means or declares. */
export function symbolAt(project: Project, document: BroomDocument, offset: number): SymbolAt | undefined {
  const leaf = leafAt(document, offset);
  const node = leaf?.astNode;
  if (leaf === undefined || node === undefined) return undefined;
  for (const occurrence of occurrencesIn(project, node)) {
    // A name may have several leaves, and a designator stands within the quotes of one.
    const around = occurrence.start <= leaf.offset && leaf.end <= occurrence.end;
    if (!around && !(leaf.offset <= occurrence.start && occurrence.end <= leaf.end)) continue;
    const symbol = occurrence.symbol;
    return { symbol: canonical(project, symbol), start: occurrence.start, end: occurrence.end, is: occurrence.is };
  }
  return undefined;
}

/** Every place at which a thing is named, in the documents given. Declarations come in their own document. */
export function occurrences(
  project: Project,
  symbol: Named,
  documents: Iterable<BroomDocument>,
): readonly Occurrence[] {
  const found: Occurrence[] = [];
  const wanted = canonical(project, symbol);
  const name = nameOf(wanted);
  if (name === undefined) return found;
  for (const document of documents) {
    if (!document.textDocument.getText().includes(name)) continue;
    for (const node of AstUtils.streamAst(document.parseResult.value)) {
      for (const { symbol: meant, word, start, end, is } of occurrencesIn(project, node)) {
        if (word !== name || canonical(project, meant) !== wanted) continue;
        found.push({ document, start, end, is, node });
      }
    }
  }
  return found;
}

/** Loaded documents in which a thing of this document can be named: itself and those that bring it in. */
export function documentsThatSee(project: Project, document: BroomDocument): readonly BroomDocument[] {
  const users = project.dependentsOf(document.uri.toString());
  return [document, ...project.loadedDocuments().filter(each => each !== document && users.has(each.uri.toString()))];
}

/** The name that someone gave, or the designator of a runway's end without its quotes. */
export function nameOf(symbol: Named): string | undefined {
  return symbol.name ?? (isBlock(symbol) ? symbol.label : undefined);
}

/** Where a thing is declared: its name, or its heading where it has none. */
export function declarationOf(symbol: Named): { readonly start: number; readonly end: number } | undefined {
  const cst = symbol.$cstNode;
  const name = GrammarUtils.findNodeForProperty(cst, 'name') ?? GrammarUtils.findNodeForProperty(cst, 'label') ?? cst;
  return name && { start: name.offset, end: name.end };
}

/**
 * A nested block that overrides one of the block its parent is like is the same thing under the same name: renaming one
 * without the other would make two of them.
 */
export function canonical(project: Project, symbol: Named): Named {
  const name = nameOf(symbol);
  if (!isBlock(symbol) || name === undefined || !isBlock(symbol.$container)) return symbol;
  let furthest = symbol;
  for (const one of project.names.lineage(symbol.$container)) {
    const same = one.entries.find(entry => isBlock(entry) && nameOf(entry) === name && entry.kind === symbol.kind);
    if (same !== undefined) furthest = same as Block;
  }
  return furthest;
}

/** What a word of a reference means; after a work, also a step of its method: `North.Agitate`. */
export function meaningOf(project: Project, reference: Reference, index: number): Named | undefined {
  const plain = project.names.word(reference, index);
  if (plain !== undefined || index === 0) return plain;
  const before = meaningOf(project, reference, index - 1);
  const method = isBlock(before) ? project.names.methodOf(before) : undefined;
  return method && project.names.nested(method, reference.tail[index - 1]!.$refText);
}

interface Spot {
  readonly symbol: Named;
  readonly word: string;
  readonly start: number;
  readonly end: number;
  readonly is: Occurrence['is'];
}

function* occurrencesIn(project: Project, node: AstNode): Generator<Spot> {
  if (isReference(node)) yield* ofReference(project, node);
  else if (isText(node)) yield* ofEnd(project, node);
  else if (isArgument(node)) yield* ofArgument(project, node);
  else if (isProperty(node)) {
    const role = project.names.roleOfBinding(node);
    if (role !== undefined) yield* part(node, 'name', role, 'binding');
  } else if (isWithout(node)) yield* ofWithout(project, node);
  else if (isBlock(node) || isUse(node) || isParameter(node)) {
    if (node.name !== undefined) yield* part(node, 'name', node, 'declaration');
    else if (isBlock(node) && node.label !== undefined) {
      const cst = GrammarUtils.findNodeForProperty(node.$cstNode, 'label');
      if (cst !== undefined) yield { symbol: node, is: 'declaration', ...withinQuotes(cst) };
    }
  }
}

function* ofReference(project: Project, reference: Reference): Generator<Spot> {
  const words = [reference.head, ...reference.tail];
  for (const [index, word] of words.entries()) {
    const cst = word?.$refNode;
    if (cst === undefined) continue;
    const symbol = meaningOf(project, reference, index);
    if (symbol !== undefined) yield { symbol, word: word!.$refText, start: cst.offset, end: cst.end, is: 'reference' };
  }
}

/** The designator in `Main from "04"`: that end of the runway. */
function* ofEnd(project: Project, text: Text): Generator<Spot> {
  const phrase = text.$container;
  const cst = text.$cstNode;
  if (!isPhrase(phrase) || cst === undefined) return;
  const [runway, from, end] = phrase.parts;
  if (end !== text || !isReference(runway) || !isReference(from) || from.head?.$refText !== 'from') return;
  const named = meaningOf(project, runway, runway.tail.length);
  if (!isBlock(named)) return;
  const { word, ...place } = withinQuotes(cst);
  for (const one of project.names.lineage(named)) {
    const symbol = one.entries.find(entry => isBlock(entry) && entry.label === word);
    if (symbol !== undefined) {
      yield { symbol: symbol as Block, word, ...place, is: 'reference' };
      return;
    }
  }
}

function withinQuotes({ text, offset, end }: CstNode): Pick<Spot, 'word' | 'start' | 'end'> {
  const closed = text.length > 1 && text.endsWith('"');
  return { word: text.slice(1, closed ? -1 : undefined), start: offset + 1, end: closed ? end - 1 : end };
}

function* ofArgument(project: Project, argument: Argument): Generator<Spot> {
  const cst = argument.parameter?.$refNode;
  const symbol = cst && project.names.parameterOf(argument);
  if (cst && symbol) {
    yield { symbol, word: argument.parameter!.$refText, start: cst.offset, end: cst.end, is: 'reference' };
  }
}

function* ofWithout(project: Project, without: Without): Generator<Spot> {
  const parent = isBlock(without.$container) ? project.names.parentOf(without.$container) : undefined;
  if (parent === undefined) return;
  for (const [index, name] of without.names.entries()) {
    const symbol = project.names.nested(parent, name);
    const cst = GrammarUtils.findNodeForProperty(without.$cstNode, 'names', index);
    if (symbol !== undefined && cst !== undefined) {
      yield { symbol, word: name, start: cst.offset, end: cst.end, is: 'reference' };
    }
  }
}

function* part(node: AstNode, property: string, symbol: Named, is: Occurrence['is']): Generator<Spot> {
  const cst = GrammarUtils.findNodeForProperty(node.$cstNode, property);
  if (cst !== undefined) yield { symbol, word: cst.text, start: cst.offset, end: cst.end, is };
}
