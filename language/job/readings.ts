/**
 * What was read of a file's blocks, kept for the next text of it. A block whose syntax node is still there says what it
 * said, as long as the names in it mean what they meant; only its places have to be brought to where it stands now.
 *
 * Only blocks and values of which nothing was to be reported are kept: what is wrong is read and said again each time.
 */
import type { AstNode, Reference as Link } from 'langium';
import { fileOf } from '../evaluate/places.ts';
import type { Block, Expression, Named, Phrase, Property as PropertyNode } from '../generated/ast.ts';
import { referencesOf } from '../grammar/linking.ts';
import type { System } from '../units/index.ts';
import type { Property } from '../vocabulary/define.ts';
import { type Given, isPlace, type Place } from '../vocabulary/given.ts';
import { kinds, propertyOf } from '../vocabulary/index.ts';
import { nameRules } from '../vocabulary/names.ts';
import type { AnyBlock } from './job.ts';

/** What a value of a property hangs on, where no name stands in it. */
export interface ValueKey {
  readonly node: PropertyNode;
  readonly property: Property;
  /** What the block does, where that decides how its values are read. */
  readonly variant: string | undefined;
  readonly system: System;
}

/** Where a statement at the top of a file stands. */
type Offset = (item: AstNode) => number;

export class Readings {
  private readonly values = new WeakMap<PropertyNode, KeptValue>();
  private readonly blocks = new WeakMap<Block, KeptModel>();
  /** Methods as works call them, by the work. */
  private readonly calls = new WeakMap<Block, KeptModel>();
  /** Models that were made for the text at hand. */
  private made: Made[] = [];

  /** The value of a property as it was read before, where it stands now. */
  value({ node, property, variant, system }: ValueKey, offset: Offset): Given<unknown> | undefined {
    const kept = this.values.get(node);
    if (kept?.property !== property || kept.variant !== variant || kept.system !== system) return undefined;
    kept.where.moveTo(offset);
    return kept.given;
  }

  keepValue(key: ValueKey, kind: string, given: Given<unknown>, offset: Offset): void {
    if (!isLiteral(key, kind)) return;
    const where = Where.of([key.node], [given.place, ...placesIn(given.value)], offset);
    if (where) this.values.set(key.node, { ...key, given, where });
  }

  /**
   * The model of a block at the top of a file as it was made before, where it stands now.
   * @param id the id it has now: one without a name is counted among its neighbours
   * @param isSound whether a block can be named
   */
  model(use: Use, id: string, offset: Offset, isSound: (block: Block) => boolean): AnyBlock | undefined {
    const kept = this.modelsOf(use).get(use.by ?? use.node);
    if (kept?.node !== use.node || kept.system !== use.system || kept.model.id !== id) return undefined;
    if (kept.values.length !== use.values.length || kept.values.some((each, i) => each !== use.values[i])) {
      return undefined;
    }
    if (!holds(kept.links, use.node, isSound)) return undefined;
    kept.where.moveTo(offset);
    return kept.model;
  }

  /** Keeps the model of a block that stands by itself: what it names is in it, or only its name counts. */
  keepModel(use: Use, model: AnyBlock, offset: Offset): void {
    if (use.values.some(value => referencesOf(value).length > 0)) return;
    const links = linksOf(use.node);
    if (!links) return;
    this.made.push({ use, model, links, offset });
    this.put(use, model, links, offset);
  }

  /**
   * The text is read: goes on with the objects that its job is told with. Kept models have to be those, or every one of
   * them would be compared again for each text that follows.
   */
  follow(became: <T extends object>(model: T) => T): void {
    for (const { use, model, links, offset } of this.made) {
      const settled = became(model);
      if (settled !== model) this.put(use, settled, links, offset);
    }
    this.made = [];
  }

  private put(use: Use, model: AnyBlock, links: KeptModel['links'], offset: Offset): void {
    const homes = use.by ? [use.node, topOf(use.by)] : [use.node];
    const where = Where.of(homes, placesIn(model), offset);
    if (where) this.modelsOf(use).set(use.by ?? use.node, { ...use, model, links, where });
    else this.modelsOf(use).delete(use.by ?? use.node);
  }

  private modelsOf({ by }: Use): WeakMap<Block, KeptModel> {
    return by ? this.calls : this.blocks;
  }
}

/** A block as it stands, or as a work calls it. */
export interface Use {
  readonly node: Block;
  readonly system: System;
  /** The work that calls it. */
  readonly by?: Block;
  /** The arguments, in the order in which they are bound. */
  readonly values: readonly Phrase[];
}

/** The names in a block and what they mean; undefined where what another block holds counts for it. */
function linksOf(node: Block): KeptModel['links'] | undefined {
  const links: KeptModel['links'][number][] = [];
  for (const { container, reference } of referencesOf(node)) {
    const link = reference as Link<Named>;
    const target = link.ref;
    if (target !== undefined && topOf(target) !== node && !isNameOnly(container, target)) return undefined;
    links.push({ link, target });
  }
  return links;
}

