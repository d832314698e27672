/**
 * Assembles the typed job of a file: its own blocks and those it uses from libraries, evaluated; its works planned; its
 * requirements and waivers ready to be judged. Total: no text makes it throw or hang.
 */
import { AstUtils, type LangiumDocument } from 'langium';
import type { Evaluated } from '../evaluate/evaluated.ts';
import { comparison, evaluate, isComparison, type World } from '../evaluate/expression.ts';
import { blockName, type Layers, type Scope } from '../evaluate/layers.ts';
import { fileOf, headingOf, placeOf, placeOfPart, textOf } from '../evaluate/places.ts';
import type { Problem } from '../evaluate/problem.ts';
import { withArticle } from '../evaluate/readers.ts';
import type { Block, Document, Expression, Named, Reference, Require, Use, Waive } from '../generated/ast.ts';
import { isBlock, isReference } from '../generated/ast.ts';
import { KINDS, kindNamed, parseUnit, type System, showMagnitude } from '../units/index.ts';
import { earlyWords } from '../vocabulary/computed.ts';
import type { BlockRef } from '../vocabulary/given.ts';
import { kinds, topKinds, topKindWords } from '../vocabulary/index.ts';
import { nearestAll } from '../words/nearest.ts';
import type {
  AnyBlock,
  Blocks,
  Job,
  Lookup,
  Plan,
  Requirement,
  RequirementResult,
  TopKey,
  Waiver,
  Work,
} from './job.ts';
import { createModels, type Models, meantBy } from './models.ts';
import { planOf } from './plans.ts';
import type { Readings } from './readings.ts';
import { type Brought, unusedIn } from './unused.ts';

/** The version of the language that this release reads. */
export const LANGUAGE_VERSION = '1';

export interface AssembleOptions {
  readonly main: LangiumDocument<Document>;
  /** Problems that were found before: of the text itself, of its imports. */
  readonly problems?: readonly Problem[];
  /** Names that could be meant at a reference. */
  readonly namesAt?: (reference: Reference) => Iterable<string>;
  /** The unit system in which results are shown; by default the author's own. */
  readonly system?: System;
  /** Files brought in without a prefix: what holds by standing there (weather limits, acceptance, closures) holds here too. */
  readonly standing?: readonly LangiumDocument<Document>[];
  /** Files that are brought in and can be read. */
  readonly brought?: readonly Brought[];
  /** What was read in the texts before this one. */
  readonly readings?: Readings;
}

export function assembleJob(options: AssembleOptions): Job {
  const { main } = options;
  const document = main.parseResult.value;
  const file = main.uri.toString();
  const found = collector(options.problems ?? []);
  const system = options.system ?? systemOf(document);
  const models = createModels({
    main,
    system,
    report: found.report,
    namesAt: options.namesAt ?? (() => []),
    ...(options.readings && { readings: options.readings }),
  });

  const own = document.items.filter(isBlock);
  inspectFile(document, own, found.report);
  const byId = new Map<string, AnyBlock>();
  const lists = Object.fromEntries(Object.keys(topKinds).map(key => [key, [] as AnyBlock[]])) as Record<
    TopKey,
    AnyBlock[]
  >;
  const layersById = new Map<string, Layers>();
  const add = (layers: Layers): void => {
    const key = keyOfKind.get(layers.node.kind);
    const id = models.referTo(layers).id;
    if (!key || byId.has(id)) return;
    const model = models.modelOf(layers);
    if (!model) return;
    register(model, byId);
    layersById.set(id, layers);
    lists[key].push(model);
  };
  for (const block of own) {
    const layers = keyOfKind.has(block.kind) ? models.layersOf(block) : undefined;
    if (layers) add(layers);
  }
  for (const other of options.standing ?? []) {
    for (const block of other.parseResult.value.items.filter(isBlock)) {
      const layers = STANDING.has(block.kind) ? models.layersOf(block) : undefined;
      if (layers) add(layers);
    }
  }
  // What the file's own blocks refer to in libraries, and what that refers to in turn.
  addUsed(main, models, add);

  const plans: Plan[] = [];
  for (const work of lists.works as unknown as Work[]) {
    const layers = layersById.get(work.id);
    if (layers && !work.fromLibrary) plans.push(planOf(layers, work, { models, byId, report: found.report, system }));
  }
  const blocks = lists as unknown as Blocks;
  const statements = statementsOf(document, models);
  return {
    file,
    isLibrary: blocks.jobs.length === 0 && blocks.works.length === 0,
    system,
    date: blocks.jobs[0]?.date?.value,
    blocks,
    byId,
    plans,
    requirements: statements.requires.map(each => requirementOf(each.node, each.owner, models, system)),
    waivers: statements.waives.map(node => waiverOf(node, models, system, file)),
    problems: found.problems(),
    unused: unusedIn(document, options.brought ?? [], STANDING),
    doubts: doubtsOf(blocks, doubtfulKinds(own)),
  };
}

