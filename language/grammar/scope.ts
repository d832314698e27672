/**
 * Names: what a word in a reference means. Lookups go through hash maps that are built once per syntax node, because
 * Langium's default costs references times siblings.
 *
 * A reference's first word is looked for in this order: parameters of the blocks around it; blocks nested in the
 * blocks around it, inherited ones too; blocks at the top of the file; `use … as` names; blocks of the files that are
 * used without a name. Imports are not transitive. After a `.` stands a block of a used file, or a nested block;
 * anything else after a `.` may be a computed quantity and stays unresolved without being wrong.
 */
import { type AstNode, AstUtils, type LangiumDocument } from 'langium';
import {
  type Argument,
  type Block,
  type Document,
  isArgument,
  isBlock,
  isList,
  isProperty,
  isReference,
  isUse,
  isWithout,
  type Named,
  type Parameter,
  type Property,
  type Reference,
  type Use,
} from '../generated/ast.ts';
import type { Imports } from './imports.ts';

/** What the vocabulary says about words. */
export interface NameRules {
  /** Words that are never references there: enumerated words, `of`, `to`, weekdays. */
  isPlainWord(kind: string | undefined, property: string, word: string): boolean;
  /** The kinds of block that a property names; they win when several blocks have that name. */
  kindsFor(kind: string | undefined, property: string): readonly string[] | undefined;
}

export const NO_RULES: NameRules = { isPlainWord: () => false, kindsFor: () => undefined };

export interface VisibleName {
  readonly name: string;
  readonly node: Named;
  /** The block's kind, `use` or `parameter`. */
  readonly kind: string;
}

/** A property of a work block with the name of a role of its method binds that role. */
const METHOD = 'method';
const ROLE = 'role';
/** Longest chain of `like`; a longer one is a cycle or a joke. */
const LIKE_LIMIT = 64;

interface DocumentNames {
  readonly blocks: ReadonlyMap<string, readonly Block[]>;
  readonly aliases: ReadonlyMap<string, readonly Use[]>;
  readonly open: readonly Use[];
}

interface BlockNames {
  readonly blocks: ReadonlyMap<string, readonly Block[]>;
  readonly parameters: ReadonlyMap<string, readonly Parameter[]>;
  readonly dropped: ReadonlySet<string>;
}

export class Names {
  private readonly imports: Imports;
  private readonly rules: NameRules;
  // Keyed by syntax nodes: a text that is parsed again has new ones, so nothing here can be stale.
  private readonly byDocument = new WeakMap<Document, DocumentNames>();
  private readonly byBlock = new WeakMap<Block, BlockNames>();
  /** Blocks whose `like` is being followed, so that a cycle ends. */
  private readonly following = new Set<Block>();

  constructor(imports: Imports, rules: NameRules = NO_RULES) {
    this.imports = imports;
    this.rules = rules;
  }

  /** What a whole reference means: its last word. Undefined when that is no block, file or parameter. */
  resolve(reference: Reference): Named | undefined {
    return this.word(reference, reference.tail.length);
  }

  /** What the word at `index` means; 0 is the first. */
  word(reference: Reference, index: number): Named | undefined {
    let target = this.head(reference);
    for (let i = 0; i < index && target !== undefined; i++) target = this.member(target, reference.tail[i]!.$refText);
    return target;
  }

  /** The parameter that a named argument sets. */
  parameterOf(argument: Argument): Parameter | undefined {
    const name = argument.parameter?.$refText;
    const called = isReference(argument.$container) ? this.resolve(argument.$container) : undefined;
    if (name === undefined || !isBlock(called)) return undefined;
    return this.parametersOf(called).find(parameter => parameter.name === name);
  }

  /** Parameters of a block; those of the block it is `like` when it has none. */
  parametersOf(block: Block): readonly Parameter[] {
    for (const one of this.lineage(block)) if (one.parameters !== undefined) return one.parameters.parameters;
    return [];
  }

  /** The block that this one is `like`. */
  parentOf(block: Block): Block | undefined {
    if (block.parent === undefined || this.following.has(block)) return undefined;
    this.following.add(block);
    try {
      const target = this.resolve(block.parent);
      return isBlock(target) ? target : undefined;
    } finally {
      this.following.delete(block);
    }
  }

