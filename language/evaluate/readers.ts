/**
 * Readers of the common ways to write a value: numbers, ranges, words, names, tables. A reader returns the value, or
 * undefined after it has reported why there is none.
 */
import type { Block, Phrase, Reference, Value } from '../generated/ast.ts';
import {
  assign,
  isProblem,
  KINDS,
  type KindName,
  type Magnitude,
  magnitudeName,
  magnitudeOf,
  type System,
  show,
  toSi,
} from '../units/index.ts';
import type { ColumnType, Property, ValueType } from '../vocabulary/define.ts';
import { kebab } from '../vocabulary/define.ts';
import type { BlockRef } from '../vocabulary/given.ts';
import { plantKinds } from '../vocabulary/plant.ts';
import { nearestAll } from '../words/nearest.ts';
import { type Evaluated, type NumberValue, nameOfValue } from './evaluated.ts';
import { evaluate, evaluateOne, unknownUnit, type World } from './expression.ts';
import type { Layers, Scope } from './layers.ts';
import { placeOf, placeOfPart, textOf } from './places.ts';

export interface Reading {
  readonly value: unknown;
  readonly interval?: readonly [number, number];
  readonly unit?: string;
  /** The number where it came from elsewhere: an argument, a parameter's default. */
  readonly from?: Pick<NumberValue, 'origin' | 'place'>;
  readonly literal: boolean;
}

export interface ReadContext {
  readonly scope: Scope;
  readonly world: World;
  readonly system: System;
  /** What the block does, where that decides how a value is read. */
  readonly variant: string | undefined;
  readonly refer: (layers: Layers) => BlockRef;
  /** The block a reference means, of one of the kinds; reports why if there is none. */
  readonly blockOf: (reference: Reference, kinds: readonly string[]) => Layers | undefined;
  /** The block where the property is written, for 'did you mean'. */
  readonly block: Block;
}

export type ListReader = (
  items: readonly Phrase[],
  type: ValueType,
  word: string,
  context: ReadContext,
  property: Property,
) => Reading | undefined;

/** Readers of the common ways to write a value, by `ValueType.is`. */
export const listReaders = {
  quantity: (items, type, word, context) => {
    const phrase = only(items, word, context);
    if (!phrase || type.is !== 'quantity') return undefined;
    const found = readQuantity(phrase, type.kind, word, context);
    return found && { value: found.si, ...extras(found), literal: found.literal };
  },
  range: (items, type, word, context) => {
    const phrase = only(items, word, context);
    return phrase && type.is === 'range' ? readRange(phrase, type.kind, word, context) : undefined;
  },
  words: (items, type, word, context) => {
    if (type.is !== 'words') return undefined;
    const found: string[] = [];
    for (const phrase of items) {
      const one = readWord(phrase, type.words, word, context);
      if (one === undefined) return undefined;
      found.push(one);
    }
    if (type.many) return { value: found, literal: true };
    return only(items, word, context) && { value: found[0], literal: true };
  },
  flag: (items, _type, word, context) => {
    const phrase = only(items, word, context);
    const found = phrase && readWord(phrase, ['yes', 'no'], word, context);
    return found === undefined ? undefined : { value: found === 'yes', literal: true };
  },
  text: (items, type, word, context, property) => {
    if (type.is !== 'text') return undefined;
    const found: string[] = [];
    for (const phrase of items) {
      const value = evaluateOne(phrase, context.scope, context.world);
      if (value?.is !== 'text') {
        return refuse(
          context,
          phrase,
          `${word} is a text: put it in double quotes, for example ${word}: ${property.example}.`,
        );
      }
      found.push(value.text);
    }
    if (type.many) return { value: found, literal: true };
    return only(items, word, context) && { value: found[0], literal: true };
  },
  date: (items, type, word, context) => {
    if (type.is !== 'date') return undefined;
    const found: string[] = [];
    for (const phrase of items) {
      const value = evaluateOne(phrase, context.scope, context.world);
      if (value?.is !== 'date' || !isDate(value.date)) {
        return refuse(context, phrase, `${word} wants a date of the calendar, year first: 2031-04-07.`);
      }
      found.push(value.date);
    }
    if (type.many) return { value: found, literal: true };
    return only(items, word, context) && { value: found[0], literal: true };
  },
  names: (items, type, word, context) => {
    if (type.is !== 'names') return undefined;
    const found: BlockRef[] = [];
    for (const phrase of items) {
      const layers = readName(phrase, type.kinds, word, context);
      if (layers) found.push(context.refer(layers));
      else if (!type.many) return undefined;
    }
    if (type.many) return found.length > 0 ? { value: found, literal: true } : undefined;
    return only(items, word, context) && { value: found[0], literal: true };
  },
  machines: (items, _type, word, context) => readMachines(items, word, context),
  call: (items, type, word, context) => {
    const phrase = only(items, word, context);
    const layers = phrase && type.is === 'call' ? readName(phrase, type.kinds, word, context) : undefined;
    return layers && { value: context.refer(layers), literal: true };
  },
} satisfies Record<string, ListReader>;

