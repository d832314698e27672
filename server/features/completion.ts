/**
 * What can stand at the cursor. Everything offered comes from the vocabulary, from the names that are visible there, or
 * from what was computed; nothing is listed here that is defined elsewhere.
 */
import { type AstNode, URI } from 'langium';
import {
  type CompletionItem,
  CompletionItemKind,
  CompletionItemTag,
  type CompletionList,
  CompletionRequest,
  CompletionResolveRequest,
  InsertTextFormat,
  MarkupKind,
  type Range,
} from 'vscode-languageserver';
import { z } from 'zod';
import type { Analysis } from '../../language/analysis/analyse.ts';
import { checks } from '../../language/checks/registry.ts';
import { type Block, type Document, isBlock, isProperty, type Named } from '../../language/generated/ast.ts';
import { KINDS, type KindName, kindNamed, likelyUnits, parseUnit, type System } from '../../language/units/index.ts';
import type { BlockKind, Property, ValueType } from '../../language/vocabulary/define.ts';
import { kinds, propertyOf, propertyTable, topKinds } from '../../language/vocabulary/index.ts';
import { plantKinds } from '../../language/vocabulary/plant.ts';
import { type Cursor, cursorAt } from '../project/cursor.ts';
import {
  inBothSystems,
  kindText,
  namedText,
  paragraphs,
  parameterText,
  pathOf,
  propertyText,
  showingOf,
  signatureOf,
} from '../project/describe.ts';
import { workspaceFiles } from '../project/files.ts';
import { rangeIn } from '../project/positions.ts';
import type { BroomDocument, Project } from '../project/project.ts';
import type { AboutPosition, Feature, Pace, Session } from '../session.ts';
import { pageOf } from './checkPages.ts';
import { FUNCTIONS } from './hover.ts';

export const completion: Feature = {
  capabilities: () => ({
    completionProvider: { triggerCharacters: ['.', ':', ' ', '"', '/', '('], resolveProvider: true },
  }),
  register: session => {
    session.onPosition(CompletionRequest.type, async (about, params, pace): Promise<CompletionList> => {
      const items = await completionsAt(session, about, pace, params.context?.triggerCharacter);
      return { isIncomplete: false, items: [...items] };
    });
    session.on(CompletionResolveRequest.type, z.looseObject({ label: z.string() }), async item =>
      resolve(session, item),
    );
  },
};

/** What an item needs to be explained when someone looks at it. */
const resolvable = z.union([
  z.object({ is: z.literal('property'), kind: z.string(), word: z.string() }),
  z.object({ is: z.literal('kind'), kind: z.string() }),
  z.object({ is: z.literal('check'), code: z.string() }),
  z.object({ is: z.literal('named'), uri: z.string(), from: z.string(), path: z.array(z.string()) }),
]);
type Resolvable = z.infer<typeof resolvable>;

async function resolve(session: Session, item: CompletionItem): Promise<CompletionItem> {
  const data = resolvable.safeParse(item.data);
  const text = data.success ? await documentationOf(session, data.data) : undefined;
  return text === undefined ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value: text } };
}

async function documentationOf(session: Session, data: Resolvable): Promise<string | undefined> {
  switch (data.is) {
    case 'kind': {
      const kind = kinds.get(data.kind);
      return kind && kindText(session.t, kind);
    }
    case 'property': {
      const kind = kinds.get(data.kind);
      const found = kind && propertyOf(kind, data.word);
      return found && propertyText(session.t, kind, data.word, found.property);
    }
    case 'check':
      return pageOf(data.code);
    case 'named': {
      const { document, analysis } = await session.about(data.from);
      const named = followed(session.project, document.parseResult.value, data.path);
      return (
        named && namedText(named, analysis, showingOf(session, analysis, session.system(analysis)), session.project)
      );
    }
  }
}

/** A node that stands in a block (or at the top), for asking which names are visible there. */
function hereIn(container: Block | Document): AstNode {
  return { $type: 'Reference', $container: container } as unknown as AstNode;
}

interface Place {
  readonly session: Session;
  readonly document: BroomDocument;
  readonly analysis: Analysis | undefined;
  readonly cursor: Cursor;
  /** Innermost block in the syntax tree, and its kind. */
  readonly block: Block | undefined;
  readonly kind: BlockKind | undefined;
  readonly system: System;
  readonly snippets: boolean;
  /** The word before the cursor, which the completion replaces. */
  readonly range: Range;
  readonly word: string;
  readonly offset: number;
}

