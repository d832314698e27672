/**
 * What things of the language are, in Markdown: for hovers, for the text beside a completion, for signatures. The
 * sentences between what the language itself says are worded in the reader's language.
 */

import type { Analysis } from '../../language/analysis/analyse.ts';
import { blockName, idPart } from '../../language/evaluate/layers.ts';
import { fileOf } from '../../language/evaluate/places.ts';
import type { Explained } from '../../language/explain/explain.ts';
import { explainData, originText } from '../../language/explain/render.ts';
import type { Block, Named, Parameter, Use } from '../../language/generated/ast.ts';
import { isBlock, isUse } from '../../language/generated/ast.ts';
import type { AnyBlock } from '../../language/job/job.ts';
import type { Translate } from '../../language/pictures/words.ts';
import { citation } from '../../language/sources/sources.ts';
import {
  KINDS,
  type KindName,
  likelyUnits,
  parseUnit,
  type System,
  show,
  showIn,
  toSi,
} from '../../language/units/index.ts';
import type { BlockKind, Property } from '../../language/vocabulary/define.ts';
import { typeText } from '../../language/vocabulary/describe.ts';
import type { Given, Place } from '../../language/vocabulary/given.ts';
import { kinds, propertyTable } from '../../language/vocabulary/index.ts';
import type { Project } from './project.ts';

export interface Showing {
  readonly system: System;
  readonly currency: string | undefined;
  readonly t: Translate;
  /** A link to a place, or its name. */
  readonly where: (place: Place) => string;
}

export function showingOf(
  { project, t }: { readonly project: Project; readonly t: Translate },
  analysis: Analysis | undefined,
  system: System,
): Showing {
  return {
    t,
    system,
    currency: analysis?.job.blocks.jobs[0]?.currency?.value,
    where: place => {
      const document = project.documentOf(place.file);
      const name = decodeURIComponent(place.file.split('/').at(-1) ?? '');
      if (document === undefined) return name;
      const line = document.textDocument.positionAt(place.start).line + 1;
      return `[${name}:${line}](${project.addressOf(place.file)}#L${line})`;
    },
  };
}

// --- values ---

/** A value in the system asked for, and beside it in the other: `11.3 km/h (7.02 mph)`. */
export function inBothSystems(si: number, kind: KindName, showing: Pick<Showing, 'system' | 'currency'>): string {
  const options = showing.currency === undefined ? {} : { currency: showing.currency };
  const first = show(si, KINDS[kind], showing.system, options);
  const second = show(si, KINDS[kind], showing.system === 'metric' ? 'us' : 'metric', options);
  return first === second ? first : `${first} (${second})`;
}

/** The same value in other units of its kind, without the one it is written in. */
export function inOtherUnits(literal: string, written: string, kind: KindName): readonly string[] {
  const from = parseUnit(written);
  if (from === undefined) return [];
  const si = toSi(literal, from);
  const symbols = [...likelyUnits(KINDS[kind], 'metric'), ...likelyUnits(KINDS[kind], 'us')];
  const units = symbols
    .map(parseUnit)
    .filter(unit => unit !== undefined && unit.symbol !== from.symbol && unit.dimension.key === from.dimension.key);
  return [...new Set(units.map(unit => showIn(si, unit!)))];
}

/** How a value came to be where it is. */
export function originOf(given: Given<unknown>, showing: Showing): string {
  const { origin, place } = given;
  const { t, where } = showing;
  switch (origin.by) {
    case 'own line':
      return '';
    case 'default':
      return t('by default; nothing is said here');
    case 'library':
      return t('from the library {0}', where(place));
    case 'argument':
      return t('from the argument {0} at {1}', code(origin.parameter), where(origin.place));
    default:
      return t('{0} at {1}', originText(origin) ?? '', where(place));
  }
}

// --- properties and kinds ---

export function propertyText(t: Translate, kind: BlockKind | undefined, word: string, property: Property): string {
  const facts = [
    t('Takes {0}.', typeText(property.type)),
    property.default ? t('Without it, {0} holds.', code(property.default.text)) : '',
    property.required ? t('It must be given.') : '',
    property.requiredFor?.length ? t('It must be given for {0}.', property.requiredFor.map(code).join(', ')) : '',
    property.only?.length && !property.requiredFor?.length
      ? t('Only for {0}.', property.only.map(code).join(', '))
      : '',
  ].filter(Boolean);
  const columns =
    property.type.is === 'table'
      ? Object.entries(property.type.columns).map(
          ([name, column]) => `- ${code(name)}: ${column.doc}${column.optional ? ` ${t('May be left out.')}` : ''}`,
        )
      : [];
  return paragraphs([
    kind ? t('**{0}** of {1}', word, withArticle(kind.kind)) : `**${word}**`,
    property.doc,
    facts.join(' '),
    columns.join('\n'),
    `\`\`\`broomline\n${word}: ${property.example}\n\`\`\``,
    `*${citation(property.source)}*`,
  ]);
}