// ── numbers ──────────────────────────────────────────────────────────────────────────────────────────────────────

export interface QuantityReading {
  readonly si: number;
  readonly interval?: readonly [number, number];
  readonly unit?: string;
  readonly from?: Pick<NumberValue, 'origin' | 'place'>;
  readonly literal: boolean;
}

export function extras(found: QuantityReading): Pick<Reading, 'interval' | 'unit' | 'from'> {
  return {
    ...(found.interval && { interval: found.interval }),
    ...(found.unit && { unit: found.unit }),
    ...(found.from && { from: found.from }),
  };
}

/** One quantity of a kind, SI. Reports a wrong dimension, a missing unit or a value that is no number. */
export function readQuantity(
  phrase: Phrase,
  kind: KindName,
  word: string,
  context: ReadContext,
): QuantityReading | undefined {
  const unknown = unknownUnitIn(phrase);
  if (unknown) {
    unknownUnit(unknown.word, unknown.place, context.world, kind);
    return undefined;
  }
  const value = evaluateOne(phrase, context.scope, context.world);
  if (value?.is === 'nothing') return undefined;
  if (value?.is === 'word') {
    const meant = nearestAll(value.word, context.world.namesAt(phrase.parts[0] as Reference));
    context.world.report({
      code: 'unknown-name',
      message: `There is nothing called '${value.word}' here, and ${word} wants ${article(kind)}.${meant[0] ? ` Did you mean ${meant[0]}?` : ` Write a number${exampleUnit(kind, context.system)}.`}`,
      place: placeOf(phrase),
      ...(meant.length > 0 && { data: { meant } }),
    });
    return undefined;
  }
  if (value?.is !== 'number') {
    const what = value ? nameOfValue(value) : `'${textOf(phrase)}'`;
    refuse(
      context,
      phrase,
      `${word} wants ${article(kind)}, but this is ${what}. Write one number${exampleUnit(kind, context.system)}.`,
    );
    return undefined;
  }
  return takeAs(value, kind, word, phrase, context);
}