async function completionsAt(
  session: Session,
  { document, analysis, text, offset }: AboutPosition,
  pace: Pace,
  trigger: string | undefined,
): Promise<readonly CompletionItem[]> {
  const cursor = cursorAt(text, offset);
  if (cursor.inComment) return [];
  const word = /[\p{L}\p{N}_-]*$/u.exec(cursor.statement)?.[0] ?? '';
  const open = cursor.blocks.at(-1);
  const place: Place = {
    session,
    document,
    analysis,
    cursor,
    block: open && blockAt(document, open.start),
    kind: open && kindIn(cursor),
    system: analysis?.job.system ?? 'metric',
    snippets: session.client.textDocument?.completion?.completionItem?.snippetSupport === true,
    range: rangeIn(document, offset - word.length, offset),
    word,
    offset,
  };
  const { statement } = cursor;
  if (cursor.inText) return inText(place, pace);
  // A blank asks for completions only where something particular is due.
  if (/^[\p{L}\p{N}_-]*$/u.test(statement)) return trigger === ' ' || cursor.inRows ? [] : statements(place);
  if (cursor.inRows) return [];
  const valued = /^([\p{L}\p{N}_-]+)\s*:([\s\S]*)$/u.exec(statement);
  if (valued) return propertyValue(place, valued[1]!, valued[2]!);
  return clause(place, pace);
}

/** The kind as its place says: `end` in a runway is not looked for elsewhere. */
function kindIn(cursor: Cursor): BlockKind | undefined {
  let at: BlockKind | undefined;
  for (const { kind } of cursor.blocks) {
    at =
      at === undefined
        ? kinds.get(kind)
        : (Object.values(at.blocks).find(child => child.kind === kind) ?? kinds.get(kind));
  }
  return at;
}

function blockAt(document: BroomDocument, start: number): Block | undefined {
  let items: readonly AstNode[] = document.parseResult.value.items;
  for (;;) {
    const around = items.find(
      item =>
        isBlock(item) && item.$cstNode !== undefined && item.$cstNode.offset <= start && start < item.$cstNode.end,
    );
    if (!isBlock(around)) return undefined;
    if (around.$cstNode?.offset === start) return around;
    items = around.entries;
  }
}

// --- statements ---

function statements(place: Place): readonly CompletionItem[] {
  const { kind, block } = place;
  if (place.cursor.blocks.length === 0) {
    const blocks = Object.values(topKinds).map((each, i) => kindItem(place, each, `1${pad(i)}`));
    const hasHeader = place.document.parseResult.value.items.some(item => item.$type === 'Header');
    return [
      ...(hasHeader ? [] : [keyword(place, 'broomline', 'broomline 1', '0')]),
      keyword(place, 'use', 'use "$1"', '2'),
      keyword(place, 'require', 'require $1 because "$2"', '2'),
      keyword(place, 'waive', 'waive $1 because "$2" by "$3"', '2'),
      ...blocks,
    ];
  }
  if (kind === undefined) return [];
  const present = new Set(
    (block?.entries ?? [])
      .filter(isProperty)
      .filter(each => !isUnderCursor(each, place.offset))
      .map(each => each.name),
  );
  const variant = kind.variant === undefined || block === undefined ? undefined : firstWord(block, kind.variant);
  const properties = [...propertyTable(kind)]
    .filter(
      ([word, { property }]) =>
        !present.has(word) && (variant === undefined || !property.only || property.only.includes(variant)),
    )
    .map(([word, { property }], i) => propertyItem(place, kind, word, property, i, variant));
  const roles = kind.bindsRoles && block ? rolesOf(place, block, present) : [];
  const nested = Object.values(kind.blocks).map((each, i) => kindItem(place, each, `5${pad(i)}`));
  return [
    ...roles,
    ...properties,
    ...nested,
    keyword(place, 'require', 'require $1 because "$2"', '8'),
    ...(block?.parent ? [keyword(place, 'without', 'without $1', '8')] : []),
  ];
}

function isUnderCursor(node: AstNode, offset: number): boolean {
  const cst = node.$cstNode;
  return cst !== undefined && cst.offset <= offset && offset <= cst.end;
}

function firstWord(block: Block, property: string): string | undefined {
  const found = block.entries.find(entry => isProperty(entry) && entry.name === property);
  const cst = isProperty(found) ? found.value?.$cstNode : undefined;
  return cst?.text.trim();
}

function propertyItem(
  place: Place,
  kind: BlockKind,
  word: string,
  property: Property,
  index: number,
  variant: string | undefined,
): CompletionItem {
  const { t } = place.session;
  const needed = property.required || (variant !== undefined && property.requiredFor?.includes(variant) === true);
  return {
    ...base(place, word, CompletionItemKind.Property),
    sortText: `${needed ? '0' : '2'}${pad(index)}`,
    detail: needed ? t('required') : property.default ? t('by default {0}', property.default.text) : '',
    ...insert(place, `${word}: ${blankFor(property)}`, `${word}: `),
    data: { is: 'property', kind: kind.kind, word } satisfies Resolvable,
  };
}

