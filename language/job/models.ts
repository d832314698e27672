/**
 * From blocks in the syntax tree to the typed models of the vocabulary. Each property is read once, lazily; what is wrong
 * with it is reported once, at its place.
 */
import type { AstNode, LangiumDocument } from 'langium';
import { type Evaluated, nothing } from '../evaluate/evaluated.ts';
import type { World } from '../evaluate/expression.ts';
import {
  type Arguments,
  type Binding,
  blockName,
  type FoundProperty,
  idPart,
  type Layer,
  type Layers,
  nested,
  properties,
  type Scope,
} from '../evaluate/layers.ts';
import { fileOf, headingOf, placeOf, placeOfPart, standingAt, textOf } from '../evaluate/places.ts';
import type { Problem } from '../evaluate/problem.ts';
import { read } from '../evaluate/read.ts';
import { orList, type ReadContext, type Reading, readQuantity, withArticle } from '../evaluate/readers.ts';
import * as geometry from '../formulas/geometry.ts';
import type { Block, Document, Named, Parameter, Property as PropertyNode, Reference } from '../generated/ast.ts';
import {
  AREA,
  KINDS,
  type KindName,
  kindNamed,
  type Magnitude,
  parseUnit,
  type System,
  showBeside,
  type Unit,
} from '../units/index.ts';
import { computedWords, earlyWords } from '../vocabulary/computed.ts';
import { type BlockKind, type Property, phrases } from '../vocabulary/define.ts';
import type { BlockHead, BlockRef, Given, Origin, Place } from '../vocabulary/given.ts';
import { kinds, propertyTable, propertyOf as vocabularyProperty } from '../vocabulary/index.ts';
import { nearestAll } from '../words/nearest.ts';
import type { AnyBlock } from './job.ts';
import type { Readings, Use, ValueKey } from './readings.ts';

export interface ModelOptions {
  /** The file that is the job: values from other files come from libraries. */
  readonly main: LangiumDocument<Document>;
  readonly system: System;
  readonly report: (problem: Problem) => void;
  /** Names that could be meant at a reference, for 'did you mean'. */
  readonly namesAt: (reference: Reference) => Iterable<string>;
  /** What was read in the texts before. */
  readonly readings?: Readings;
}

export interface Models {
  /** The layers of a top-level block, parameters at their defaults; undefined when its `like` goes in a circle. */
  readonly layersOf: (block: Block) => Layers | undefined;
  /** The layers of a block as called with arguments, under an id of its own. */
  readonly called: (reference: Reference, block: Block, scope: Scope, id: string) => Layers | undefined;
  readonly modelOf: (layers: Layers) => AnyBlock | undefined;
  readonly referTo: (layers: Layers) => BlockRef;
  readonly nestedOf: (layers: Layers) => readonly Layers[];
  /** Reads a property that is not in the vocabulary, as the property of a type (a work's bindings). */
  readonly readAs: (layers: Layers, found: FoundProperty, property: Property) => Bound;
  /** Whether a word that a block lacks may have been meant by something in it that can't be read. */
  readonly mayBeMeant: (layers: Layers, word: string) => boolean;
  readonly blockOf: (reference: Reference, kinds: readonly string[], scope: Scope) => Layers | undefined;
  /** How much was read so far that can't be read, or not all of it: whether reading a value met any. */
  readonly slips: () => number;
  readonly world: World;
  /** Why a path below a block names no quantity. */
  readonly unknownQuantity: (layers: Layers, path: string, at: Place, late: boolean) => Problem;
}

/** What a property comes to that is not in the vocabulary. */
export interface Bound {
  readonly given: Given<unknown> | undefined;
  /** Not all of it can be read. */
  readonly inDoubt: boolean;
}

/** Steps from a value to what it depends on, or from a block to what it is like; a text that goes deeper is a joke. */
const DEEPEST = 64;

/** Ways to write a value whose reader leaves something for the schema to judge; the others can come out only right. */
const LIMITED: ReadonlySet<string> = new Set(['quantity', 'range', ...Object.keys(phrases)]);