/** A number as a kind takes it. */
export function takeAs(
  value: NumberValue,
  kind: KindName,
  word: string,
  phrase: Phrase,
  context: ReadContext,
): QuantityReading | undefined {
  const wanted = KINDS[kind];
  if (
    value.unit === undefined &&
    needsUnit(kind) &&
    value.magnitude.dimension.key === '' &&
    value.literal !== undefined
  ) {
    const [own, other] = context.system === 'metric' ? (['metric', 'us'] as const) : (['us', 'metric'] as const);
    const likely = [...wanted.likely[own], ...wanted.likely[other]];
    const shown = [wanted.likely[own][0], wanted.likely[other][0]].filter(
      (unit, i, all) => unit !== undefined && all.indexOf(unit) === i,
    );
    context.world.report({
      code: 'unit-missing',
      message: `${word} is ${article(kind)} and needs its unit. Write ${shown.map(unit => `${value.literal} ${unit}`).join(' or ')}.`,
      place: placeOf(phrase),
      data: { number: value.literal, units: likely },
    });
    return undefined;
  }
  const assigned = assign(wanted, value.magnitude);
  if (isProblem(assigned)) {
    const likely = wanted.likely[context.system];
    context.world.report({
      code: wanted.dimension.key === '' && value.unit ? 'unit-not-wanted' : 'wrong-dimension',
      message: `${word} wants ${article(kind)}, but this is ${withArticle(magnitudeName(value.magnitude))}.${likely.length > 0 ? ` Write it in ${likely.slice(0, 3).join(', ')}.` : ''}`,
      place: placeOf(phrase),
      data: { units: likely },
    });
    return undefined;
  }
  if (kind === 'count' && !Number.isInteger(assigned.si)) {
    refuse(context, phrase, `${word} counts whole things, so it has to be a whole number.`);
    return undefined;
  }
  const factor = value.magnitude.si === 0 ? 1 : assigned.si / value.magnitude.si;
  const { interval } = value;
  return {
    si: assigned.si,
    ...(interval && { interval: [interval[0] * factor, interval[1] * factor] as const }),
    ...(value.unit && { unit: value.unit }),
    ...((value.origin || value.place) && {
      from: { ...(value.origin && { origin: value.origin }), ...(value.place && { place: value.place }) },
    }),
    literal: value.literal !== undefined,
  };
}

/** A bare number is no share, slope or angle: 1.5 may be 1.5 % or 150 %. */
function needsUnit(kind: KindName): boolean {
  return KINDS[kind].dimension.key !== '' || kind === 'share' || kind === 'slope';
}

/** `12 mtr`: an unknown word after a number where one quantity stands. */
function unknownUnitIn(phrase: Phrase): { word: string; place: ReturnType<typeof placeOf> } | undefined {
  const [first, second] = phrase.parts;
  if (phrase.parts.length !== 2 || first?.$type !== 'Quantity' || first.unit !== undefined) return undefined;
  const word = second && wordOf(second);
  return word === undefined ? undefined : { word, place: placeOf(second!) };
}

function readRange(phrase: Phrase, kind: KindName, word: string, context: ReadContext): Reading | undefined {
  const one = (parts: Phrase['parts'], unit?: string): QuantityReading | undefined => {
    const part = parts[0];
    // `5 to 35 °C`: the first number takes the unit of the second.
    if (unit && parts.length === 1 && part) {
      const bare = bareLiteral(part);
      const known = context.world.unitOf(unit);
      if (bare !== undefined && known) {
        const magnitude = magnitudeOf(bare, known);
        return takeAs({ is: 'number', magnitude, unit, literal: bare }, kind, word, phrase, context);
      }
    }
    return readQuantity(partial(phrase, parts), kind, word, context);
  };
  const { parts } = phrase;
  if (phrase.limit !== undefined) {
    const found = one(parts);
    if (!found) return undefined;
    const value = phrase.limit.startsWith('>') ? { least: found.si } : { most: found.si };
    return { value, ...extras(found), literal: found.literal };
  }
  const to = parts.findIndex(part => wordOf(part) === 'to');
  if (to > 0) {
    const most = one(parts.slice(to + 1));
    const least = most && one(parts.slice(0, to), most.unit);
    if (!least || !most) return undefined;
    if (least.si > most.si) {
      return refuse(
        context,
        phrase,
        `${word} runs from the smaller to the greater value. Write ${textOf(parts[to + 1]!)} at the end that is greater.`,
      );
    }
    return { value: { least: least.si, most: most.si }, ...extras(most), literal: least.literal && most.literal };
  }
  const words = parts.slice(0, 2).map(wordOf).join(' ');
  if (words === 'at least' || words === 'at most') {
    const found = one(parts.slice(2));
    return (
      found && {
        value: words === 'at least' ? { least: found.si } : { most: found.si },
        ...extras(found),
        literal: found.literal,
      }
    );
  }
  const found = readQuantity(phrase, kind, word, context);
  if (!found) return undefined;
  const [least, most] = found.interval ?? [found.si, found.si];
  return { value: { least, most }, ...extras(found), literal: found.literal };
}

