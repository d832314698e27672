/**
 * A block as it counts: its own lines over those of the block it is `like`, and so on down. Scalars and lists are
 * replaced whole, nested blocks are merged by kind and name, `without` drops one. Expressions of a lower layer are
 * evaluated in the child, so a child that changes `width` changes what its parent computes from it.
 */
import type { AstNode } from 'langium';
import type { Block, Parameter, Phrase, Property } from '../generated/ast.ts';

/** What the parameters of a block stand for where it is used. */
export type Arguments = ReadonlyMap<Parameter, Binding>;

export interface Binding {
  readonly value: Phrase;
  /** Where the argument stands: its names mean what they mean there. */
  readonly scope: Scope;
  /** It does not fit its parameter, which has been said where it stands; what uses it has no value. */
  readonly wrong?: boolean;
}

/** What bare names mean where an expression stands. */
export interface Scope {
  readonly arguments: Arguments;
  /** The block whose own properties can be named. */
  readonly owner: Layers | undefined;
}

export interface Layer {
  readonly node: Block;
  readonly arguments: Arguments;
}

export interface Layers {
  /** The newest block: the one that is called by its name. */
  readonly node: Block;
  /** Newest first. */
  readonly layers: readonly Layer[];
  /** The block this one is nested in. */
  readonly parent: Layers | undefined;
  /** Names of the path from the top: `BroomAndRinse`, `Agitate`. */
  readonly path: readonly string[];
}

export interface FoundProperty {
  readonly node: Property;
  readonly layer: Layer;
  /** 0 is the block's own. */
  readonly depth: number;
}

export function blockName(block: Block): string {
  return block.name ?? block.label ?? '';
}

/** What a block adds to the ids of what is in it: its name, or its kind and which of its kind it is beside its neighbours. */
export function idPart(block: Block): string {
  const name = blockName(block);
  if (name) return name;
  const around: readonly AstNode[] =
    block.$container.$type === 'Block' ? block.$container.entries : block.$container.items;
  let before = 0;
  for (const each of around) {
    if (each === block) break;
    if (each.$type === 'Block' && (each as Block).kind === block.kind && !blockName(each as Block)) before++;
  }
  return `${block.kind}@${before + 1}`;
}

/** The property as it counts, by its written word. */
export function findProperty(block: Layers, word: string): FoundProperty | undefined {
  for (const [depth, layer] of block.layers.entries()) {
    for (const entry of layer.node.entries) {
      if (entry.$type === 'Property' && entry.name === word) return { node: entry, layer, depth };
    }
  }
  return undefined;
}

/** All properties as they count, each once, oldest layer's order first. */
export function properties(block: Layers): FoundProperty[] {
  const found = new Map<string, FoundProperty>();
  for (let depth = block.layers.length - 1; depth >= 0; depth--) {
    const layer = block.layers[depth]!;
    const seen = new Set<string>();
    for (const entry of layer.node.entries) {
      // The first of two in one block counts; the second is a finding.
      if (entry.$type !== 'Property' || seen.has(entry.name)) continue;
      seen.add(entry.name);
      found.set(entry.name, { node: entry, layer, depth });
    }
  }
  return [...found.values()];
}

/** Nested blocks as they count: merged by kind and name, in the oldest layer's order, new ones at the end. */
export function nested(block: Layers): Layers[] {
  const found = new Map<string, Layer[]>();
  for (let depth = block.layers.length - 1; depth >= 0; depth--) {
    const layer = block.layers[depth]!;
    for (const entry of layer.node.entries) {
      if (entry.$type === 'Without') for (const name of entry.names) dropNamed(found, name);
    }
    let unnamed = 0;
    const own = new Set<string>();
    for (const entry of layer.node.entries) {
      if (entry.$type !== 'Block') continue;
      const name = blockName(entry);
      const key = name ? `${entry.kind} ${name}` : `${entry.kind} #${unnamed++}`;
      if (own.has(key)) continue;
      own.add(key);
      const here: Layer = { node: entry, arguments: layer.arguments };
      found.set(key, [here, ...(found.get(key) ?? [])]);
    }
  }
  return [...found.values()].map(layers => {
    const node = layers[0]!.node;
    return { node, layers, parent: block, path: [...block.path, blockName(node) || node.kind] };
  });
}

function dropNamed(found: Map<string, Layer[]>, name: string): void {
  for (const key of [...found.keys()]) if (key.endsWith(` ${name}`)) found.delete(key);
}
