/** What stands under the pointer: what it is, what it comes to, and where it came from. */
import { type AstNode, GrammarUtils } from 'langium';
import { type Hover, HoverRequest, MarkupKind } from 'vscode-languageserver';
import type { Analysis } from '../../language/analysis/analyse.ts';
import type { Explained } from '../../language/explain/explain.ts';
import {
  type Block,
  isArgument,
  isBlock,
  isCell,
  isColumn,
  isHeader,
  isParameter,
  isProperty,
  isQuantity,
  isReference,
  isUse,
  isWaive,
  type Property,
  type Quantity,
  type Reference,
} from '../../language/generated/ast.ts';
import { type Said, said, type Translate, tell } from '../../language/pictures/words.ts';
import { KINDS, type KindName, kindNamed, kindOf, magnitudeOf, parseUnit, toSi } from '../../language/units/index.ts';
import { functions } from '../../language/vocabulary/functions.ts';
import type { Given } from '../../language/vocabulary/given.ts';
import { kinds, propertyOf } from '../../language/vocabulary/index.ts';
import {
  blockText,
  code,
  inBothSystems,
  inOtherUnits,
  kindText,
  modelOf,
  namedText,
  originOf,
  paragraphs,
  parameterText,
  pathOf,
  propertyText,
  quantityText,
  type Showing,
  showingOf,
  useText,
} from '../project/describe.ts';
import { rangeIn } from '../project/positions.ts';
import type { BroomDocument, Project } from '../project/project.ts';
import { leafAt, meaningOf } from '../project/symbols.ts';
import type { Feature } from '../session.ts';
import { pageOf } from './checkPages.ts';

export const hover: Feature = {
  capabilities: () => ({ hoverProvider: true }),
  register: session =>
    session.onPosition(HoverRequest.type, ({ document, analysis, offset }): Hover | null => {
      const showing = showingOf(session, analysis, session.system(analysis));
      const found = hoverAt(session.project, document, analysis, offset, showing);
      return (
        found && {
          contents: { kind: MarkupKind.Markdown, value: found.text },
          range: rangeIn(document, found.start, found.end),
        }
      );
    }),
};