/** A phrase with other parts: what is left when its words are taken off. Its place is that of the whole. */
export function partial(phrase: Phrase, parts: Phrase['parts']): Phrase {
  return { ...phrase, $cstNode: phrase.$cstNode, parts, limit: undefined } as unknown as Phrase;
}

function bareLiteral(part: Phrase['parts'][number]): string | undefined {
  if (part.$type === 'Quantity' && part.unit === undefined) return part.value;
  if (
    part.$type === 'Unary' &&
    part.operator === '-' &&
    part.operand.$type === 'Quantity' &&
    part.operand.unit === undefined
  ) {
    return `-${part.operand.value}`;
  }
  return undefined;
}

// ── words and names ──────────────────────────────────────────────────────────────────────────────────────────────

/** The word that a part of a phrase is, if it is just a word. */
export function wordOf(part: Phrase['parts'][number] | undefined): string | undefined {
  return part?.$type === 'Reference' && !part.call && part.tail.length === 0 ? part.head?.$refText : undefined;
}

export function readWord(
  phrase: Phrase,
  list: readonly string[],
  word: string,
  context: ReadContext,
): string | undefined {
  const written = phrase.parts.map(part => wordOf(part) ?? textOf(part)).join(' ');
  if (phrase.limit === undefined && list.includes(written)) return written;
  const meant = nearestAll(written, list);
  context.world.report({
    code: 'unknown-word',
    message: `${word} can't be '${written}'.${meant[0] ? ` Did you mean ${meant[0]}?` : ` It is one of: ${list.join(', ')}.`}`,
    place: placeOf(phrase),
    data: { meant: meant.length > 0 ? meant : list },
  });
  return undefined;
}

/** The block that a phrase names. */
export function readName(
  phrase: Phrase,
  kinds: readonly string[],
  word: string,
  context: ReadContext,
): Layers | undefined {
  const [part] = phrase.parts;
  if (phrase.parts.length === 1 && phrase.limit === undefined && part?.$type === 'Reference')
    return context.blockOf(part, kinds);
  refuse(context, phrase, `${word} wants the name of ${orList(kinds)}, but this is '${textOf(phrase)}'.`);
  return undefined;
}

function readMachines(items: readonly Phrase[], word: string, context: ReadContext): Reading | undefined {
  const found: { count: number; machine: BlockRef }[] = [];
  for (const phrase of items) {
    const [number, of, ...rest] = phrase.parts;
    const counted = wordOf(of) === 'of' && number?.$type === 'Quantity';
    const count = counted ? Number(number.value) : 1;
    if (counted && (!Number.isInteger(count) || count < 1 || count > 100 || number.unit !== undefined)) {
      refuse(context, phrase, `${word} counts machines: write a whole number from 1 to 100, for example 2 of Broom1.`);
      continue;
    }
    const layers = readName(counted ? partial(phrase, rest) : phrase, plantKinds, word, context);
    if (layers) found.push({ count, machine: context.refer(layers) });
  }
  return found.length > 0 ? { value: found, literal: true } : undefined;
}

// ── tables ───────────────────────────────────────────────────────────────────────────────────────────────────────

export function readTable(
  table: Extract<Value, { $type: 'Table' }>,
  columns: Readonly<Record<string, ColumnType>>,
  word: string,
  context: ReadContext,
): Reading | undefined {
  const byWord = new Map(Object.entries(columns).map(([key, column]) => [kebab(key), { key, column }]));
  const layout = table.columns.map(column => {
    const known = byWord.get(column.name);
    if (!known) {
      const meant = nearestAll(column.name, byWord.keys());
      context.world.report({
        code: 'unknown-word',
        message: `${word} has no column '${column.name}'.${meant[0] ? ` Did you mean ${meant[0]}?` : ''} Its columns are ${[...byWord.keys()].join(', ')}.`,
        place: placeOfPart(column, 'name'),
        data: { meant: meant.length > 0 ? meant : [...byWord.keys()] },
      });
    }
    return known && { ...known, unit: column.unit };
  });
  const missing = [...byWord].filter(
    ([, { key, column }]) => !column.optional && !layout.some(each => each?.key === key),
  );
  if (missing.length > 0) {
    return refuse(
      context,
      table,
      `${word} lacks the column ${missing.map(([name]) => name).join(', ')}. Name the columns after 'table', in the order of the numbers in each row.`,
    );
  }
  const rows: Record<string, unknown>[] = [];
  let whole = true;
  for (const row of table.rows) {
    if (row.cells.length !== layout.length) {
      refuse(
        context,
        row,
        `This row has ${row.cells.length} values, but the table has ${layout.length} columns. Give one value for each column.`,
      );
      whole = false;
      continue;
    }
    const values: Record<string, unknown> = { place: placeOf(row) };
    row.cells.forEach((cell, i) => {
      const column = layout[i];
      if (!column) return;
      const value = readCell(cell, column.column, column.unit, kebab(column.key), context);
      if (value === undefined) whole = false;
      else values[column.key] = value;
    });
    rows.push(values);
  }
  if (table.rows.length === 0) {
    return refuse(context, table, `${word} has no rows. Write one row of values on each line below the heading.`);
  }
  return whole ? { value: rows, literal: true } : undefined;
}