  /** A block and those it is `like`, nearest first. Ends at a cycle. */
  *lineage(block: Block): Generator<Block> {
    const seen = new Set<Block>();
    for (let at: Block | undefined = block; at !== undefined && !seen.has(at) && seen.size < LIKE_LIMIT; ) {
      seen.add(at);
      yield at;
      at = this.parentOf(at);
    }
  }

  /** A nested block by its name, inherited ones too. The first of several wins. */
  nested(block: Block, name: string): Block | undefined {
    for (const one of this.lineage(block)) {
      const names = this.namesOf(one);
      const found = names.blocks.get(name);
      if (found !== undefined) return found[0];
      if (names.dropped.has(name)) return undefined;
    }
    return undefined;
  }

  /** Blocks that share a name with an earlier one beside them; the checks report them. */
  duplicates(document: LangiumDocument): { readonly name: string; readonly blocks: readonly Named[] }[] {
    const found: { name: string; blocks: readonly Named[] }[] = [];
    const collect = (names: ReadonlyMap<string, readonly Named[]>) => {
      for (const [name, blocks] of names) if (blocks.length > 1) found.push({ name, blocks });
    };
    const root = document.parseResult.value as Document;
    const own = this.namesIn(root);
    const top = new Map<string, Named[]>([...own.blocks].map(([name, blocks]) => [name, [...blocks]]));
    for (const [name, uses] of own.aliases) top.set(name, [...(top.get(name) ?? []), ...uses]);
    collect(top);
    for (const node of AstUtils.streamAllContents(root)) {
      if (!isBlock(node)) continue;
      collect(this.namesOf(node).blocks);
      collect(this.namesOf(node).parameters);
    }
    return found;
  }

  /** The role that a property binds, when its block calls a method with a role of that name. */
  roleOfBinding(property: Property): Block | undefined {
    if (!isBlock(property.$container) || property.name === METHOD) return undefined;
    const method = this.methodOf(property.$container);
    const role = method === undefined ? undefined : this.nested(method, property.name);
    return role?.kind === ROLE ? role : undefined;
  }

  /** The block that a block's `method:` names, its own or an inherited one. */
  methodOf(block: Block): Block | undefined {
    for (const one of this.lineage(block)) {
      const property = one.entries.find(entry => isProperty(entry) && entry.name === METHOD) as Property | undefined;
      if (property === undefined) continue;
      const first = isList(property.value) ? property.value.items[0]?.parts[0] : undefined;
      const target = isReference(first) ? this.resolve(first) : undefined;
      return isBlock(target) ? target : undefined;
    }
    return undefined;
  }

  /** Every name that can be the first word of a reference at this node; a name comes once, as what it means. */
  *visibleNames(node: AstNode): Generator<VisibleName> {
    const seen = new Set<string>();
    for (const name of this.allNames(node)) {
      if (seen.has(name.name)) continue;
      seen.add(name.name);
      yield name;
    }
  }

  /** Names that can follow a `.` after this. */
  *memberNames(target: Named): Generator<VisibleName> {
    if (isUse(target)) {
      const document = this.imports.targetOf(target);
      if (document !== undefined) yield* firsts(this.namesIn(document.parseResult.value).blocks);
    } else if (isBlock(target)) yield* this.nestedNames(target);
  }

  // --- first word ---

  private head(reference: Reference): Named | undefined {
    const word = reference.head?.$refText;
    if (word === undefined) return undefined;
    const place = placeOf(reference);
    const plain = reference.tail.length === 0 && !reference.call && place.property !== undefined;
    if (plain && this.rules.isPlainWord(place.kind, place.property!, word)) return undefined;
    const kinds = place.property === undefined ? undefined : this.rules.kindsFor(place.kind, place.property);
    let first: Named | undefined;
    for (const candidate of this.candidates(reference, word)) {
      if (kinds === undefined || kinds.length === 0 || (isBlock(candidate) && kinds.includes(candidate.kind)))
        return candidate;
      first ??= candidate;
    }
    return first;
  }