export function createModels(options: ModelOptions): Models {
  const { system } = options;
  /** How many problems were reported: whether reading a value found one. */
  let reported = 0;
  const report = (problem: Problem): void => {
    reported++;
    options.report(problem);
  };
  /** How often something was read that is in doubt: whether reading a value met any. */
  let doubted = 0;
  const slips = (): number => reported + doubted;
  const mainFile = options.main.uri.toString();
  let depth = 0;
  const plain = new Map<Block, Layers | 'busy' | undefined>();
  const children = new Map<Layers, readonly Layers[]>();
  const ids = new Map<Layers, string>();
  const models = new Map<Layers, AnyBlock>();
  const found = new Map<Layers, ReadonlyMap<string, FoundProperty>>();
  const headings = new Map<Block, Place>();
  const offsets = new Map<AstNode, number>();
  /** The work that calls a method, by the layers of the method as it is called. */
  const callers = new Map<Layers, Block>();
  const givens = new Map<Layers, Map<string, Given<unknown> | undefined | 'busy'>>();
  const doubts = new Map<Layers, Set<string>>();
  const gaps = new Map<Layers, Gaps>();
  /** Blocks that start from another one which can't be found. */
  const orphans = new Set<Block>();

  /** Where a statement at the top of a file stands; many ask. */
  const offsetOf = (item: AstNode): number => {
    let offset = offsets.get(item);
    if (offset === undefined) {
      offset = item.$cstNode?.offset ?? 0;
      offsets.set(item, offset);
    }
    return offset;
  };

  // ── layers ─────────────────────────────────────────────────────────────────────────────────────────────────────

  function layersOf(block: Block): Layers | undefined {
    const known = plain.get(block);
    if (known === 'busy') {
      report({
        code: 'cyclic-like',
        message: `${blockName(block) || block.kind} starts from itself: following 'like' comes back here. Let one of them stand on its own.`,
        place: block.parent ? placeOf(block.parent) : headingOf(block),
      });
      return undefined;
    }
    if (known || plain.has(block)) return known;
    plain.set(block, 'busy');
    const container = block.$container;
    const parent = container.$type === 'Block' ? layersOf(container) : undefined;
    depth++;
    const layers = build(block, new Map(), parent);
    depth--;
    plain.set(block, layers);
    return layers;
  }

  function build(block: Block, args: Arguments, parent: Layers | undefined): Layers {
    const layers: Layer[] = [{ node: block, arguments: args }];
    const above = block.parent && parentOf(block, block.parent, args);
    if (above) layers.push(...above);
    return { node: block, layers, parent, path: [...(parent?.path ?? []), blockName(block) || block.kind] };
  }

  /** Layers of the block that this one is like. */
  function parentOf(block: Block, reference: Reference, args: Arguments): readonly Layer[] | undefined {
    const above = aboveOf(block, reference, args);
    if (!above) orphans.add(block);
    return above;
  }

  function aboveOf(block: Block, reference: Reference, args: Arguments): readonly Layer[] | undefined {
    const scope: Scope = { arguments: args, owner: undefined };
    const named = target(reference);
    if (named?.$type !== 'Block') {
      unknown(reference, [block.kind]);
      return undefined;
    }
    // A misspelt kind is its own finding.
    if (!kinds.has(named.kind)) return undefined;
    if (named.kind !== block.kind) {
      report({
        code: 'wrong-kind',
        message: `A ${block.kind} can start only from another ${block.kind}, but ${textOf(reference)} is ${withArticle(named.kind)}.`,
        place: placeOf(reference),
      });
      return undefined;
    }
    if (depth > DEEPEST) {
      report({
        code: 'too-deeply-nested',
        message: `This starts from a block that starts from another, more than ${DEEPEST} times over, which no one could follow. Write out what counts.`,
        place: placeOf(reference),
      });
      return undefined;
    }
    const above = layersOf(named);
    if (!above) return undefined;
    if (!reference.call) return args.size > 0 ? withArguments(named, args) : above.layers;
    const bound = bind(reference, named, scope, above.layers);
    return withArguments(named, new Map([...bound, ...args]));
  }

  /** The layers of a block with arguments for it or for what it is like: those that it hands on mean these. */
  function withArguments(block: Block, args: Arguments): readonly Layer[] {
    depth++;
    const { layers } = build(block, args, undefined);
    depth--;
    return layers.map(layer => ({ ...layer, arguments: new Map([...layer.arguments, ...args]) }));
  }

  function called(reference: Reference, block: Block, scope: Scope, id: string): Layers | undefined {
    const base = layersOf(block);
    if (!base) return undefined;
    const bound = bind(reference, block, scope, base.layers);
    const layers: Layers = { ...base, layers: withArguments(block, bound) };
    ids.set(layers, id);
    if (scope.owner) callers.set(layers, scope.owner.node);
    return layers;
  }

  /** The arguments of a call, each held against its parameter: the block's own, or else those of what it is like. */
  function bind(reference: Reference, block: Block, scope: Scope, layers: readonly Layer[]): Map<Parameter, Binding> {
    const bound = new Map<Parameter, Binding>();
    const taking = layers.find(layer => layer.node.parameters !== undefined);
    const parameters = taking?.node.parameters?.parameters ?? [];
    for (const argument of reference.arguments) {
      const name = argument.parameter?.$refText;
      const parameter = name === undefined ? undefined : parameters.find(each => each.name === name);
      if (!parameter) {
        const names = parameters.map(each => each.name);
        const meant = name === undefined ? [] : nearestAll(name, names);
        report({
          code: 'unknown-argument',
          message:
            name === undefined
              ? `Say which parameter this is for: ${names.map(each => `${each}: …`).join(', ') || `${block.name ?? 'it'} takes none`}.`
              : `${block.name ?? 'This'} has no parameter '${name}'.${meant[0] ? ` Did you mean ${meant[0]}?` : names.length > 0 ? ` It takes ${names.join(', ')}.` : ' It takes none.'}`,
          place: name === undefined ? placeOf(argument) : placeOfPart(argument, 'parameter'),
          ...(meant.length > 0 && { data: { meant } }),
        });
        continue;
      }
      if (bound.has(parameter)) {
        report({
          code: 'duplicate-argument',
          message: `${parameter.name} is given twice. Keep the one that counts.`,
          place: placeOf(argument),
        });
        continue;
      }
      const type = parameter.type.join(' ');
      const kind = kindNamed(type);
      // Held against its type here, where it stands; what uses it need not say so again.
      const slipped = slips();
      if (kind) readQuantity(argument.value, kind.name as KindName, parameter.name, context(undefined, scope, block));
      bound.set(parameter, { value: argument.value, scope, ...(slips() > slipped && { wrong: true }) });
    }
    for (const parameter of parameters) {
      if (parameter.default || bound.has(parameter) || taking?.arguments.has(parameter)) continue;
      report({
        code: 'missing-argument',
        message: `${block.name ?? 'It'} needs ${parameter.name}, ${withArticle(parameter.type.join(' '))}, which has no default. Add ${parameter.name}: … in the brackets.`,
        place: placeOf(reference),
        data: { parameter: parameter.name },
      });
    }
    return bound;
  }

  function nestedOf(layers: Layers): readonly Layers[] {
    let known = children.get(layers);
    if (!known) {
      known = nested(layers).map(child => {
        const like = child.node.parent;
        const above = like && parentOf(child.node, like, child.layers[0]!.arguments);
        return above ? { ...child, layers: [...child.layers, ...above] } : child;
      });
      children.set(layers, known);
    }
    return known;
  }

  function idOf(layers: Layers): string {
    let id = ids.get(layers);
    if (id === undefined) {
      const name = idPart(layers.node);
      id = layers.parent ? `${idOf(layers.parent)}.${name}` : `${fileOf(layers.node)}#${name}`;
      ids.set(layers, id);
    }
    return id;
  }

  function referTo(layers: Layers): BlockRef {
    return { kind: layers.node.kind, id: idOf(layers), name: blockName(layers.node) };
  }

  // ── names ──────────────────────────────────────────────────────────────────────────────────────────────────────

  /** What a reference comes down to, import prefixes skipped. */
  function target(reference: Reference): Named | undefined {
    const last = reference.tail.at(-1);
    return last ? last.ref : reference.head?.ref;
  }

  function blockOf(reference: Reference, wanted: readonly string[], scope: Scope): Layers | undefined {
    const head = reference.head?.ref;
    if (head?.$type === 'Parameter') {
      const binding = scope.arguments.get(head);
      const part = binding?.value.parts[0] ?? head.default?.parts[0];
      if (binding && part?.$type === 'Reference') return blockOf(part, wanted, binding.scope);
      if (!binding) return undefined;
    }
    const named = target(reference);
    if (named?.$type !== 'Block') {
      unknown(reference, wanted);
      return undefined;
    }
    // A misspelt kind is its own finding.
    if (!kinds.has(named.kind)) {
      doubted++;
      return undefined;
    }
    if (!wanted.includes(named.kind)) {
      report({
        code: 'wrong-kind',
        message: `${textOf(reference)} is ${withArticle(named.kind)}, but ${orList(wanted)} is wanted here.`,
        place: placeOf(reference),
        related: [{ place: headingOf(named), message: `${blockName(named)} is defined here` }],
      });
      return undefined;
    }
    return layersAt(named, scope);
  }

  /** Layers of a named block, seen from a place: a step of the method that is being called keeps its arguments. */
  function layersAt(named: Block, scope: Scope): Layers | undefined {
    for (let around = scope.owner; around; around = around.parent) {
      if (around.layers.some(layer => layer.node === named)) return around;
      const inside = nestedOf(around).find(each => each.layers.some(layer => layer.node === named));
      if (inside) return inside;
    }
    const container = named.$container;
    if (container.$type !== 'Block') return layersOf(named);
    const around = layersOf(container);
    return around && nestedOf(around).find(each => each.layers.some(layer => layer.node === named));
  }

  function unknown(reference: Reference, wanted: readonly string[]): void {
    const written = textOf(reference);
    const meant = nearestAll(reference.head?.$refText ?? '', options.namesAt(reference));
    report({
      code: 'unknown-name',
      message: `There is no ${wanted.length > 3 ? 'block' : wanted.join(' or ')} called '${written}' here.${meant[0] ? ` Did you mean ${meant[0]}?` : ' Define it in this file, or bring it in with use "…".'}`,
      place: placeOf(reference),
      ...(meant.length > 0 && { data: { meant } }),
    });
  }

  // ── properties ─────────────────────────────────────────────────────────────────────────────────────────────────

  function context(variant: string | undefined, scope: Scope, block: Block): ReadContext {
    return {
      scope,
      world,
      system,
      variant,
      refer: referTo,
      blockOf: (reference, list) => blockOf(reference, list, scope),
      block,
    };
  }

  /** The properties of a block as they count, by their written word. */
  function propertiesOf(layers: Layers): ReadonlyMap<string, FoundProperty> {
    let known = found.get(layers);
    if (!known) {
      known = new Map(properties(layers).map(each => [each.node.name, each]));
      found.set(layers, known);
    }
    return known;
  }

  function heading(block: Block): Place {
    let known = headings.get(block);
    if (!known) {
      known = headingOf(block);
      headings.set(block, known);
    }
    return known;
  }

  function given(layers: Layers, word: string, key: string, property: Property): Given<unknown> | undefined {
    let known = givens.get(layers);
    if (!known) {
      known = new Map();
      givens.set(layers, known);
    }
    const before = known.get(key);
    const found = propertiesOf(layers).get(word);
    if (before === 'busy') {
      report({
        code: 'cyclic-value',
        message: `${word} depends on itself. Follow the names in it; one of them leads back here. Write a value in one place.`,
        place: found ? placeOf(found.node) : headingOf(layers.node),
      });
      return undefined;
    }
    if (before !== undefined || known.has(key)) {
      if (doubts.get(layers)?.has(key)) doubted++;
      return before;
    }
    if (depth > DEEPEST && found) {
      report({
        code: 'too-deeply-nested',
        message: `${word} depends on a value that depends on another, more than ${DEEPEST} times over, which no one could follow. Write a value in between.`,
        place: placeOf(found.node),
      });
      return undefined;
    }
    known.set(key, 'busy');
    depth++;
    const slipped = slips();
    const read = found && readValue(layers, found, property);
    // What can't be read is drawn and scheduled as if it were not there.
    const value = read ?? byDefault(layers, property);
    depth--;
    known.set(key, value);
    // A parameter without a default has no value before it is called; that is no doubt.
    if (found ? !found.node.value || slips() > slipped : mayBeMeant(layers, word)) {
      doubted++;
      const inDoubt = doubts.get(layers);
      if (inDoubt) inDoubt.add(key);
      else doubts.set(layers, new Set([key]));
    }
    return value;
  }

  function readAs(layers: Layers, found: FoundProperty, property: Property): Bound {
    const slipped = slips();
    const given = readValue(layers, found, property);
    return { given, inDoubt: !found.node.value || slips() > slipped };
  }

  function readValue(layers: Layers, found: FoundProperty, property: Property): Given<unknown> | undefined {
    const { readings } = options;
    const { node } = found;
    // One that another block starts from has an origin for each of them.
    if (!readings || found.layer.node !== layers.node) return readNow(layers, found, property);
    const variant = variantOf(layers);
    const key: ValueKey = { node, property, variant, system };
    const known = readings.value(key, offsetOf);
    if (known) return known;
    const before = slips();
    const given = readNow(layers, found, property);
    if (given && slips() === before) readings.keepValue(key, layers.node.kind, given, offsetOf);
    return given;
  }

  function readNow(layers: Layers, found: FoundProperty, property: Property): Given<unknown> | undefined {
    const scope: Scope = { arguments: found.layer.arguments, owner: layers };
    const word = found.node.name;
    const reading =
      found.node.value && read(found.node.value, property, word, context(variantOf(layers), scope, found.layer.node));
    if (!reading) return undefined;
    const value = inRange(reading, property, word, found);
    if (value === undefined) return undefined;
    const file = fileOf(found.layer.node);
    const origin: Origin = reading.from?.origin ?? originOf(layers, found, file);
    const at = standingAt(found.node.value, file);
    return {
      value,
      ...(reading.interval && { interval: reading.interval }),
      ...(reading.unit && { unit: reading.unit }),
      text: at.text,
      place: reading.from?.place ?? at.place,
      origin,
      literal: reading.literal && origin.by === 'own line',
    };
  }

  function originOf(layers: Layers, found: FoundProperty, file: string): Origin {
    if (file !== mainFile) return { by: 'library', file };
    if (found.depth > 0 && found.layer.node !== layers.node)
      return { by: 'inherited', from: blockName(found.layer.node) };
    return { by: 'own line' };
  }

  /** The value within the limits of the vocabulary, else a finding. What is out of range is not computed with. */
  function inRange(reading: Reading, property: Property, word: string, found: FoundProperty): unknown {
    if (!LIMITED.has(property.type.is)) return reading.value;
    const result = property.schema.safeParse(reading.value);
    if (result.success) return reading.value;
    const type = property.type;
    const place = reading.from?.place ?? placeOf(found.node.value);
    if (type.is === 'quantity' && typeof reading.value === 'number') {
      const issue = result.error.issues[0];
      const limit =
        issue?.code === 'too_small'
          ? Number(issue.minimum)
          : issue?.code === 'too_big'
            ? Number(issue.maximum)
            : undefined;
      const [shown, shownLimit] =
        limit === undefined ? [String(reading.value), ''] : showBeside(reading.value, limit, KINDS[type.kind], system);
      report({
        code: 'out-of-range',
        message: `${word} is ${shown}, but it can't be ${issue?.code === 'too_small' ? 'less' : 'more'} than ${shownLimit}. Check the number and its unit.`,
        place,
        data: { least: type.least ?? '', most: type.most ?? '' },
      });
    } else {
      report({
        code: 'out-of-range',
        message: `${word} can't be ${textOf(found.node.value)}. Write something like ${property.example}.`,
        place,
      });
    }
    return undefined;
  }

  function byDefault(layers: Layers, property: Property): Given<unknown> | undefined {
    if (!property.default) return undefined;
    const variant = variantOf(layers);
    if (property.only && (variant === undefined || !property.only.includes(variant))) return undefined;
    return {
      value: property.default.value,
      ...(property.default.unit && { unit: property.default.unit }),
      text: property.default.text,
      place: heading(layers.node),
      origin: { by: 'default', source: property.source },
      literal: false,
    };
  }

  function variantOf(layers: Layers): string | undefined {
    const variant = kinds.get(layers.node.kind)?.variant;
    if (!variant) return undefined;
    const found = propertiesOf(layers).get(variant);
    return found?.node.value?.$type === 'List' ? textOf(found.node.value) : undefined;
  }

  // ── blocks ─────────────────────────────────────────────────────────────────────────────────────────────────────

  function modelOf(layers: Layers): AnyBlock | undefined {
    const known = models.get(layers);
    if (known) return known;
    const kind = kinds.get(layers.node.kind);
    if (!kind) return undefined;
    return kept(layers, kind) ?? newModel(layers, kind);
  }

  /** The model as it was made for a text before, or made now and kept for the next; undefined for what can't be kept. */
  function kept(layers: Layers, kind: BlockKind): AnyBlock | undefined {
    const { readings } = options;
    const { node } = layers;
    if (!readings || layers.parent || layers.layers.length > 1 || node.parent) return undefined;
    const by = callers.get(layers);
    if (!by && plain.get(node) !== layers) return undefined;
    const values = Array.from(layers.layers[0]!.arguments.values(), each => each.value);
    const use: Use = { node, system, values, ...(by && { by }) };
    const known = readings.model(use, idOf(layers), offsetOf, block => layersOf(block) !== undefined);
    if (known) {
      models.set(layers, known);
      return known;
    }
    const before = slips();
    const model = newModel(layers, kind);
    if (slips() === before) readings.keepModel(use, model, offsetOf);
    return model;
  }

  function newModel(layers: Layers, kind: BlockKind): AnyBlock {
    const model: Record<string, unknown> = { ...headOf(layers) };
    models.set(layers, model as unknown as AnyBlock);
    const inDoubt: string[] = [];
    for (const [word, { key, property }] of propertyTable(kind)) model[key] = given(layers, word, key, property);
    for (const [key, child] of Object.entries(kind.blocks)) {
      model[key] = nestedOf(layers)
        .filter(each => each.node.kind === child.kind)
        .map(modelOf);
      const { all, blocks } = gapsIn(layers);
      if (all || blocks.has(child.kind)) inDoubt.push(key);
    }
    inDoubt.push(...(doubts.get(layers) ?? []));
    if (inDoubt.length > 0) model.doubts = inDoubt;
    inspect(layers, kind);
    return model as unknown as AnyBlock;
  }

  function headOf(layers: Layers): BlockHead {
    const { node } = layers;
    return {
      kind: node.kind,
      id: idOf(layers),
      name: blockName(node),
      place: placeOf(node),
      heading: heading(node),
      fromLibrary: fileOf(node) !== mainFile,
    };
  }

  /** What a block lacks and what does not belong in it. */
  function inspect(layers: Layers, kind: BlockKind): void {
    const { node } = layers;
    const about = referTo(layers);
    const written = variantOf(layers);
    // A misspelt variant is its own finding, and nothing is out of place before it is known.
    const variant = kind.variant && written !== undefined && isVariant(kind, written) ? written : undefined;
    const table = propertyTable(kind);
    const at = heading(node);
    for (const found of propertiesOf(layers).values()) {
      const word = found.node.name;
      const known = table.get(word)?.property;
      // A parent's misspelling is its own finding.
      if (found.depth > 0) continue;
      if (!known) {
        if (!kind.bindsRoles) unknownProperty(layers, kind, found);
      } else if (known.only && variant !== undefined && !known.only.includes(variant)) {
        report({
          code: 'out-of-place',
          message: `${word} has no meaning in a step that does '${variant}'. It belongs to ${known.only.join(', ')}. Take it out, or move it.`,
          place: placeOfPart(found.node, 'name'),
          about,
          data: { remove: word },
        });
      }
    }
    for (const [word, { property }] of table) {
      const needed = property.required || (variant !== undefined && property.requiredFor?.includes(variant));
      // What can't be read is its own finding, and what it was meant to say is not missing.
      if (!needed || propertiesOf(layers).has(word) || mayBeMeant(layers, word)) continue;
      report({
        code: 'missing-property',
        message: `${describe(layers)} says nothing of ${word}. ${property.doc} Add ${word}: ${property.example}.`,
        place: at,
        about,
        data: { property: word, example: property.example },
      });
    }
    duplicates(layers, about);
    if (kind.called === 'name' && !node.name) {
      report({
        code: 'name-missing',
        message: `This ${kind.kind} has no name, so nothing can refer to it. Write ${kind.kind} and a name, such as ${kind.kind} Main.`,
        place: at,
      });
    }
    if (kind.called === 'designator' && node.label === undefined) {
      report({
        code: 'name-missing',
        message: `This ${kind.kind} has no designator. Write it in quotes: ${kind.kind} "04".`,
        place: at,
      });
    }
    if (node.parameters && !kind.takesParameters) {
      report({
        code: 'out-of-place',
        message: `A ${kind.kind} takes no parameters; only methods do.`,
        place: placeOf(node.parameters),
        about,
      });
    }
    for (const parameter of node.parameters?.parameters ?? []) inspectParameter(parameter, node);
    for (const entry of node.entries) {
      if (entry.$type === 'Block' && !Object.values(kind.blocks).some(child => child.kind === entry.kind))
        misplaced(entry, kind);
      if (entry.$type !== 'Without') continue;
      const below = layers.layers
        .slice(1)
        .flatMap(layer => layer.node.entries.flatMap(each => (each.$type === 'Block' ? [blockName(each)] : [])));
      entry.names.forEach((name, i) => {
        if (below.includes(name)) return;
        const meant = nearestAll(name, below);
        report({
          code: 'unknown-name',
          message: `There is no '${name}' to leave out.${meant[0] ? ` Did you mean ${meant[0]}?` : ` 'without' drops a nested block of the one this is like.`}`,
          place: placeOfPart(entry, 'names', i),
          ...(meant.length > 0 && { data: { meant } }),
        });
      });
    }
  }

  // ── what can't be read ─────────────────────────────────────────────────────────────────────────────────────────

  function mayBeMeant(layers: Layers, word: string): boolean {
    const { all, words } = gapsIn(layers);
    return all || words.has(word);
  }

  function gapsIn(layers: Layers): Gaps {
    let known = gaps.get(layers);
    if (!known) {
      known = newGaps(layers);
      gaps.set(layers, known);
    }
    return known;
  }

  function newGaps(layers: Layers): Gaps {
    const kind = kinds.get(layers.node.kind);
    if (!kind) return NO_GAPS;
    const all = layers.layers.some(layer => orphans.has(layer.node));
    const inside = Object.values(kind.blocks).map(child => child.kind);
    const roles = kind.bindsRoles ? rolesOf(layers) : [];
    const lines: string[] = [];
    const heads: string[] = [];
    for (const { node } of layers.layers) {
      for (const entry of node.entries) {
        if (entry.$type === 'Broken') lines.push(/^[\w-]*/.exec(entry.text.trim())![0]);
        else if (entry.$type === 'Property') {
          if (!vocabularyProperty(kind, entry.name) && !roles.includes(entry.name)) lines.push(entry.name);
        } else if (entry.$type === 'Block' && !inside.includes(entry.kind)) {
          (entry.open === undefined ? lines : heads).push(entry.kind);
        }
      }
    }
    if (!all && lines.length + heads.length === 0) return NO_GAPS;
    const words = [...propertyTable(kind).keys(), ...roles];
    return {
      all,
      words: new Set(lines.flatMap(word => meantBy(word, words))),
      blocks: new Set(heads.flatMap(word => (kinds.has(word) ? [] : meantBy(word, inside)))),
    };
  }

  /** Names of the roles of the method that a work names. */
  function rolesOf(layers: Layers): readonly string[] {
    const value = propertiesOf(layers).get('method')?.node.value;
    const part = value?.$type === 'List' ? value.items[0]?.parts[0] : undefined;
    const method = part?.$type === 'Reference' ? target(part) : undefined;
    const called = method?.$type === 'Block' ? layersOf(method) : undefined;
    return called ? nestedOf(called).flatMap(each => (each.node.kind === 'role' ? [blockName(each.node)] : [])) : [];
  }

  function unknownProperty(layers: Layers, kind: BlockKind, found: FoundProperty): void {
    const table = propertyTable(kind);
    const word = found.node.name;
    const meant = nearestAll(word, table.keys());
    report({
      code: 'unknown-property',
      message: `${describe(layers)} has no property '${word}'.${meant[0] ? ` Did you mean ${meant[0]}?` : ` A ${kind.kind} knows ${[...table.keys()].join(', ')}.`}`,
      place: placeOfPart(found.node, 'name'),
      about: referTo(layers),
      ...(meant.length > 0 && { data: { meant } }),
    });
  }

  function inspectParameter(parameter: Parameter, block: Block): void {
    const type = parameter.type.join(' ');
    const kind = kindNamed(type);
    if (!kind && !kinds.has(type)) {
      const names = [...Object.keys(KINDS), ...kinds.keys()];
      const meant = nearestAll(type, names);
      report({
        code: 'unknown-word',
        message: `'${type}' is no type of parameter.${meant[0] ? ` Did you mean ${meant[0]}?` : ` Types are kinds of quantity: time, length, speed, application rate, pressure, temperature …`}`,
        place: placeOfPart(parameter, 'type'),
        ...(meant.length > 0 && { data: { meant } }),
      });
    }
    if (kind && parameter.default) {
      readQuantity(
        parameter.default,
        kind.name as KindName,
        parameter.name,
        context(undefined, { arguments: new Map(), owner: undefined }, block),
      );
    }
  }

  function misplaced(entry: Block, parent: BlockKind): void {
    if (isLine(entry) && vocabularyProperty(parent, entry.kind)) {
      const place = placeOfPart(entry, 'kind');
      const value = textOf(entry).slice(entry.kind.length).trim();
      report({
        code: 'missing-colon',
        message: `The colon after \`${entry.kind}\` is missing. Write \`${entry.kind}: ${value}\`.`,
        place,
        data: { insert: ':', at: place.end },
      });
      return;
    }
    const allowed = Object.values(parent.blocks).map(child => child.kind);
    const known = kinds.get(entry.kind);
    const meant = known ? [] : nearestAll(entry.kind, allowed);
    report({
      code: known ? 'misplaced-block' : 'unknown-kind',
      message: known
        ? `A ${entry.kind} does not stand inside a ${parent.kind}. ${known.top ? 'Move it out, to the top of the file.' : `It belongs inside ${orList(homesOf(entry.kind))}.`}`
        : `'${entry.kind}' is no kind of block.${meant[0] ? ` Did you mean ${meant[0]}?` : allowed.length > 0 ? ` Inside a ${parent.kind} stand ${allowed.join(', ')}.` : ''}`,
      place: headingOf(entry),
      ...(meant.length > 0 && { data: { meant } }),
    });
  }

  function duplicates(layers: Layers, about: BlockRef): void {
    const first = new Map<string, PropertyNode>();
    const firstBlock = new Map<string, Block>();
    for (const entry of layers.node.entries) {
      if (entry.$type === 'Property') {
        const before = first.get(entry.name);
        if (!before) first.set(entry.name, entry);
        else {
          report({
            code: 'duplicate-property',
            message: `${entry.name} is given twice, and only the first counts. Keep the one that is meant.`,
            place: placeOfPart(entry, 'name'),
            related: [{ place: placeOfPart(before, 'name'), message: 'this one counts' }],
            about,
          });
        }
      } else if (entry.$type === 'Block' && blockName(entry)) {
        const key = blockName(entry);
        const before = firstBlock.get(key);
        if (!before) firstBlock.set(key, entry);
        else {
          report({
            code: 'duplicate-name',
            message: `${key} stands twice here, and names would be ambiguous. Call one of them something else.`,
            place: headingOf(entry),
            related: [{ place: headingOf(before), message: 'the first one' }],
          });
        }
      }
    }
  }

  function describe(layers: Layers): string {
    const name = blockName(layers.node);
    return name ? `The ${layers.node.kind} ${name}` : `This ${layers.node.kind}`;
  }

  // ── the world of expressions ───────────────────────────────────────────────────────────────────────────────────

  const units = new Map<string, Unit | undefined>();
  const world: World = {
    report,
    doubt: () => void doubted++,
    unitOf: word => {
      if (!units.has(word)) units.set(word, parseUnit(word));
      return units.get(word);
    },
    namesAt: options.namesAt,
    layersOf: (named, _reference, scope) => {
      if (named.$type !== 'Block') return undefined;
      if (kinds.has(named.kind)) return layersAt(named, scope);
      // A misspelt kind is its own finding.
      doubted++;
      return undefined;
    },
    nestedOf: (layers, name) => nestedOf(layers).find(each => blockName(each.node) === name),
    propertyOf: (layers, word, at) => {
      const kind = kinds.get(layers.node.kind);
      const known = kind && vocabularyProperty(kind, word);
      if (!known) return undefined;
      const value = given(layers, word, known.key, known.property);
      const evaluated = value ? asEvaluated(value, known.property) : nothing;
      // East.product is the name of a product, which nobody computes with: the quantity is meant.
      if (value && evaluated.is === 'nothing' && computedWords[layers.node.kind]?.[word] !== undefined) {
        report(unknownQuantity(layers, word, at, true));
      }
      return evaluated;
    },
    computedOf: (layers, rest, at) => {
      const [first, second] = rest;
      const kind = kinds.get(layers.node.kind);
      const known = first !== undefined && kind ? vocabularyProperty(kind, first) : undefined;
      if (known?.property.type.is === 'range' && (second === 'least' || second === 'most') && rest.length === 2) {
        const value = given(layers, first!, known.key, known.property)?.value as
          | { least?: number; most?: number }
          | undefined;
        const si = value?.[second];
        return si === undefined ? nothing : numberOf(si, known.property.type.kind);
      }
      const path = rest.join('.');
      if (earlyWords[layers.node.kind]?.includes(path)) return early(layers, path);
      const late = computedWords[layers.node.kind]?.[path] !== undefined || path.includes('.');
      report(unknownQuantity(layers, path, at, late));
      return undefined;
    },
  };

  function unknownQuantity(layers: Layers, path: string, at: Place, late: boolean): Problem {
    const kind = kinds.get(layers.node.kind);
    const names = [...Object.keys(computedWords[layers.node.kind] ?? {}), ...(kind ? propertyTable(kind).keys() : [])];
    const meant = late ? [] : nearestAll(path, names);
    return {
      code: late ? 'quantity-too-late' : 'unknown-quantity',
      message: late
        ? `${[...layers.path, path].join('.')} is computed from values like this one, so this would go in a circle. Inputs may use areas and lengths of deposits; put a condition on it into require.`
        : `${describe(layers)} has nothing called '${path}'.${meant[0] ? ` Did you mean ${meant[0]}?` : ''}`,
      place: at,
      ...(meant.length > 0 && { data: { meant } }),
    };
  }

  /** Quantities of a deposit that its own stations give. */
  function early(layers: Layers, word: string): Evaluated {
    const kind = kinds.get('deposit');
    const known = kind && vocabularyProperty(kind, 'stations');
    const rows =
      known &&
      (given(layers, 'stations', known.key, known.property)?.value as
        | readonly { chainage: number; left: number; right: number }[]
        | undefined);
    if (!rows) return nothing;
    const stations = geometry.stationsFromDistances(
      rows.map(row => ({ s: row.chainage, left: row.left, right: row.right })),
    );
    const extent = geometry.extentOf([stations]);
    if (word === 'area')
      return { is: 'number', magnitude: { si: geometry.area(stations), dimension: AREA, tag: 'none' } };
    if (word === 'length') return numberOf(extent ? extent.to - extent.from : 0, 'length');
    return numberOf(Math.max(...rows.map(row => row.left + row.right)), 'length');
  }

  return { layersOf, called, modelOf, referTo, nestedOf, readAs, mayBeMeant, blockOf, slips, world, unknownQuantity };
}