type CellNode = Extract<Value, { $type: 'Table' }>['rows'][number]['cells'][number];

function readCell(
  cell: CellNode,
  column: ColumnType,
  unit: string | undefined,
  word: string,
  context: ReadContext,
): unknown {
  const written = cell.text ?? cell.date ?? cell.clock ?? cell.word;
  if (column.is) {
    const fits = column.is === 'word' ? (cell.word ?? cell.text) : cell[column.is];
    if (fits !== undefined) return fits;
    return void refuse(
      context,
      cell,
      `The column ${word} wants ${column.is === 'clock' ? 'a clock time' : `a ${column.is}`}, but this is '${textOf(cell)}'.`,
    );
  }
  if (cell.value === undefined)
    return void refuse(context, cell, `The column ${word} wants a number, but this is '${written ?? ''}'.`);
  const symbol = cell.unit ?? unit;
  const known = symbol === undefined ? undefined : context.world.unitOf(symbol);
  if (symbol !== undefined && !known) return void unknownUnit(symbol, placeOf(cell), context.world, column.kind);
  const literal = `${cell.negative ? '-' : ''}${cell.value}`;
  const magnitude: Magnitude = known ? { ...magnitudeOf('1', known), si: toSi(literal, known) } : magnitudeOf(literal);
  const kind = column.kind ?? 'number';
  const found = takeAs(
    { is: 'number', magnitude, literal, ...(known && { unit: known.symbol }) },
    kind,
    word,
    cell as unknown as Phrase,
    context,
  );
  return found?.si;
}

// ── helpers ──────────────────────────────────────────────────────────────────────────────────────────────────────

/** The single value of a property that holds no list. */
export function only(items: readonly Phrase[], word: string, context: ReadContext): Phrase | undefined {
  if (items.length === 1) return items[0];
  const second = items[1];
  if (second)
    refuse(context, second, `${word} holds one value, but more than one stands here. Keep the one that counts.`);
  return undefined;
}

export function refuse(context: ReadContext, node: Parameters<typeof placeOf>[0], message: string): undefined {
  context.world.report({ code: 'wrong-value', message, place: placeOf(node) });
  return undefined;
}

export function evaluatePart(part: Phrase['parts'][number] | undefined, context: ReadContext): Evaluated | undefined {
  return part && evaluate(part, context.scope, context.world);
}

export function isDate(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}

export function orList(words: readonly string[]): string {
  const list = words.map(withArticle);
  return list.length < 2 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} or ${list.at(-1)}`;
}

export function withArticle(name: string): string {
  return /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`;
}

function article(kind: KindName): string {
  return kind === 'money'
    ? 'a sum of money'
    : kind === 'number'
      ? 'a plain number'
      : kind === 'count'
        ? 'a whole number'
        : withArticle(kind);
}

function exampleUnit(kind: KindName, system: System): string {
  const [unit] = KINDS[kind].likely[system];
  return unit ? ` with its unit, such as 1 ${unit}` : '';
}

/** A limit as text in the author's unit system. */
export function shownLimit(si: number, kind: KindName, system: System): string {
  return show(si, KINDS[kind], system);
}