/** Whether the names in a block mean what they meant. */
function holds(links: KeptModel['links'], node: Block, isSound: (block: Block) => boolean): boolean {
  return links.every(({ link, target }) => {
    if (link.ref !== target) return false;
    // A block that is like itself by some way is none that can be named.
    return !(target?.$type === 'Block' && target.parent && topOf(target) !== node) || isSound(target);
  });
}

interface Made {
  readonly use: Use;
  readonly model: AnyBlock;
  readonly links: KeptModel['links'];
  readonly offset: Offset;
}

interface KeptValue extends ValueKey {
  readonly given: Given<unknown>;
  readonly where: Where;
}

interface KeptModel extends Use {
  readonly model: AnyBlock;
  /** The names in it, and what they meant. */
  readonly links: readonly { readonly link: Link<Named>; readonly target: Named | undefined }[];
  readonly where: Where;
}

/** Places that all lie in certain statements at the top of their files, and move with them. */
class Where {
  private readonly items: readonly Moving[];

  private constructor(items: readonly Moving[]) {
    this.items = items;
  }

  /** Undefined where one of the places lies in none of the statements. */
  static of(items: readonly AstNode[], places: readonly Place[], offset: Offset): Where | undefined {
    const starts = items.map(offset);
    const moving = items.map((item): Moving => ({ item, places: [] }));
    const ends = items.map(item => item.$cstNode?.end ?? 0);
    const files = items.map(fileOf);
    for (const place of new Set(places)) {
      const { file, start, end } = place;
      const home = moving.findIndex((_, i) => file === files[i] && start >= starts[i]! && end <= ends[i]!);
      if (home < 0) return undefined;
      moving[home]!.places.push({ place, from: start - starts[home]!, to: end - starts[home]! });
    }
    return new Where(moving);
  }

  moveTo(offset: Offset): void {
    for (const { item, places } of this.items) {
      const at = offset(item);
      // Each is looked at: a value is kept by itself and with its block, and either may have brought its place along.
      for (const { place, from, to } of places) {
        if (place.start !== at + from || place.end !== at + to)
          Object.assign(place, { start: at + from, end: at + to });
      }
    }
  }
}

interface Moving {
  readonly item: AstNode;
  /** Beside each place, where it lies in the statement. */
  readonly places: { readonly place: Place; readonly from: number; readonly to: number }[];
}

function placesIn(value: unknown): readonly Place[] {
  const found: Place[] = [];
  const visit = (each: unknown): void => {
    if (typeof each !== 'object' || each === null) return;
    if (isPlace(each)) found.push(each);
    else for (const inner of Object.values(each)) visit(inner);
  };
  visit(value);
  return found;
}

/** The statement at the top of its file in which a node stands. */
function topOf(node: AstNode): AstNode {
  let at = node;
  while (at.$container?.$container) at = at.$container;
  return at;
}

/** Whether a reference to a block elsewhere says no more than which block it is, or what its own lines say. */
function isNameOnly(reference: AstNode, target: Named): boolean {
  if (target.$type !== 'Block' || target.$container.$type !== 'Document') return false;
  for (let at: AstNode | undefined = reference; at; at = at.$container) {
    if (at.$type !== 'Property') continue;
    const { name, $container: block } = at as PropertyNode;
    const kind = block.$type === 'Block' ? kinds.get(block.kind) : undefined;
    const type = kind && propertyOf(kind, name)?.property.type.is;
    // A property that no kind knows is no part of the model: the machine that a work binds to a role.
    if (type === 'fromEnd') return target.parent === undefined;
    return !type || type === 'names' || type === 'machines' || type === 'call';
  }
  // In a condition, which is judged and not read.
  return true;
}

/** Whether a value says by itself what it is: no name stands in it, only numbers, texts and words of the vocabulary. */
function isLiteral({ node, property }: ValueKey, kind: string): boolean {
  const { value } = node;
  if (value.$type === 'Table' || property.type.is === 'words' || property.type.is === 'flag') return true;
  const isPlain = (part: Expression): boolean => {
    switch (part.$type) {
      case 'Quantity':
      case 'Text':
      case 'DateLiteral':
      case 'ClockLiteral':
      case 'RatioLiteral':
        return true;
      case 'Unary':
        return isPlain(part.operand);
      case 'Binary':
        return isPlain(part.left) && isPlain(part.right);
      case 'Reference':
        return !part.call && part.tail.length === 0 && nameRules.isPlainWord(kind, node.name, part.head.$refText);
      default:
        return false;
    }
  };
  return value.items.every(item => item.parts.every(isPlain));
}