export function kindText(t: Translate, kind: BlockKind): string {
  const required = [...propertyTable(kind)].filter(([, { property }]) => property.required).map(([word]) => code(word));
  const inside = Object.values(kind.blocks).map(child => code(child.kind));
  return paragraphs([
    `**${kind.kind}**`,
    kind.doc,
    required.length > 0 ? t('It must say {0}.', listed(t, required)) : '',
    inside.length > 0 ? t('Blocks inside it: {0}.', listed(t, inside)) : '',
  ]);
}

// --- named things ---

/** The block of the job that a block of the text became. */
export function modelOf(analysis: Analysis | undefined, block: Block): AnyBlock | undefined {
  return analysis?.job.byId.get(idOf(block));
}

function idOf(block: Block): string {
  const name = idPart(block);
  return isBlock(block.$container) ? `${idOf(block.$container)}.${name}` : `${fileOf(block)}#${name}`;
}

/** Heading as an author writes it: `work North`. */
export function headingText(block: Block): string {
  const name = block.name ?? (block.label === undefined ? '' : `"${block.label}"`);
  return `${block.kind} ${name}`.trim();
}

/** Under which path the results know a block: its names from the top. */
export function pathOf(block: Block): string {
  const own = blockName(block);
  return isBlock(block.$container) ? `${pathOf(block.$container)}.${own}` : own;
}

/** The quantities computed for a block itself: `North.product`, not `North.Agitate.time`. */
export function quantitiesOf(analysis: Analysis | undefined, path: string): readonly Explained[] {
  const start = `${path}.`;
  return [...(analysis?.quantities.values() ?? [])].filter(
    each => each.path.startsWith(start) && !each.path.slice(start.length).includes('.'),
  );
}

export function blockText(block: Block, analysis: Analysis | undefined, showing: Showing, project: Project): string {
  const { t } = showing;
  const kind = kinds.get(block.kind);
  const model = modelOf(analysis, block);
  const home =
    fileOf(block) === analysis?.job.file
      ? ''
      : ` ${t('in {0}', showing.where({ file: fileOf(block), start: block.$cstNode?.offset ?? 0, end: 0 }))}`;
  const parent = project.names.parentOf(block);
  return paragraphs([
    `**${headingText(block)}**${parent ? `, ${t('like {0}', parent.name ?? '')}` : ''}${home}`,
    kind?.doc ?? '',
    parametersText(project.names.parametersOf(block)),
    model && kind ? propertiesText(model, kind, showing) : '',
    block.kind === 'step'
      ? stepResults(block, analysis, showing)
      : resultsText(quantitiesOf(analysis, pathOf(block)), showing),
  ]);
}

function parametersText(parameters: readonly Parameter[]): string {
  if (parameters.length === 0) return '';
  return parameters.map(parameter => `- ${code(signatureOf(parameter))}`).join('\n');
}

/** `soak: time = 35 min` */
export function signatureOf(parameter: Parameter): string {
  const type = (parameter.type ?? []).join(' ');
  return `${parameter.name}: ${type}${parameter.default ? ` = ${parameter.default.$cstNode?.text.trim() ?? ''}` : ''}`;
}

const MOST_LINES = 12;

/** What a block says, with units in both systems for numbers; long ones are cut. */
function propertiesText(model: AnyBlock, kind: BlockKind, _showing: Showing): string {
  const lines: string[] = [];
  for (const [word, { key, property }] of propertyTable(kind)) {
    const given = (model as unknown as Record<string, Given<unknown> | undefined>)[key];
    if (
      given === undefined ||
      given.origin.by === 'default' ||
      property.type.is === 'table' ||
      property.type.is === 'text'
    )
      continue;
    lines.push(`${word}: ${given.text.replace(/\s+/g, ' ').slice(0, 60)}`);
  }
  if (lines.length === 0) return '';
  const shown = lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES), '…'] : lines;
  return `\`\`\`broomline\n${shown.join('\n')}\n\`\`\``;
}

function resultsText(results: readonly Explained[], showing: Showing): string {
  if (results.length === 0) return '';
  const shown = results
    .slice(0, MOST_LINES)
    .map(each => `| ${each.label} | ${inBothSystems(each.value, each.kind, showing)} |`);
  const more =
    results.length > MOST_LINES ? `\n\n${showing.t('{0} more are computed.', results.length - MOST_LINES)}` : '';
  return `| ${showing.t('computed')} | |\n|---|---|\n${shown.join('\n')}${more}`;
}

/** A step of a method, as each work does it: passes, lanes, times, rates. */
function stepResults(step: Block, analysis: Analysis | undefined, showing: Showing): string {
  const parts = (analysis?.job.plans ?? []).flatMap(plan => {
    const planned = plan.steps.find(each => isModelOf(each.step, step));
    if (planned === undefined) return [];
    const results = quantitiesOf(analysis, `${plan.work.name}.${planned.step.name}`);
    if (results.length === 0) return [];
    return [`${showing.t('In {0}:', plan.work.name)}\n\n${resultsText(results, showing)}`];
  });
  return paragraphs(parts);
}