interface Found {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export function hoverAt(
  project: Project,
  document: BroomDocument,
  analysis: Analysis | undefined,
  offset: number,
  showing: Showing,
): Found | null {
  const leaf = leafAt(document, offset);
  const node = leaf?.astNode;
  if (leaf === undefined || node === undefined || offset < leaf.offset || offset > leaf.end) return null;
  const at = { start: leaf.offset, end: leaf.end };
  const { t } = showing;
  const worded = { project, t };
  const within = (of: AstNode, property: string): boolean => {
    const cst = GrammarUtils.findNodeForProperty(of.$cstNode, property);
    return cst !== undefined && cst.offset <= leaf.offset && leaf.end <= cst.end;
  };
  const say = (text: string | undefined, place: { start: number; end: number } = at): Found | null =>
    text ? { text, ...place } : null;

  if (isReference(node)) return reference(project, node, leaf.offset, analysis, showing) ?? word(t, node, at);
  if (isQuantity(node))
    return say(quantity(node, analysis, showing), { start: node.$cstNode!.offset, end: node.$cstNode!.end });
  if (isProperty(node) && within(node, 'name')) return say(property(project, node, analysis, showing));
  if (isArgument(node) && node.parameter) {
    const parameter = project.names.parameterOf(node);
    return say(parameter && parameterText(parameter, analysis, worded));
  }
  if (isBlock(node)) {
    const kind = kinds.get(node.kind);
    if (within(node, 'kind')) return say(kind && kindText(t, kind));
    if (within(node, 'name') || within(node, 'label')) return say(blockText(node, analysis, showing, project));
    return say(statement(t, leaf.text));
  }
  if (isParameter(node)) {
    if (within(node, 'name')) return say(parameterText(node, analysis, worded));
    const type = kindNamed((node.type ?? []).join(' '));
    return say(
      type &&
        `**${type.name}**\n\n${t('Written in {0}.', [...type.likely.metric, ...type.likely.us].map(code).join(', ') || t('no unit'))}`,
    );
  }
  if (isWaive(node) && within(node, 'check'))
    return say(pageOf(node.check) ?? t('There is no check {0}.', code(node.check)));
  if (isUse(node))
    return within(node, 'path') || within(node, 'name') ? say(useText(node, worded)) : say(statement(t, leaf.text));
  if (isHeader(node)) return say(statement(t, 'broomline'));
  if (isColumn(node)) return say(column(node));
  if (isCell(node)) return say(cell(node, showing));
  return say(statement(t, leaf.text));
}

// --- references and computed quantities ---

function reference(
  project: Project,
  node: Reference,
  offset: number,
  analysis: Analysis | undefined,
  showing: Showing,
): Found | null {
  const words = [node.head, ...node.tail];
  const index = words.findIndex(
    each => each?.$refNode !== undefined && each.$refNode.offset <= offset && offset < each.$refNode.end,
  );
  const cst = words[index]?.$refNode;
  if (index < 0 || cst === undefined) return null;
  const named = meaningOf(project, node, index);
  if (named !== undefined)
    return { text: namedText(named, analysis, showing, project), start: cst.offset, end: cst.end };
  const explained = computedAt(project, node, index, analysis);
  const start = words[0]?.$refNode?.offset ?? cst.offset;
  return explained ? { text: quantityText(explained, showing), start, end: cst.end } : null;
}

/** The computed quantity that a reference names up to the word at `index`: `North.product`. */
export function computedAt(
  project: Project,
  node: Reference,
  index: number,
  analysis: Analysis | undefined,
): Explained | undefined {
  const words = [node.head, ...node.tail].map(each => each?.$refText ?? '');
  let known = -1;
  let base: Block | undefined;
  for (let i = 0; i <= index; i++) {
    const named = project.names.word(node, i);
    if (named === undefined) break;
    known = i;
    base = isBlock(named) ? named : base;
  }
  const path = [...(base ? [pathOf(base)] : words.slice(0, 1)), ...words.slice(base ? known + 1 : 1, index + 1)].join(
    '.',
  );
  return analysis?.quantities.get(path) ?? analysis?.quantities.get(camelLast(path));
}

function camelLast(path: string): string {
  const at = path.lastIndexOf('.') + 1;
  return path.slice(0, at) + path.slice(at).replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

/** A plain word: one of a property's own, or a function. */
function word(t: Translate, node: Reference, at: { start: number; end: number }): Found | null {
  const text = node.head?.$refText ?? '';
  if (node.call && FUNCTIONS[text]) return { text: FUNCTIONS[text], ...at };
  const around = propertyAround(node);
  if (around === undefined || !isBlock(around.$container)) return null;
  const kind = kinds.get(around.$container.kind);
  const found = kind && propertyOf(kind, around.name);
  return found ? { text: propertyText(t, kind, around.name, found.property), ...at } : null;
}

function propertyAround(node: AstNode): Property | undefined {
  for (let at: AstNode | undefined = node; at !== undefined; at = at.$container) {
    if (isProperty(at)) return at;
    if (isBlock(at)) return undefined;
  }
  return undefined;
}

// --- properties and values ---

function property(
  project: Project,
  node: Property,
  analysis: Analysis | undefined,
  showing: Showing,
): string | undefined {
  const block = node.$container;
  if (!isBlock(block)) return undefined;
  const role = project.names.roleOfBinding(node);
  if (role !== undefined)
    return paragraphs([
      blockText(role, analysis, showing, project),
      showing.t('This line says which machines take the role {0}.', code(node.name)),
    ]);
  const kind = kinds.get(block.kind);
  const found = kind && propertyOf(kind, node.name);
  if (!kind || !found) return undefined;
  return paragraphs([
    valueLine(givenOf(block, found.key, analysis), found.property.type, showing),
    propertyText(showing.t, kind, node.name, found.property),
  ]);
}

function givenOf(block: Block, key: string, analysis: Analysis | undefined): Given<unknown> | undefined {
  return (modelOf(analysis, block) as unknown as Record<string, Given<unknown> | undefined> | undefined)?.[key];
}

/** What the property comes to here, and how it got here. */
function valueLine(given: Given<unknown> | undefined, type: { is: string; kind?: KindName }, showing: Showing): string {
  if (given === undefined) return '';
  const from = originOf(given, showing);
  const isNumber = typeof given.value === 'number' && type.kind !== undefined && type.is === 'quantity';
  const value = isNumber
    ? inBothSystems(given.value as number, type.kind!, showing)
    : given.text.split('\n')[0]!.slice(0, 80);
  const tolerance =
    isNumber && given.interval
      ? `, ${showing.t('from {0} to {1}', inBothSystems(given.interval[0], type.kind!, showing), inBothSystems(given.interval[1], type.kind!, showing))}`
      : '';
  if (!isNumber && from === '') return '';
  return `**${value}**${tolerance}${from ? `, ${from}` : ''}`;
}

function quantity(node: Quantity, analysis: Analysis | undefined, showing: Showing): string | undefined {
  const around = propertyAround(node);
  const block = around?.$container;
  const kind = isBlock(block) ? kinds.get(block.kind) : undefined;
  const found = kind && around && propertyOf(kind, around.name);
  const unit = node.unit === undefined ? undefined : parseUnit(node.unit);
  if (unit === undefined) return found ? propertyText(showing.t, kind, around!.name, found.property) : undefined;
  const type = found?.property.type;
  const wanted =
    type && 'kind' in type && KINDS[type.kind].dimension.key === unit.dimension.key
      ? type.kind
      : (kindOf(magnitudeOf(node.value, unit))?.name as KindName | undefined);
  if (wanted === undefined) return undefined;
  const others = inOtherUnits(node.value, node.unit!, wanted);
  const written =
    found && around && node.$container?.$container?.$container === around
      ? givenOf(block as Block, found.key, analysis)
      : undefined;
  const tolerance = written?.interval
    ? `\n\n${showing.t('With its tolerance {0} to {1}.', inBothSystems(written.interval[0], wanted, showing), inBothSystems(written.interval[1], wanted, showing))}`
    : '';
  return paragraphs([
    `${showing.t('{0} is {1}', `**${node.value} ${unit.shown}**`, inBothSystems(toSi(node.value, unit), wanted, showing))}${tolerance}`,
    others.length > 0 ? showing.t('In other units: {0}.', others.join(', ')) : '',
    found ? `${code(around!.name)}: ${found.property.doc}` : '',
  ]);
}

function column(node: { name: string; unit?: string; $container: AstNode }): string | undefined {
  const around = propertyAround(node.$container);
  const kind = isBlock(around?.$container) ? kinds.get(around.$container.kind) : undefined;
  const type = kind && around && propertyOf(kind, around.name)?.property.type;
  const found =
    type?.is === 'table'
      ? type.columns[node.name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())]
      : undefined;
  return found && `**${node.name}**\n\n${found.doc}${found.kind ? ` ${found.kind}.` : ''}`;
}

function cell(
  node: {
    value?: string;
    unit?: string;
    $container: { $container: { columns: { name: string; unit?: string }[] } };
    $containerIndex?: number;
  },
  showing: Showing,
): string | undefined {
  const head = node.$container.$container.columns[node.$containerIndex ?? 0];
  const unit = parseUnit(node.unit ?? head?.unit ?? '');
  if (node.value === undefined || head === undefined || unit === undefined) return head && `**${head.name}**`;
  const kind = kindOf(magnitudeOf(node.value, unit))?.name as KindName | undefined;
  return kind && `**${head.name}**: ${inBothSystems(toSi(node.value, unit), kind, showing)}`;
}

// --- words of the language itself ---

const STATEMENTS: Readonly<Record<string, Said>> = {
  broomline: said('The version of the language in which the file is written.'),
  use: said(
    'Brings in the blocks of another file of the workspace, by a path from this one. With `as` they get a prefix.',
  ),
  as: said('The prefix under which the blocks of the file are known here.'),
  like: said('Starts from another block. Lines that stand here replace its lines; steps are overridden by name.'),
  without: said('Leaves out a nested block of the block that this one is like.'),
  require: said(
    'A demand on the result, judged when everything is computed. `because` says why, and goes into the report.',
  ),
  waive: said('Accepts a finding, with a reason and a name. It stays in every output, marked as waived.'),
  because: said('The reason, for whoever reads the job later.'),
  by: said('Who answers for it.'),
  until: said('The last day on which it counts.'),
  while: said('The waiver counts only as long as this holds.'),
  table: said('Columns with their units, then one row a line.'),
};

function statement(t: Translate, word: string): string | undefined {
  const text = Object.hasOwn(STATEMENTS, word) ? STATEMENTS[word] : undefined;
  return text && `**${word === 'broomline' ? 'broomline 1' : word}**\n\n${tell(t, text)}`;
}

export const FUNCTIONS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(functions).map(([name, { call, doc }]) => [name, `**${name}**${call.slice(name.length)}\n\n${doc}`]),
);
