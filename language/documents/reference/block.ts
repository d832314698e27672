/** The page of a kind of block: what it is, what it may say, what is computed for it, an example. */
import { citation } from '../../sources/sources.ts';
import { KINDS } from '../../units/index.ts';
import { computedWords, earlyWords } from '../../vocabulary/computed.ts';
import type { BlockKind, Property, ValueType } from '../../vocabulary/define.ts';
import { kebab } from '../../vocabulary/define.ts';
import { typeText } from '../../vocabulary/describe.ts';
import { kinds, propertyTable } from '../../vocabulary/index.ts';
import { exampleOf } from './examples.ts';
import { code, fenced, listed, page, table } from './markdown.ts';

export function blockPage(kind: BlockKind): string {
  return page(
    `# ${kind.kind}`,
    kind.doc,
    placeText(kind),
    '## Properties',
    propertiesText(kind),
    tablesText(kind),
    ...section('Blocks inside it', insideText(kind)),
    ...section('Computed', computedText(kind)),
    ...section('Example', fenced(exampleOf(kind))),
  );
}

function section(heading: string, body: string): readonly string[] {
  return body === '' ? [] : [`## ${heading}`, body];
}

const called: Readonly<Record<BlockKind['called'], string>> = {
  name: 'It has a name.',
  designator: 'It is called by its designator between quotes.',
  nothing: 'It has no name.',
  'name or nothing': 'A name may be left out.',
};

function placeText(kind: BlockKind): string {
  const homes = [...kinds.values()].filter(each => Object.values(each.blocks).some(child => child.kind === kind.kind));
  return [
    kind.top ? 'It stands at the top of a file.' : `It stands inside ${listed(homes.map(linkOf), 'or')}.`,
    called[kind.called],
    kind.takesParameters ? 'It may take [parameters](../statements.md#parameters-and-roles).' : '',
    kind.bindsRoles ? 'Besides its own properties it says which machine takes which role of its method.' : '',
  ]
    .filter(Boolean)
    .join(' ');
}

// ── properties ───────────────────────────────────────────────────────────────────────────────────────────────────

function propertiesText(kind: BlockKind): string {
  const rows = [...propertyTable(kind)];
  const sources = new Set(rows.map(([, { property }]) => property.source));
  const common = sources.size === 1 ? [...sources][0] : undefined;
  return [
    table(
      ['property', 'what it is', 'value', 'default', 'needed', 'only for', 'source'],
      rows.map(([word, { property }]) => [
        code(word),
        property.doc,
        valueText(property.type),
        property.default ? code(property.default.text) : '',
        neededText(property),
        onlyText(property),
        common === undefined ? citation(property.source) : '',
      ]),
    ),
    common === undefined ? '' : `Ranges and defaults: ${citation(common)}.`,
  ]
    .filter(Boolean)
    .join('\n\n');
}

/** What may be written, and in which units. */
function valueText(type: ValueType): string {
  const text = typeText(type);
  if (type.is !== 'quantity' && type.is !== 'range') return text;
  const { metric, us } = KINDS[type.kind].likely;
  // Where both systems share the first unit, the second says more than the same word again.
  const units = [...new Set(metric[0] === us[0] ? metric.slice(0, 2) : [metric[0], us[0]])].filter(
    unit => unit !== undefined,
  );
  return units.length === 0 ? text : `${text}; in ${units.map(code).join(' or ')}`;
}

function neededText({ required, requiredFor = [] }: Property): string {
  if (required) return 'always';
  return requiredFor.length > 0 ? `for ${requiredFor.map(code).join(', ')}` : '';
}

/** Where it may stand at all; nothing where that is just where it is needed. */
function onlyText({ requiredFor = [], only = [] }: Property): string {
  const alike = requiredFor.length === only.length && requiredFor.every(word => only.includes(word));
  return alike && only.length > 0 ? 'these' : only.map(code).join(', ');
}

/** The columns of the tables among the properties. */
function tablesText(kind: BlockKind): string {
  return [...propertyTable(kind)]
    .flatMap(([word, { property }]) => {
      if (property.type.is !== 'table') return [];
      const columns = Object.entries(property.type.columns).map(([name, column]) => [
        code(kebab(name)),
        column.doc,
        column.kind ? typeText({ is: 'quantity', kind: column.kind }) : cells[column.is ?? 'text'],
        column.optional ? 'may be left out' : '',
      ]);
      return [`Columns of ${code(word)}:`, table(['column', 'what it is', 'value', ''], columns)];
    })
    .join('\n\n');
}

const cells: Readonly<Record<'text' | 'date' | 'clock' | 'word', string>> = {
  text: 'a text between double quotes',
  date: 'a date',
  clock: 'a time of day',
  word: 'a word, or a text between double quotes',
};

// ── around it ────────────────────────────────────────────────────────────────────────────────────────────────────

function insideText(kind: BlockKind): string {
  return Object.values(kind.blocks)
    .map(child => `- ${linkOf(child)}: ${child.doc}`)
    .join('\n');
}

/** What `require` can ask of a block of this kind. */
function computedText(kind: BlockKind): string {
  const words = computedWords[kind.kind] ?? {};
  const early = new Set(earlyWords[kind.kind] ?? []);
  const rows = Object.entries(words).map(([word, doc]) => [
    code(word),
    doc,
    early.has(word) ? 'in properties too' : '',
  ]);
  return rows.length === 0
    ? ''
    : ['After a dot, in a requirement or while a waiver holds:', table(['name', 'what it is', ''], rows)].join('\n\n');
}

function linkOf(kind: BlockKind): string {
  return `[${kind.kind}](${kind.kind}.md)`;
}