export function parameterText(
  parameter: Parameter,
  analysis: Analysis | undefined,
  { project, t }: { readonly project: Project; readonly t: Translate },
): string {
  const method = parameter.$container?.$container;
  const values = (analysis?.job.plans ?? []).flatMap(plan => {
    if (plan.method === undefined || !isBlock(method) || !isModelOf(plan.method, method)) return [];
    const given = [plan.method, ...plan.method.steps, ...plan.method.roles]
      .flatMap(block => Object.values(block) as (Given<unknown> | undefined)[])
      .find(each => each?.origin?.by === 'argument' && each.origin.parameter === parameter.name);
    if (given?.origin.by !== 'argument') return [];
    const { file, start, end } = given.origin.place;
    const text = project.documentOf(file)?.textDocument.getText().slice(start, end);
    return text ? [`- ${plan.work.name}: ${code(text)}`] : [];
  });
  return paragraphs([
    `**${signatureOf(parameter)}**`,
    `${isBlock(method) && method.name ? t('A parameter of {0}.', method.name) : t('A parameter.')} ${
      parameter.default
        ? t('A work that says nothing takes the value behind the equals sign.')
        : t('Every work has to give it.')
    }`,
    values.join('\n'),
  ]);
}

/** Whether a block of the job was read from this block of the text; as part of a work it has an identity of its own. */
function isModelOf(model: { readonly place: Place }, block: Block): boolean {
  return model.place.start === block.$cstNode?.offset && model.place.file === fileOf(block);
}

export function useText(use: Use, { project, t }: { readonly project: Project; readonly t: Translate }): string {
  const target = project.imports.targetOf(use);
  const blocks = target?.parseResult.value.items.filter(isBlock) ?? [];
  const list = blocks.slice(0, MOST_LINES).map(block => `- ${code(headingText(block))}`);
  return paragraphs([
    `**${use.path ?? ''}**${use.name ? ` ${t('as {0}', use.name)}` : ''}`,
    target === undefined
      ? t('This file is not there, or can’t be read.')
      : blocks.length === 1
        ? t('1 block.')
        : t('{0} blocks.', blocks.length),
    [...list, ...(blocks.length > MOST_LINES ? ['- …'] : [])].join('\n'),
  ]);
}

export function namedText(named: Named, analysis: Analysis | undefined, showing: Showing, project: Project): string {
  if (isBlock(named)) return blockText(named, analysis, showing, project);
  const worded = { project, t: showing.t };
  return isUse(named) ? useText(named, worded) : parameterText(named, analysis, worded);
}

// --- computed quantities ---

/** Value, formula in symbols and in numbers, inputs with their places, source. */
export function quantityText(explained: Explained, showing: Showing): string {
  const { t } = showing;
  const data = explainData(explained, showing.system, {
    where: showing.where,
    ...(showing.currency !== undefined && { currency: showing.currency }),
  });
  const left = data.formula?.includes('=') ? data.formula.slice(0, data.formula.indexOf('=')).trim() : data.symbol;
  const formula = [
    data.formula ?? '',
    data.filled === undefined ? '' : `${' '.repeat(left.length)} = ${data.filled}`,
  ].filter(Boolean);
  const inputs = data.inputs.slice(0, MOST_LINES).map(input => {
    const from = [input.where, input.origin, input.formula === undefined ? undefined : code(input.formula)]
      .filter(Boolean)
      .join(', ');
    return `| ${input.symbol} | ${input.shown} | ${input.label} | ${from} |`;
  });
  return paragraphs([
    `**${data.path} = ${inBothSystems(explained.value, explained.kind, showing)}**`,
    `${data.label}${data.range ? `; ${t('with the tolerances {0}', data.range)}` : ''}`,
    formula.length > 0 ? `\`\`\`text\n${formula.join('\n')}\n\`\`\`` : '',
    inputs.length > 0 ? `| | | ${t('from')} | |\n|---|---|---|---|\n${inputs.join('\n')}` : '',
    data.inputs.length > MOST_LINES ? t('{0} more inputs.', data.inputs.length - MOST_LINES) : '',
    data.note ?? '',
    `*${data.source}*`,
  ]);
}

// --- words ---

export function paragraphs(parts: readonly string[]): string {
  return parts.filter(part => part !== '').join('\n\n');
}

export function code(text: string): string {
  return `\`${text}\``;
}

export function listed(t: Translate, words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : t('{0} and {1}', words.slice(0, -1).join(', '), words.at(-1)!);
}

export function withArticle(word: string): string {
  return `${/^[aeiou]/i.test(word) ? 'an' : 'a'} ${word}`;
}