function doubtsOf(blocks: Blocks, lists: readonly TopKey[]): Job['doubts'] {
  const date = lists.includes('jobs') || blocks.jobs[0]?.doubts?.includes('date');
  return [...lists, ...(date ? (['date'] as const) : []), ...(lists.includes('works') ? (['plans'] as const) : [])];
}

/** Lists of blocks that may lack one: what its heading says is no kind. */
function doubtfulKinds(own: readonly Block[]): readonly TopKey[] {
  const words = [...keyOfKind.keys()];
  const odd = own.filter(block => block.open !== undefined && !kinds.has(block.kind));
  return [...new Set(odd.flatMap(block => meantBy(block.kind, words).flatMap(kind => keyOfKind.get(kind) ?? [])))];
}

/** Kinds that nothing refers to by name: they hold for the whole job by standing in one of its files. */
export const STANDING: ReadonlySet<string> = new Set([
  'airport',
  'conditions',
  'acceptance',
  'environment',
  'exclusion',
  'safety',
  'weather-stop',
  'hold-point',
  'trial',
  'cost',
  'warranty',
  'closure',
  'fleet',
  'survey',
]);

const keyOfKind: ReadonlyMap<string, TopKey> = new Map(
  Object.entries(topKinds).map(([key, kind]) => [kind.kind, key as TopKey]),
);

/** Problems, each once: a value used by two works is not wrong twice. */
function collector(first: readonly Problem[]): {
  report: (problem: Problem) => void;
  problems: () => readonly Problem[];
} {
  const all = new Map<string, Problem>();
  const report = (problem: Problem): void => {
    const { file, start, end } = problem.place;
    const key = `${problem.code} ${file} ${start} ${end} ${problem.message}`;
    if (!all.has(key)) all.set(key, problem);
  };
  first.forEach(report);
  return { report, problems: () => [...all.values()] };
}

function register(model: AnyBlock, byId: Map<string, AnyBlock>): void {
  byId.set(model.id, model);
  for (const key of Object.keys(kinds.get(model.kind)?.blocks ?? {})) {
    for (const child of (model as unknown as Record<string, readonly AnyBlock[]>)[key] ?? []) register(child, byId);
  }
}

// ── the file as a whole ──────────────────────────────────────────────────────────────────────────────────────────

function inspectFile(document: Document, own: readonly Block[], report: (problem: Problem) => void): void {
  const header = document.items.find(item => item.$type === 'Header');
  if (header && header.version !== LANGUAGE_VERSION) {
    report({
      code: 'version-unknown',
      message: `This file is written in version ${header.version} of the language, but version ${LANGUAGE_VERSION} is the one that is read here. Values may be misunderstood: use a newer release, or write broomline ${LANGUAGE_VERSION}.`,
      place: placeOf(header),
    });
  }
  if (!header && document.items.length > 0) {
    report({
      code: 'version-missing',
      message: `The file does not say in which version of the language it is written. Begin it with broomline ${LANGUAGE_VERSION}.`,
      place: { file: fileOf(document), start: 0, end: 0 },
      data: { insert: `broomline ${LANGUAGE_VERSION}\n\n` },
    });
  }
  for (const item of document.items) {
    if (item.$type !== 'Property') continue;
    report({
      code: 'misplaced-statement',
      message: `${item.name} stands at the top of the file, where it belongs to nothing. Move it into the block it is about.`,
      place: placeOf(item),
    });
  }
  const first = new Map<string, Block | Use>();
  for (const item of document.items)
    if (item.$type === 'Use' && item.name !== undefined && !first.has(item.name)) first.set(item.name, item);
  for (const block of own) {
    const name = blockName(block);
    if (!keyOfKind.has(block.kind)) unknownKind(block, report);
    if (!name) continue;
    const before = first.get(name);
    if (!before) first.set(name, block);
    else {
      report({
        code: 'duplicate-name',
        message: `${name} is the name of two things in this file, and a reference would be ambiguous. Call one of them something else.`,
        place: placeOfPart(block, block.name === undefined ? 'label' : 'name'),
        related: [{ place: before.$type === 'Use' ? placeOf(before) : headingOf(before), message: 'the first one' }],
      });
    }
  }
}