  /** Everything that has this name, nearest first. */
  private *candidates(reference: Reference, word: string): Generator<Named> {
    for (const { block, isHead } of blocksAround(reference)) {
      const parameter = this.namesOf(block).parameters.get(word)?.[0];
      if (parameter !== undefined) yield parameter;
      if (isHead) continue;
      const nested = this.nested(block, word);
      if (nested !== undefined) yield nested;
    }
    const names = this.namesIn(AstUtils.findRootNode(reference) as Document);
    const own = names.blocks.get(word)?.[0];
    if (own !== undefined) yield own;
    const alias = names.aliases.get(word)?.[0];
    if (alias !== undefined) yield alias;
    for (const use of names.open) {
      const document = this.imports.targetOf(use);
      const found = document && this.namesIn(document.parseResult.value).blocks.get(word)?.[0];
      if (found !== undefined) yield found;
    }
  }

  private member(target: Named, word: string): Named | undefined {
    if (isBlock(target)) return this.nested(target, word);
    if (!isUse(target)) return undefined;
    const document = this.imports.targetOf(target);
    return document && this.namesIn(document.parseResult.value).blocks.get(word)?.[0];
  }

  private *allNames(node: AstNode): Generator<VisibleName> {
    for (const { block, isHead } of blocksAround(node)) {
      yield* firsts(this.namesOf(block).parameters);
      if (!isHead) yield* this.nestedNames(block);
    }
    const names = this.namesIn(AstUtils.findRootNode(node) as Document);
    yield* firsts(names.blocks);
    yield* firsts(names.aliases);
    for (const use of names.open) {
      const document = this.imports.targetOf(use);
      if (document !== undefined) yield* firsts(this.namesIn(document.parseResult.value).blocks);
    }
  }

  private *nestedNames(block: Block): Generator<VisibleName> {
    const hidden = new Set<string>();
    for (const one of this.lineage(block)) {
      const names = this.namesOf(one);
      for (const name of firsts(names.blocks)) if (!hidden.has(name.name)) yield name;
      for (const name of names.blocks.keys()) hidden.add(name);
      for (const name of names.dropped) hidden.add(name);
    }
  }

  // --- maps ---

  private namesIn(document: Document): DocumentNames {
    let names = this.byDocument.get(document);
    if (names === undefined) {
      const items = document.items ?? [];
      const uses = items.filter(isUse);
      names = {
        blocks: byName(items.filter(isBlock)),
        aliases: byName(uses),
        open: uses.filter(use => use.name === undefined),
      };
      this.byDocument.set(document, names);
    }
    return names;
  }

  private namesOf(block: Block): BlockNames {
    let names = this.byBlock.get(block);
    if (names === undefined) {
      names = {
        blocks: byName(block.entries.filter(isBlock)),
        parameters: byName(block.parameters?.parameters ?? []),
        dropped: new Set(block.entries.filter(isWithout).flatMap(without => without.names)),
      };
      this.byBlock.set(block, names);
    }
    return names;
  }
}

/**
 * The blocks around a node, innermost first. What stands in a block's own head (`like X`) is not inside that block, but what it
 * hands on is (`like X(soak: wait)`), as far as its parameters go.
 */
function* blocksAround(node: AstNode): Generator<{ readonly block: Block; readonly isHead: boolean }> {
  let child: AstNode = node;
  for (let at = node.$container; at !== undefined; child = at, at = at.$container) {
    if (isBlock(at) && (at.parent !== child || child !== node)) yield { block: at, isHead: at.parent === child };
  }
}

/** Where a reference stands: the property it belongs to and the kind of the block that holds it. */
function placeOf(reference: Reference): { kind: string | undefined; property: string | undefined } {
  for (let at: AstNode | undefined = reference.$container; at !== undefined; at = at.$container) {
    if (isProperty(at)) return { kind: isBlock(at.$container) ? at.$container.kind : undefined, property: at.name };
    if (isArgument(at)) return { kind: undefined, property: at.parameter?.$refText };
    if (isBlock(at)) break;
  }
  return { kind: undefined, property: undefined };
}

function byName<N extends { readonly name?: string }>(nodes: readonly N[]): Map<string, N[]> {
  const names = new Map<string, N[]>();
  for (const node of nodes) {
    if (node.name === undefined) continue;
    const same = names.get(node.name);
    if (same === undefined) names.set(node.name, [node]);
    else same.push(node);
  }
  return names;
}

function* firsts(names: ReadonlyMap<string, readonly Named[]>): Generator<VisibleName> {
  for (const [name, nodes] of names) {
    const node = nodes[0]!;
    yield { name, node, kind: isBlock(node) ? node.kind : isUse(node) ? 'use' : 'parameter' };
  }
}