/** What a block may say that can't be read. */
interface Gaps {
  /** It starts from a block that can't be found, which may say anything. */
  readonly all: boolean;
  /** Properties that a line may have been meant to give. */
  readonly words: ReadonlySet<string>;
  /** Kinds that a nested block may have been meant to be. */
  readonly blocks: ReadonlySet<string>;
}

/** A block that is no more than two words in a line: a property may have been meant. */
function isLine(block: Block): boolean {
  return block.open === undefined && block.name !== undefined && !block.parameters && !block.parent;
}

const NO_GAPS: Gaps = { all: false, words: new Set(), blocks: new Set() };

/** What may be meant by a word that is misspelt, or not written to its end. */
export function meantBy(written: string, words: readonly string[]): readonly string[] {
  if (words.includes(written)) return [written];
  const begun = written.length > 0 ? words.filter(word => word.startsWith(written)) : [];
  return [...begun, ...nearestAll(written, words)];
}

/** A property's value as expressions see it. */
export function asEvaluated(value: Given<unknown>, property: Property): Evaluated {
  const type = property.type;
  const raw = value.value;
  if (type.is === 'quantity' && typeof raw === 'number') {
    const number = numberOf(raw, type.kind);
    return number.is === 'number'
      ? { ...number, ...(value.interval && { interval: value.interval }), ...(value.unit && { unit: value.unit }) }
      : number;
  }
  if (typeof raw === 'boolean') return { is: 'truth', value: raw };
  if (type.is === 'date' && typeof raw === 'string') return { is: 'date', date: raw };
  if (type.is === 'text' && typeof raw === 'string') return { is: 'text', text: raw };
  if (type.is === 'clock' && typeof raw === 'number') return { is: 'clock', minutes: raw };
  if (type.is === 'rate') return numberOf((raw as { rate: number }).rate, 'application rate');
  if (typeof raw === 'string') return { is: 'word', word: raw };
  return nothing;
}

export function numberOf(si: number, kind: KindName): Evaluated {
  const { dimension, tag } = KINDS[kind];
  const magnitude: Magnitude = { si, dimension, tag };
  return { is: 'number', magnitude };
}

function isVariant(kind: BlockKind, word: string): boolean {
  const type = kind.variant ? vocabularyProperty(kind, kind.variant)?.property.type : undefined;
  return type?.is === 'words' && type.words.includes(word);
}

/** Kinds of block in which a nested kind stands. */
function homesOf(kind: string): string[] {
  return [...kinds.values()]
    .filter(each => Object.values(each.blocks).some(child => child.kind === kind))
    .map(each => each.kind);
}