function unknownKind(block: Block, report: (problem: Problem) => void): void {
  const nested = kinds.get(block.kind);
  if (nested) {
    const homes = [...kinds.values()].filter(each =>
      Object.values(each.blocks).some(child => child.kind === block.kind),
    );
    report({
      code: 'misplaced-block',
      message: `A ${block.kind} stands inside ${withArticle(homes.map(each => each.kind).join(' or '))}, not at the top of a file. Move it in.`,
      place: headingOf(block),
    });
    return;
  }
  const meant = nearestAll(block.kind, topKindWords);
  report({
    code: 'unknown-kind',
    message: `'${block.kind}' is no kind of block.${meant[0] ? ` Did you mean ${meant[0]}?` : ` Kinds are ${[...topKindWords].join(', ')}.`}`,
    place: placeOfPart(block, 'kind'),
    ...(meant.length > 0 && { data: { meant } }),
  });
}

/** Adds the library blocks that a file names, and those that these name in turn. */
function addUsed(main: LangiumDocument<Document>, models: Models, add: (layers: Layers) => void): void {
  const seen = new Set<Block>();
  const queue: Block[] = [];
  const meet = (named: Named | undefined): void => {
    if (named?.$type !== 'Block' || named.$container.$type !== 'Document' || seen.has(named)) return;
    seen.add(named);
    if (named.$container === main.parseResult.value) return;
    const layers = models.layersOf(named);
    if (layers) add(layers);
    queue.push(named);
  };
  for (const reference of main.references) if (!('items' in reference)) meet(reference.ref as Named | undefined);
  for (let block = queue.pop(); block; block = queue.pop()) {
    for (const node of AstUtils.streamAst(block)) {
      if (!isReference(node)) continue;
      meet(node.head?.ref);
      for (const each of node.tail) meet(each.ref);
    }
  }
}

/** The author's unit system: what the job block says, else what most units of the file belong to. */
function systemOf(document: Document): System {
  for (const item of document.items) {
    if (item.$type !== 'Block' || item.kind !== 'job') continue;
    for (const entry of item.entries) {
      if (entry.$type === 'Property' && entry.name === 'units')
        return textOf(entry.value) === 'US customary' ? 'us' : 'metric';
    }
  }
  let [metric, us] = [0, 0];
  const count = (unit: string | undefined): void => {
    const system = unit === undefined ? undefined : parseUnit(unit)?.system;
    if (system === 'metric') metric++;
    else if (system === 'us' || system === 'imperial') us++;
  };
  const inExpression = (expression: Expression): void => {
    if (expression.$type === 'Quantity') count(expression.unit);
    else if (expression.$type === 'Binary') {
      if (expression.left) inExpression(expression.left);
      if (expression.right) inExpression(expression.right);
    } else if (expression.$type === 'Reference') {
      for (const argument of expression.arguments) for (const part of argument.value?.parts ?? []) inExpression(part);
    }
  };
  const inBlock = (block: Block): void => {
    for (const entry of block.entries) {
      if (entry.$type === 'Block') inBlock(entry);
      else if (entry.$type !== 'Property' || !entry.value) continue;
      else if (entry.value.$type === 'Table') for (const column of entry.value.columns) count(column.unit);
      else for (const item of entry.value.items) for (const part of item.parts) inExpression(part);
    }
  };
  for (const item of document.items) if (item.$type === 'Block') inBlock(item);
  return us > metric ? 'us' : 'metric';
}

// ── requirements and waivers ─────────────────────────────────────────────────────────────────────────────────────

interface Statements {
  readonly requires: readonly { readonly node: Require; readonly owner: Layers | undefined }[];
  readonly waives: readonly Waive[];
}

function statementsOf(document: Document, models: Models): Statements {
  const requires: { node: Require; owner: Layers | undefined }[] = [];
  const waives: Waive[] = [];
  const inBlock = (block: Block): void => {
    for (const entry of block.entries) {
      if (entry.$type === 'Require')
        requires.push({ node: entry, owner: keyOfKind.has(block.kind) ? models.layersOf(block) : undefined });
      else if (entry.$type === 'Block') inBlock(entry);
    }
  };
  for (const item of document.items) {
    if (item.$type === 'Require') requires.push({ node: item, owner: undefined });
    else if (item.$type === 'Waive') waives.push(item);
    else if (item.$type === 'Block') inBlock(item);
  }
  return { requires, waives };
}

function requirementOf(node: Require, owner: Layers | undefined, models: Models, system: System): Requirement {
  return {
    place: placeOf(node),
    text: node.condition ? textOf(node.condition) : '',
    reason: node.reason,
    owner: owner && models.referTo(owner),
    evaluate: lookup => judge(node.condition, owner, models, lookup, system),
  };
}