/** A blank to fill in, with what may stand there where that is a short list. */
function blankFor({ type, example, default: otherwise }: Property): string {
  if (type.is === 'words' && type.words.length <= 12)
    return `\${1|${type.words.map(each => escaped(each).replace(/[,|]/g, '\\$&')).join(',')}|}`;
  if (type.is === 'flag') return `\${1|yes,no|}`;
  if (type.is === 'text') return '"$1"';
  if (type.is === 'names' || type.is === 'machines' || type.is === 'call') return '$1';
  if (type.is === 'table') return tableSnippet(type);
  return `\${1:${escaped(otherwise?.text ?? example)}}`;
}

function tableSnippet(type: ValueType & { readonly is: 'table' }): string {
  const columns = Object.entries(type.columns);
  const heads = columns.map(([name, { kind }]) => {
    const unit = kind === undefined ? undefined : KINDS[kind].likely.metric[0];
    return `${kebab(name)}${unit ? ` ${unit}` : ''}`;
  });
  return `table ${heads.join(', ')}\n\t${columns.map((_, i) => `\${${i + 1}:0}`).join('  ')}`;
}

function kindItem(place: Place, kind: BlockKind, sortText: string): CompletionItem {
  // biome-ignore lint/suspicious/noTemplateCurlyInString: the places of a snippet
  const names = { designator: ' "${1:04}"', nothing: '', 'name or nothing': '', name: ' ${1:Name}' } as const;
  const name = names[kind.called];
  let blank = name === '' ? 0 : 1;
  const lines = [...propertyTable(kind)]
    .filter(([, { property }]) => property.required)
    .map(([word, { property }]) => {
      const value = blankFor(property).replace(/\$\{?1/g, found => found.replace('1', String(++blank)));
      return property.type.is === 'table' ? `\t${word}: ${escaped(property.example)}` : `\t${word}: ${value}`;
    });
  const body = lines.length > 0 ? `{\n${lines.join('\n')}\n}` : '{\n\t$0\n}';
  return {
    ...base(place, kind.kind, CompletionItemKind.Class),
    sortText,
    detail: kind.group,
    ...insert(place, `${kind.kind}${name} ${body}`, `${kind.kind} `),
    data: { is: 'kind', kind: kind.kind } satisfies Resolvable,
  };
}

function rolesOf(place: Place, work: Block, present: ReadonlySet<string>): readonly CompletionItem[] {
  const { names } = place.session.project;
  const method = names.methodOf(work);
  if (method === undefined) return [];
  return [...names.memberNames(method)]
    .filter(({ kind, name }) => kind === 'role' && !present.has(name))
    .map(({ name, node }, i) => ({
      ...base(place, name, CompletionItemKind.Property),
      sortText: `00r${pad(i)}`,
      detail: place.session.t('role: {0}', isBlock(node) ? (firstWord(node, 'machine') ?? 'machine') : 'machine'),
      ...insert(place, `${name}: $1`, `${name}: `),
    }));
}

// --- values ---

function propertyValue(place: Place, word: string, written: string): readonly CompletionItem[] {
  const { kind, block, session } = place;
  const call = openCall(written);
  if (call !== undefined) return argumentsOf(place, call);
  const dotted = afterDot(place, written);
  const property = kind && propertyOf(kind, word)?.property;
  const role = block && kind?.bindsRoles && !property ? roleNamed(session.project, block, word) : undefined;
  if (dotted)
    return dotted(property ? kindsWanted(property.type) : role ? machinesFor(role) : undefined, property?.type);
  if (role) return namesOfKinds(place, machinesFor(role));
  if (property === undefined) return [];
  const item = written.slice(written.lastIndexOf(',') + 1);
  return valuesOf(place, property, item, written);
}

function valuesOf(place: Place, property: Property, item: string, written: string): readonly CompletionItem[] {
  const { type } = property;
  const numbered = afterNumber(item);
  switch (type.is) {
    case 'words':
      if (item !== written && !type.many) return [];
      return type.words.map((each, i) => valueItem(place, each, CompletionItemKind.EnumMember, pad(i), item));
    case 'flag':
      return ['yes', 'no'].map(each => valueItem(place, each, CompletionItemKind.EnumMember, each));
    case 'quantity':
    case 'range':
      if (numbered !== undefined) return unitItems(place, type.kind, type.is === 'range' ? ['to'] : []);
      return [...examples(place, property, item), ...expressionNames(place, type.kind)];
    case 'names':
      return namesOfKinds(place, type.kinds);
    case 'machines':
      return numbered === undefined
        ? namesOfKinds(place, plantKinds)
        : [valueItem(place, 'of', CompletionItemKind.Keyword, '0')];
    case 'call':
      return namesOfKinds(place, type.kinds);
    case 'date':
      return place.analysis?.job.date
        ? [valueItem(place, place.analysis.job.date, CompletionItemKind.Value, '0')]
        : examples(place, property, item);
    case 'table':
      return item.trim() === place.word
        ? [{ ...base(place, 'table', CompletionItemKind.Snippet), ...insert(place, tableSnippet(type), 'table ') }]
        : [];
    case 'text':
      return item.trim() === ''
        ? [{ ...base(place, '"…"', CompletionItemKind.Text), ...insert(place, '"$1"', '""') }]
        : [];
    case 'rate':
      if (/\d\s*\S+\s+of\s+[a-z]*$/.test(item))
        return ['mix', 'product', 'water'].map(each => valueItem(place, each, CompletionItemKind.EnumMember, each));
      if (numbered !== undefined) return unitItems(place, 'application rate', []);
      if (/\d\s*[^\s\d]+\s+[a-z]*$/.test(item)) return [valueItem(place, 'of', CompletionItemKind.Keyword, '0')];
      return [...examples(place, property, item), ...expressionNames(place, 'application rate')];
    case 'fromEnd': {
      if (!/^\s*[\p{L}\p{N}_.-]+\s+[a-z]*$/u.test(item)) return namesOfKinds(place, ['runway']);
      return endsOf(place, item).map(end => valueItem(place, `from "${end}"`, CompletionItemKind.EnumMember, end));
    }
    case 'hours':
      return /,\s*[A-Za-z ]*$/.test(written)
        ? DAYS.map((each, i) => valueItem(place, each, CompletionItemKind.EnumMember, pad(i)))
        : examples(place, property, item);
    case 'advance':
      if (numbered !== undefined) return unitItems(place, 'length', []);
      return ['half swept', 'half nominal'].map(each =>
        valueItem(place, each, CompletionItemKind.EnumMember, each, item),
      );
    case 'bays':
      if (numbered !== undefined) return unitItems(place, 'length', []);
      return [valueItem(place, 'auto', CompletionItemKind.EnumMember, '1'), ...examples(place, property, item)];
    case 'tandem':
      if (numbered !== undefined) return unitItems(place, 'length', []);
      return ['same lane 60 m apart', 'next lane 60 m apart'].map(each =>
        valueItem(place, each, CompletionItemKind.EnumMember, each, item),
      );
    case 'dilution':
      return numbered === undefined
        ? [...examples(place, property, item), valueItem(place, 'neat', CompletionItemKind.EnumMember, '1')]
        : [];
    case 'currency':
      return ['EUR', 'USD', 'GBP', 'CHF', 'AUD', 'CAD', 'NZD', 'NOK', 'SEK', 'DKK', 'PLN', 'JPY'].map(each =>
        valueItem(place, each, CompletionItemKind.Unit, each),
      );
    default:
      return examples(place, property, item);
  }
}

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun', 'Mon to Fri', 'Mon to Thu', 'Sat to Sun', 'daily'];

function examples(place: Place, { example, default: otherwise }: Property, item: string): readonly CompletionItem[] {
  if (item.trim() !== place.word) return [];
  const texts = [...new Set([otherwise?.text, example].filter(each => each !== undefined))];
  return texts.map((each, i) => ({
    ...valueItem(place, each, CompletionItemKind.Value, `0${i}`, item),
    detail: each === otherwise?.text ? place.session.t('the default') : place.session.t('an example'),
  }));
}

/** The number before the cursor that wants a unit, where one stands there. */
function afterNumber(item: string): string | undefined {
  return /(?:^|[\s(*/+-])(\d+(?:\.\d+)?(?:e[+-]?\d+)?)\s*[^\s\d,(){}"]*$/i.exec(item)?.[1];
}

function unitItems(place: Place, kind: KindName, further: readonly string[]): readonly CompletionItem[] {
  const { t } = place.session;
  const other = place.system === 'metric' ? 'us' : 'metric';
  const money = place.analysis?.job.blocks.jobs[0]?.currency?.value;
  const symbols = [...new Set([...likelyUnits(KINDS[kind], place.system), ...likelyUnits(KINDS[kind], other)])].map(
    each => each.replace('¤', money ?? 'EUR'),
  );
  // The unit may touch its number or hold characters that no word has: what is replaced begins behind the number.
  const before = /[^\s\d,(){}"]*$/.exec(place.cursor.statement)?.[0] ?? '';
  const glued = /\d$/.test(place.cursor.statement.slice(0, place.cursor.statement.length - before.length));
  const range = rangeIn(place.document, place.offset - before.length, place.offset);
  return [
    ...symbols.map((symbol, i) => ({
      label: symbol,
      kind: CompletionItemKind.Unit,
      sortText: `0${pad(i)}`,
      detail: parseUnit(symbol)?.system === 'us' ? t('{0}, US customary', kind) : t('{0}, metric', kind),
      filterText: before === '' ? symbol : symbol.startsWith(before) ? symbol : `${before}${symbol}`,
      textEdit: { range, newText: `${glued ? ' ' : ''}${symbol}` },
    })),
    ...further.map(word => valueItem(place, word, CompletionItemKind.Keyword, '9')),
  ];
}

// --- names ---

function kindsWanted(type: ValueType): readonly string[] | undefined {
  if (type.is === 'names' || type.is === 'call') return type.kinds;
  if (type.is === 'machines') return plantKinds;
  return type.is === 'fromEnd' ? ['runway'] : undefined;
}

function roleNamed(project: Project, work: Block, name: string): Block | undefined {
  const method = project.names.methodOf(work);
  const role = method && project.names.nested(method, name);
  return role?.kind === 'role' ? role : undefined;
}

function machinesFor(role: Block): readonly string[] {
  const machine = firstWord(role, 'machine');
  return machine && plantKinds.includes(machine as never) ? [machine] : plantKinds;
}

/** Visible blocks of the kinds wanted, and prefixes behind which there are some. */
function namesOfKinds(place: Place, wanted: readonly string[]): readonly CompletionItem[] {
  const { names } = place.session.project;
  const items: CompletionItem[] = [];
  for (const { name, node, kind } of names.visibleNames(hereIn(place.block ?? place.document.parseResult.value))) {
    if (node === place.block) continue;
    if (wanted.includes(kind)) items.push(namedItem(place, [name], node, '0'));
    else if (kind === 'use') {
      for (const member of names.memberNames(node)) {
        if (wanted.includes(member.kind)) items.push(namedItem(place, [name, member.name], member.node, '1'));
      }
    } else if (kind === 'parameter') items.push(namedItem(place, [name], node, '2'));
  }
  return items;
}

function namedItem(place: Place, path: readonly string[], node: Named, sort: string): CompletionItem {
  const label = path.join('.');
  const parameters = isBlock(node) && node.kind === 'method' ? place.session.project.names.parametersOf(node) : [];
  const needed = parameters.filter(each => each.default === undefined);
  const blanks = needed
    .map((each, i) => `${each.name}: \${${i + 1}:${escaped((each.type ?? []).join(' '))}}`)
    .join(', ');
  return {
    ...base(
      place,
      label,
      isBlock(node)
        ? node.kind === 'method'
          ? CompletionItemKind.Method
          : CompletionItemKind.Variable
        : node.$type === 'Use'
          ? CompletionItemKind.Module
          : CompletionItemKind.Variable,
    ),
    sortText: `${sort}${label}`,
    detail: isBlock(node) ? node.kind : node.$type === 'Use' ? (node.path ?? '') : signatureOf(node),
    ...(needed.length > 0 ? insert(place, `${label}(${blanks})`, label) : insert(place, undefined, label)),
    data: {
      is: 'named',
      uri: place.document.uri.toString(),
      from: place.document.uri.toString(),
      path: [...path],
    } satisfies Resolvable,
  };
}

/** Members of what stands before the dot: blocks of a file, nested blocks, computed quantities. */
function afterDot(
  place: Place,
  written: string,
): ((wanted: readonly string[] | undefined, type: ValueType | undefined) => readonly CompletionItem[]) | undefined {
  const chain = /((?:[\p{L}_][\p{L}\p{N}_-]*\.)+)[\p{L}\p{N}_-]*$/u.exec(written)?.[1]?.split('.').slice(0, -1);
  if (!chain?.length) return undefined;
  return (wanted, type) => {
    const { project } = place.session;
    const { names } = project;
    const here = hereIn(place.block ?? place.document.parseResult.value);
    let at: Named | undefined = [...names.visibleNames(here)].find(each => each.name === chain[0])?.node;
    let deeper = false;
    for (const word of chain.slice(1)) {
      const method: Block | undefined = isBlock(at) ? names.methodOf(at) : undefined;
      at =
        at &&
        ([...names.memberNames(at)].find(each => each.name === word)?.node ?? (method && names.nested(method, word)));
      deeper = true;
    }
    const members = at
      ? [...names.memberNames(at)].filter(each => wanted === undefined || wanted.includes(each.kind))
      : [];
    const steps =
      isBlock(at) && at.kind === 'work' && wanted === undefined
        ? [...names.memberNames(names.methodOf(at) ?? at)].filter(each => each.kind === 'step')
        : [];
    const items = [...members, ...steps].map(member => ({
      ...namedItem(place, [member.name], member.node, '1'),
      data: {
        is: 'named',
        uri: place.document.uri.toString(),
        from: place.document.uri.toString(),
        path: [...chain, member.name],
      } satisfies Resolvable,
    }));
    if (wanted !== undefined && type?.is !== 'quantity') return items;
    // A step of a work is known under the work's name, not under the method's.
    const path = isBlock(at) && !deeper ? pathOf(at) : chain.slice(isUseNamed(place, chain[0]!) ? 1 : 0).join('.');
    return [...items, ...computedItems(place, path)];
  };
}

function isUseNamed({ document }: Place, name: string): boolean {
  return document.parseResult.value.items.some(item => item.$type === 'Use' && item.name === name);
}

function computedItems(place: Place, path: string): readonly CompletionItem[] {
  const { analysis } = place;
  const start = `${path}.`;
  const showing = showingOf(place.session, analysis, place.session.system(analysis));
  const found: CompletionItem[] = [];
  const seen = new Set<string>();
  for (const each of analysis?.quantities.values() ?? []) {
    if (!each.path.startsWith(start)) continue;
    const [first, ...rest] = each.path.slice(start.length).split('.');
    if (first === undefined || seen.has(first) || (rest.length > 0 && /^[A-Z]/.test(first))) continue;
    seen.add(first);
    found.push({
      ...base(place, first, CompletionItemKind.Field),
      sortText: `2${pad(found.length)}`,
      detail: rest.length > 0 ? '' : inBothSystems(each.value, each.kind, showing),
      ...(rest.length === 0 && {
        documentation: {
          kind: MarkupKind.Markdown,
          value: paragraphs([each.label, each.formula ? `\`${each.formula}\`` : '']),
        },
      }),
      ...insert(place, undefined, first),
    });
  }
  return found;
}

/** Names that can stand in an expression: parameters of the kind, blocks with computed quantities, functions. */
function expressionNames(place: Place, kind: KindName | undefined): readonly CompletionItem[] {
  const { names } = place.session.project;
  const items: CompletionItem[] = [];
  for (const each of names.visibleNames(hereIn(place.block ?? place.document.parseResult.value))) {
    if (each.kind === 'parameter') {
      const type = 'type' in each.node ? (each.node.type as readonly string[]).join(' ') : '';
      if (kind === undefined || kindNamed(type)?.dimension.key === KINDS[kind].dimension.key)
        items.push(namedItem(place, [each.name], each.node, '1'));
    } else if (each.kind === 'use' || computedItems(place, each.name).length > 0)
      items.push(namedItem(place, [each.name], each.node, '3'));
  }
  if (place.analysis && [...place.analysis.quantities.keys()].some(path => path.startsWith('Job.'))) {
    items.push({
      ...base(place, 'Job', CompletionItemKind.Variable),
      sortText: '3Job',
      detail: place.session.t('totals of the job'),
      ...insert(place, undefined, 'Job'),
    });
  }
  for (const name of Object.keys(FUNCTIONS)) {
    items.push({
      ...base(place, name, CompletionItemKind.Function),
      sortText: `4${name}`,
      documentation: { kind: MarkupKind.Markdown, value: FUNCTIONS[name]! },
      ...insert(place, `${name}($1)`, `${name}(`),
    });
  }
  return items;
}

// --- calls ---

interface OpenCall {
  readonly called: readonly string[];
  /** What stands in the brackets. */
  readonly inside: string;
}

/** The innermost call whose closing bracket does not stand yet. */
export function openCall(written: string): OpenCall | undefined {
  let depth = 0;
  for (let i = written.length - 1; i >= 0; i--) {
    if (written[i] === ')') depth++;
    else if (written[i] === '(' && depth-- === 0) {
      const called = /([\p{L}_][\p{L}\p{N}_.-]*)\s*$/u.exec(written.slice(0, i))?.[1];
      return called === undefined ? undefined : { called: called.split('.'), inside: written.slice(i + 1) };
    }
  }
  return undefined;
}

function argumentsOf(place: Place, { called, inside }: OpenCall): readonly CompletionItem[] {
  const { project } = place.session;
  const method = namedAtPlace(place, called);
  const item = inside.slice(inside.lastIndexOf(',') + 1);
  const dotted = afterDot(place, item);
  if (dotted) return dotted(undefined, undefined);
  if (!isBlock(method)) {
    const numbered = afterNumber(item);
    return numbered === undefined ? expressionNames(place, undefined) : [];
  }
  const parameters = project.names.parametersOf(method);
  const valued = /^\s*([\p{L}_][\p{L}\p{N}_-]*)\s*:([\s\S]*)$/u.exec(item);
  if (!valued) {
    const given = new Set([...inside.matchAll(/([\p{L}_][\p{L}\p{N}_-]*)\s*:/gu)].map(match => match[1]));
    return parameters
      .filter(each => !given.has(each.name))
      .map((each, i) => ({
        ...base(place, each.name, CompletionItemKind.Variable),
        sortText: `${each.default ? '1' : '0'}${pad(i)}`,
        detail: signatureOf(each),
        documentation: { kind: MarkupKind.Markdown, value: parameterText(each, place.analysis, place.session) },
        ...insert(place, `${each.name}: $1`, `${each.name}: `),
      }));
  }
  const parameter = parameters.find(each => each.name === valued[1]);
  const kind = kindNamed((parameter?.type ?? []).join(' '));
  if (parameter === undefined) return [];
  if (kind && afterNumber(valued[2]!) !== undefined) return unitItems(place, kind.name as KindName, []);
  const standing = parameter.default?.$cstNode?.text.trim();
  return [
    ...(standing === undefined
      ? []
      : [{ ...valueItem(place, standing, CompletionItemKind.Value, '0'), detail: place.session.t('the default') }]),
    ...(kind ? expressionNames(place, kind.name as KindName) : namesOfKinds(place, [(parameter.type ?? []).join(' ')])),
  ];
}

function namedAtPlace(place: Place, path: readonly string[]): Named | undefined {
  return followed(place.session.project, place.block ?? place.document.parseResult.value, path);
}

function followed({ names }: Project, container: Block | Document, path: readonly string[]): Named | undefined {
  let at: Named | undefined = [...names.visibleNames(hereIn(container))].find(each => each.name === path[0])?.node;
  for (const word of path.slice(1)) at = at && [...names.memberNames(at)].find(each => each.name === word)?.node;
  return at;
}

// --- clauses of statements ---

async function clause(place: Place, _pace: Pace): Promise<readonly CompletionItem[]> {
  const { statement } = place.cursor;
  const words = statement.trimStart();
  const waive = /^waive\s+/.test(words);
  if (waive) return waiver(place, words);
  if (/^require\s+/.test(words)) return requirement(place, words);
  if (/^without\s+/.test(words)) {
    const parent = place.block && place.session.project.names.parentOf(place.block);
    return parent
      ? [...place.session.project.names.memberNames(parent)].map(each => namedItem(place, [each.name], each.node, '0'))
      : [];
  }
  if (/^use\s+"[^"]*"\s+[a-z]*$/.test(words)) return [keyword(place, 'as', 'as $1', '0')];
  if (/^use\s+$/.test(words))
    return [{ ...base(place, '"…"', CompletionItemKind.File), ...insert(place, '"$1"', '"') }];
  const like = /^([a-z-]+)\s+.*\blike\s+([\p{L}\p{N}_.-]*)$/u.exec(words);
  if (like) {
    const dotted = afterDot(place, like[2]!);
    return dotted ? dotted([like[1]!], undefined) : namesOfKinds(place, [like[1]!]);
  }
  const parameter = /\(\s*(?:.*,\s*)?([\p{L}_][\p{L}\p{N}_-]*)\s*:\s*([^=,]*)$/u.exec(words);
  if (parameter)
    return Object.keys(KINDS).map(each =>
      valueItem(place, each, CompletionItemKind.TypeParameter, each, parameter[2]!),
    );
  const call = openCall(words);
  if (call) return [];
  if (/^[a-z-]+\s+[\p{L}\p{N}_"-]+\s+[a-z]*$/u.test(words)) return [keyword(place, 'like', 'like $1', '0')];
  return [];
}

function waiver(place: Place, words: string): readonly CompletionItem[] {
  if (/^waive\s+[\w-]*$/.test(words)) {
    const here = new Map<string, number>();
    for (const finding of place.analysis?.findings ?? []) here.set(finding.code, (here.get(finding.code) ?? 0) + 1);
    return checks
      .filter(check => check.waivable)
      .map(check => ({
        ...base(place, check.code, CompletionItemKind.Event),
        sortText: `${here.has(check.code) ? '0' : '1'}${check.code}`,
        detail: here.has(check.code) ? place.session.t('{0} here', here.get(check.code)!) : '',
        labelDetails: { description: check.title },
        data: { is: 'check', code: check.code } satisfies Resolvable,
        ...insert(place, undefined, check.code),
      }));
  }
  const code = /^waive\s+([\w-]+)/.exec(words)?.[1];
  const on = /\bon\s+([\p{L}\p{N}_.-]*)$/u.exec(words);
  if (on) {
    const about = (place.analysis?.findings ?? [])
      .filter(each => each.code === code && each.about)
      .map(each => each.about!.name);
    return [...new Set(about)].map(name => valueItem(place, name, CompletionItemKind.Variable, '0', on[1]!));
  }
  if (/\bwhile\s+[^"]*$/.test(words)) return conditionNames(place, words.slice(words.lastIndexOf(' while ') + 7));
  const clauses: readonly (readonly [string, string])[] = [
    ['on', 'on $1'],
    ['while', 'while $1'],
    ['because', 'because "$1"'],
    ['by', 'by "$1"'],
    ['until', `until \${1:${place.analysis?.job.date ?? '2031-12-31'}}`],
  ];
  return clauses
    .filter(([word]) => !new RegExp(`\\b${word}\\b`).test(words.replace(/"[^"]*"/g, '')))
    .map(([word, snippet], i) => keyword(place, word, snippet, String(i)));
}

function requirement(place: Place, words: string): readonly CompletionItem[] {
  if (/"[^"]*"\s*$/.test(words)) return [];
  const condition = words.replace(/^require\s+/, '');
  const because =
    /\S\s+[a-z]*$/.test(condition) && /[<>=≤≥]\s*\S+\s*\S*\s+[a-z]*$/.test(condition)
      ? [keyword(place, 'because', 'because "$1"', '0')]
      : [];
  return [...because, ...conditionNames(place, condition)];
}

function conditionNames(place: Place, condition: string): readonly CompletionItem[] {
  const dotted = afterDot(place, condition);
  if (dotted) return dotted(undefined, undefined);
  const compared = /([\p{L}_][\p{L}\p{N}_.-]*)\s*[<>=≤≥]+\s*\d[\d.]*\s*[^\s\d]*$/u.exec(condition);
  const kind = compared ? place.analysis?.quantities.get(compared[1]!)?.kind : undefined;
  if (kind !== undefined) return unitItems(place, kind, []);
  return afterNumber(condition) === undefined ? expressionNames(place, undefined) : [];
}

// --- texts ---

async function inText(place: Place, pace: Pace): Promise<readonly CompletionItem[]> {
  const { statement } = place.cursor;
  const use = /^use\s+"([^"]*)$/.exec(statement);
  if (use) return filesFor(place, use[1]!, pace);
  const end = /^on\s*:\s*(.*?)\s*from\s+"([^"]*)$/.exec(statement);
  if (end) {
    return endsOf(place, end[1]!).map(each => ({
      ...base(place, each, CompletionItemKind.EnumMember),
      textEdit: { range: rangeIn(place.document, place.offset - end[2]!.length, place.offset), newText: each },
    }));
  }
  return [];
}

function endsOf(place: Place, item: string): readonly string[] {
  const path = /([\p{L}_][\p{L}\p{N}_.-]*)/u.exec(item)?.[1];
  const runway = path === undefined ? undefined : namedAtPlace(place, path.split('.'));
  if (!isBlock(runway)) return [];
  return runway.entries.flatMap(entry =>
    isBlock(entry) && entry.kind === 'end' && entry.label !== undefined ? [entry.label] : [],
  );
}

/** Files of the workspace by their path from this one. */
async function filesFor(place: Place, written: string, pace: Pace): Promise<readonly CompletionItem[]> {
  const { session, document } = place;
  const here = document.uri.path.split('/').slice(0, -1);
  const used = new Set(session.project.imports.urisOf(document).map(uri => uri.toString()));
  const range = rangeIn(place.document, place.offset - written.length, place.offset);
  const items: CompletionItem[] = [];
  for (const address of await workspaceFiles(session, pace)) {
    const uri = URI.parse(address);
    if (address === document.uri.toString() || uri.scheme !== document.uri.scheme) continue;
    const path = relativePath(here, uri.path.split('/'));
    items.push({
      label: path,
      kind: CompletionItemKind.File,
      sortText: `${used.has(address) ? '9' : path.split('/').filter(each => each === '..').length}${path}`,
      ...(used.has(address) && { tags: [CompletionItemTag.Deprecated], detail: session.t('brought in already') }),
      filterText: path,
      textEdit: { range, newText: path },
    });
  }
  return items;
}

/** The path from a folder to a file, with forward slashes. */
export function relativePath(folder: readonly string[], file: readonly string[]): string {
  let shared = 0;
  while (shared < folder.length && shared < file.length - 1 && folder[shared] === file[shared]) shared++;
  return [...folder.slice(shared).map(() => '..'), ...file.slice(shared)].join('/');
}

// --- items ---

function base(_place: Place, label: string, kind: CompletionItemKind): CompletionItem {
  return { label, kind };
}

function keyword(place: Place, word: string, snippet: string, sort: string): CompletionItem {
  return {
    ...base(place, word, CompletionItemKind.Keyword),
    sortText: `7${sort}${word}`,
    ...insert(place, snippet, `${word} `),
  };
}

/** A value of several words replaces what stands of it already. */
function valueItem(place: Place, text: string, kind: CompletionItemKind, sort: string, item?: string): CompletionItem {
  const written = item === undefined ? place.word : item.trimStart();
  const range =
    written !== '' && text.toLowerCase().startsWith(written.toLowerCase())
      ? rangeIn(place.document, place.offset - written.length, place.offset)
      : place.range;
  return { label: text, kind, sortText: sort, filterText: text, textEdit: { range, newText: text } };
}

function insert(place: Place, snippet: string | undefined, plain: string): Partial<CompletionItem> {
  if (snippet === undefined || !place.snippets) return { textEdit: { range: place.range, newText: plain } };
  return { insertTextFormat: InsertTextFormat.Snippet, textEdit: { range: place.range, newText: snippet } };
}

function escaped(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

function kebab(key: string): string {
  return key.replace(/[A-Z]/g, letter => `-${letter.toLowerCase()}`);
}

function pad(index: number): string {
  return String(index).padStart(3, '0');
}

/** What a dotted name means at a cursor. */
export function namedIn(
  project: Project,
  document: BroomDocument,
  cursor: Cursor,
  path: readonly string[],
): Named | undefined {
  const open = cursor.blocks.at(-1);
  const block = open && blockAt(document, open.start);
  return followed(project, block ?? document.parseResult.value, path);
}