/** Path under which the quantities of a block stand; those of the job as a whole under `Job`, whatever it is called. */
function pathOf({ node, path }: Layers): readonly string[] {
  return node.kind === 'job' ? ['Job'] : path;
}

/** Judges a condition with the computed quantities at hand. */
function judge(
  condition: Expression | undefined,
  owner: Layers | undefined,
  models: Models,
  lookup: Lookup,
  system: System,
): RequirementResult {
  const problems: Problem[] = [];
  let missing: string | undefined;
  const world: World = {
    ...models.world,
    report: problem => problems.push(problem),
    // A computed quantity hides the property of its name: East.product is how much, not which.
    propertyOf: (layers, word, at) => {
      const path = [...pathOf(layers), word];
      const found = lookup(path.join('.'));
      return found === 'unknown' ? models.world.propertyOf(layers, word, at) : quantity(found, path);
    },
    computedOf: (layers, rest, at) => {
      const path = [...pathOf(layers), ...rest];
      const found = lookup(path.join('.'));
      if (found !== 'unknown') return quantity(found, path);
      const known = rest.length === 2 ? models.world.propertyOf(layers, rest[0]!, at) : undefined;
      const early = earlyWords[layers.node.kind]?.includes(rest.join('.'));
      if (known || early) return models.world.computedOf(layers, rest, at);
      problems.push(models.unknownQuantity(layers, rest.join('.'), at, false));
      return undefined;
    },
  };
  const quantity = (found: Exclude<ReturnType<Lookup>, 'unknown'>, path: readonly string[]): Evaluated => {
    if (found === 'missing') {
      missing ??= path.join('.');
      return { is: 'nothing' };
    }
    const kind = kindNamed(found.kind) ?? KINDS.number;
    return { is: 'number', magnitude: { si: found.value, dimension: kind.dimension, tag: kind.tag } };
  };
  if (!condition) return { missing: 'the condition' };
  const scope: Scope = { arguments: new Map(), owner };
  const slipped = models.slips();
  const sides = condition.$type === 'Binary' && isComparison(condition.operator) ? condition : undefined;
  const left = sides && evaluate(sides.left, scope, world);
  const right = sides && evaluate(sides.right, scope, world);
  const value: Evaluated =
    sides && left && right ? comparison(sides, left, right, world) : evaluate(condition, scope, world);
  const [problem] = problems;
  if (problem) return { problem };
  if (models.slips() > slipped) return { missing: 'a value in the condition', inDoubt: true };
  if (missing !== undefined) return { missing };
  if (value.is !== 'truth') {
    if (value.is === 'nothing') return { missing: 'a value in the condition' };
    return {
      problem: {
        code: 'wrong-value',
        message: 'A condition is something that is true or not: compare two values, as in East.product <= 6000 L.',
        place: placeOf(condition),
      },
    };
  }
  return {
    holds: value.value,
    ...(sides && { operator: sides.operator }),
    ...(left?.is === 'number' && { left: showMagnitude(left.magnitude, system) }),
    ...(right?.is === 'number' && { right: showMagnitude(right.magnitude, system) }),
  };
}

function waiverOf(node: Waive, models: Models, system: System, file: string): Waiver {
  return {
    place: placeOf(node),
    check: node.check ?? '',
    checkPlace: placeOfPart(node, 'check'),
    target: node.target && targetOf(node.target, models),
    condition: node.condition && {
      place: placeOf(node.condition),
      text: textOf(node.condition),
      reason: undefined,
      owner: undefined,
      evaluate: lookup => judge(node.condition, undefined, models, lookup, system),
    },
    reason: node.reason,
    signatory: node.signatory,
    until: node.until,
    fromLibrary: fileOf(node) !== file,
  };
}

/** What a waiver names: a block, or a step of a work (`North.Agitate`). */
function targetOf(reference: Reference, models: Models): NonNullable<Waiver['target']> {
  const path = textOf(reference);
  const place = placeOf(reference);
  const head = reference.head?.ref;
  const chain = head?.$type === 'Use' ? reference.tail : [reference.head, ...reference.tail];
  const first = chain[0]?.ref;
  if (first?.$type !== 'Block') return { path, place, id: undefined };
  const layers = models.layersOf(first);
  const base: BlockRef | undefined = layers && models.referTo(layers);
  const rest = chain.slice(1).map(each => each.$refText);
  return { path, place, id: base && [base.id, ...rest].join('.') };
}
