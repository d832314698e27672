/**
 * How a block kind is defined. One definition gives the typed model (`Model<typeof runway>`), the errors, completion,
 * hover texts, the formatter's order and the reference pages; nothing about a property is written twice.
 *
 * A property is one line in a kind's `properties`. Its key is camelCase; in the language it is written with hyphens
 * (`buildUp` is `build-up`).
 */
import { z } from 'zod';
import type { SourceId } from '../sources/sources.ts';
import { KINDS, type KindName, parseUnit, toSi } from '../units/index.ts';
import type { BlockHead, BlockRef, Given, Place } from './given.ts';

/** How a value is written. The evaluator has one reader for each. */
export type ValueType =
  | { readonly is: 'quantity'; readonly kind: KindName; readonly least?: string; readonly most?: string }
  | { readonly is: 'range'; readonly kind: KindName; readonly least?: string; readonly most?: string }
  | { readonly is: 'words'; readonly words: readonly string[]; readonly many: boolean }
  | { readonly is: 'names'; readonly kinds: readonly string[]; readonly many: boolean }
  | { readonly is: 'machines' }
  | { readonly is: 'call'; readonly kinds: readonly string[] }
  | { readonly is: 'text'; readonly many: boolean }
  | { readonly is: 'flag' }
  | { readonly is: 'date'; readonly many: boolean }
  | { readonly is: 'table'; readonly columns: Readonly<Record<string, ColumnType>> }
  | { readonly is: PhraseName };

/** Values with a wording of their own; each has a reader in language/evaluate/phrases.ts. */
export type PhraseName = keyof typeof phrases;

export interface ColumnType {
  readonly kind?: KindName;
  /** A cell that may also hold a word, a name or a text. */
  readonly is?: 'text' | 'date' | 'clock' | 'word';
  readonly optional?: boolean;
  readonly doc: string;
}

export interface Property<S extends z.ZodType = z.ZodType> {
  readonly type: ValueType;
  readonly schema: S;
  /** One or two plain sentences: shown in completion, hover and the reference. */
  readonly doc: string;
  readonly required: boolean;
  /** Needed only for some variants of the block (`does: apply`); such a property is then out of place elsewhere. */
  readonly only?: readonly string[];
  readonly requiredFor?: readonly string[];
  readonly default?: { readonly text: string; readonly value: z.infer<S>; readonly unit?: string };
  readonly source: SourceId;
  /** An example value, for snippets and the reference. */
  readonly example: string;
}

interface Options {
  readonly required?: boolean;
  readonly only?: readonly string[];
  readonly requiredFor?: readonly string[];
  readonly source?: SourceId;
  readonly example?: string;
}

// ── builders: one for each way of writing a value ────────────────────────────────────────────────────────────────

/** A number with a unit, SI in the model. `least` and `most` are hard limits, inclusive. */
export function quantity(
  kind: KindName,
  doc: string,
  options: Options & { least?: string; most?: string; default?: string } = {},
): Property<z.ZodNumber> {
  let schema = z.number();
  if (options.least) schema = schema.min(siOf(options.least, kind));
  if (options.most) schema = schema.max(siOf(options.most, kind));
  const unit = options.default === undefined ? undefined : readLiteral(options.default)?.unit;
  return {
    ...common(doc, options, options.example ?? options.default ?? exampleWithin(kind, options)),
    type: { is: 'quantity', kind, ...pick(options, 'least', 'most') },
    schema,
    ...(options.default !== undefined && {
      default: { text: options.default, value: siOf(options.default, kind), ...(unit && { unit }) },
    }),
  };
}

/** `5 to 35 °C`, `>= 6 m`, `<= 28 km/h` or a single value: least and most, SI. */
export function range(kind: KindName, doc: string, options: Options & { least?: string; most?: string } = {}) {
  const bound = z.number();
  return {
    ...common(doc, options, options.example ?? `${exampleOf(kind)} to ${exampleOf(kind)}`),
    type: { is: 'range', kind, ...pick(options, 'least', 'most') },
    schema: z.object({ least: bound.optional(), most: bound.optional() }),
  } satisfies Property;
}

/** One of a closed list of words or word groups (`grooved asphalt`). */
export function words<const W extends readonly [string, ...string[]]>(
  list: W,
  doc: string,
  options: Options & { default?: W[number] } = {},
): Property<z.ZodType<W[number]>> {
  return {
    ...common(doc, options, options.example ?? list[0]),
    type: { is: 'words', words: list, many: false },
    schema: z.enum(list) as unknown as z.ZodType<W[number]>,
    ...(options.default !== undefined && { default: { text: options.default, value: options.default } }),
  };
}

/** Several of a closed list, with commas between. */
export function wordList<const W extends readonly [string, ...string[]]>(
  list: W,
  doc: string,
  options: Options = {},
): Property<z.ZodType<readonly W[number][]>> {
  return {
    ...common(doc, options, options.example ?? list.slice(0, 2).join(', ')),
    type: { is: 'words', words: list, many: true },
    schema: z.array(z.enum(list)) as unknown as z.ZodType<readonly W[number][]>,
  };
}

const blockRef = z.object({ kind: z.string(), id: z.string(), name: z.string() }) satisfies z.ZodType<BlockRef>;

/** The name of another block, of one of the kinds. */
export function nameOf(kinds: readonly string[], doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? exampleName(kinds[0])),
    type: { is: 'names', kinds, many: false },
    schema: blockRef,
  } satisfies Property;
}

/** Names of other blocks, with commas between. */
export function namesOf(kinds: readonly string[], doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? exampleName(kinds[0])),
    type: { is: 'names', kinds, many: true },
    schema: z.array(blockRef),
  } satisfies Property;
}

/** Machines by name, or by name and count: `District.Broom1, 2 of District.Tanker`. */
export function machines(doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? 'Broom1, Broom2'),
    type: { is: 'machines' },
    schema: z.array(z.object({ count: z.number().int().min(1), machine: blockRef })),
  } satisfies Property;
}

/** A method with its arguments: `BroomAndRinse(soak: 40 min)`. */
export function callOf(kinds: readonly string[], doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? exampleName(kinds[0])),
    type: { is: 'call', kinds },
    schema: blockRef,
  } satisfies Property;
}

export function text(doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? '"…"'),
    type: { is: 'text', many: false },
    schema: z.string(),
  } satisfies Property;
}

export function textList(doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? '"…", "…"'),
    type: { is: 'text', many: true },
    schema: z.array(z.string()),
  } satisfies Property;
}

/** `yes` or `no`. */
export function flag(doc: string, options: Options & { default?: 'yes' | 'no' } = {}): Property<z.ZodBoolean> {
  return {
    ...common(doc, options, 'yes'),
    type: { is: 'flag' },
    schema: z.boolean(),
    ...(options.default !== undefined && { default: { text: options.default, value: options.default === 'yes' } }),
  };
}

/** A calendar date, ISO 8601. */
export function date(doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? '2031-04-07'),
    type: { is: 'date', many: false },
    schema: z.iso.date(),
  } satisfies Property;
}

export function dateList(doc: string, options: Options = {}) {
  return {
    ...common(doc, options, options.example ?? '2031-04-18, 2031-04-21'),
    type: { is: 'date', many: true },
    schema: z.array(z.iso.date()),
  } satisfies Property;
}

/** A table, one row a line. Number cells are SI in the model. */
export function table<const C extends Readonly<Record<string, ColumnType>>>(
  columns: C,
  doc: string,
  options: Options = {},
): Property<z.ZodType<readonly Row<C>[]>> {
  const shape: Record<string, z.ZodType> = { place: z.custom<Place>() };
  for (const [name, column] of Object.entries(columns)) {
    const cell = column.is ? z.string() : z.number();
    shape[name] = column.optional ? cell.optional() : cell;
  }
  return {
    ...common(doc, options, options.example ?? `table ${Object.keys(columns).map(kebab).join(', ')}`),
    type: { is: 'table', columns },
    schema: z.array(z.object(shape)) as unknown as z.ZodType<readonly Row<C>[]>,
  };
}

export type Row<C extends Readonly<Record<string, ColumnType>>> = { readonly place: Place } & {
  readonly [K in keyof C as C[K] extends { optional: true } ? never : K]: Cell<C[K]>;
} & { readonly [K in keyof C as C[K] extends { optional: true } ? K : never]?: Cell<C[K]> };
type Cell<T extends ColumnType> = T extends { is: string } ? string : number;

const minuteOfDay = z
  .number()
  .int()
  .min(0)
  .max(24 * 60);
const weekday = z.number().int().min(1).max(7);

/** The shapes of values that have a wording of their own. Numbers are SI; clock times are minutes after midnight. */
export const phrases = {
  /** `0.35 L/m2 of mix`, `0.07 L/m2 of product`; of water where nothing else can be meant. Rate in m³/m². */
  rate: z.object({ rate: z.number().positive(), of: z.enum(['mix', 'product', 'water']) }),
  /** `1 part product to 4 parts water`, `20 %`, `neat`: share of product in the mix, 0 to 1. */
  dilution: z.object({ share: z.number().gt(0).max(1) }),
  /** `Main from "04"`: the runway, and the end from which chainage counts. */
  fromEnd: z.object({ runway: blockRef, end: z.string() }),
  /** `half swept`, `half nominal`, `1.1 m`: how much wider each circuit is. */
  advance: z.union([
    z.object({ of: z.enum(['swept', 'nominal']), share: z.number().gt(0).max(1) }),
    z.object({ of: z.literal('length'), length: z.number().positive() }),
  ]),
  /** `23:00 to 05:00, Mon to Thu`: minutes after local midnight; an end at or before the start is on the next day. */
  hours: z.object({ from: minuteOfDay, to: minuteOfDay, days: z.array(weekday) }),
  /** `about 3, at most 5`, `3`. */
  times: z.object({ usual: z.number().int().min(1), most: z.number().int().min(1) }),
  /** `3`, `200 m`, `auto`. */
  bays: z.union([
    z.object({ by: z.literal('count'), count: z.number().int().min(1) }),
    z.object({ by: z.literal('length'), length: z.number().positive() }),
    z.object({ by: z.literal('auto') }),
  ]),
  /** `52.4217 °, -6.1134 °`: latitude, longitude in degrees, WGS 84, north and east positive. */
  position: z.object({ latitude: z.number().min(-90).max(90), longitude: z.number().min(-180).max(180) }),
  /** `23:30`: minutes after local midnight. */
  clock: minuteOfDay,
  /** `same lane`, `next lane`, each with a headway: `same lane 60 m apart`. */
  tandem: z.object({ lane: z.enum(['same', 'next']), headway: z.number().positive() }),
  /** A currency word: `EUR`. */
  currency: z.string().regex(/^[A-Z]{3}$/),
} as const;

/** A value with a wording of its own. */
export function phrase<N extends PhraseName>(
  name: N,
  doc: string,
  options: Options & { default?: { text: string; value: z.infer<(typeof phrases)[N]> } } = {},
): Property<(typeof phrases)[N]> {
  return {
    ...common(doc, options, options.example ?? options.default?.text ?? phraseExamples[name]),
    type: { is: name },
    schema: phrases[name],
    ...(options.default && { default: options.default }),
  } as Property<(typeof phrases)[N]>;
}

const phraseExamples: Record<PhraseName, string> = {
  rate: '0.35 L/m2 of mix',
  dilution: '1 part product to 4 parts water',
  fromEnd: 'Main from "04"',
  advance: 'half swept',
  hours: '23:00 to 05:00, Mon to Thu',
  times: 'about 3, at most 5',
  bays: '3',
  position: '52.4217 °, -6.1134 °',
  clock: '23:30',
  tandem: 'same lane 60 m apart',
  currency: 'EUR',
};

// ── block kinds ──────────────────────────────────────────────────────────────────────────────────────────────────

export type Properties = Readonly<Record<string, Property>>;

export interface BlockKind<P extends Properties = Properties, B extends Children = Children> {
  readonly kind: string;
  /** What the block describes, in a sentence or two. */
  readonly doc: string;
  /** How it is called: by a name, by a quoted designator, or not at all. */
  readonly called: 'name' | 'designator' | 'nothing' | 'name or nothing';
  /** Stands at the top of a file; nested kinds stand only where a parent lists them. */
  readonly top: boolean;
  /** What the block is about, for completion and the reference. */
  readonly group: 'job' | 'place' | 'plant' | 'method' | 'work' | 'time' | 'limits' | 'record';
  readonly properties: P;
  readonly blocks: B;
  /** The property that tells variants apart (`does`), where there are any. */
  readonly variant?: string;
  /** Takes further properties named after the roles of its method. */
  readonly bindsRoles?: boolean;
  readonly takesParameters?: boolean;
}

/** Nested blocks: the key is the model's, the value the kind. All are lists. */
export type Children = Readonly<Record<string, BlockKind>>;

type Draft<P, B> = Omit<BlockKind, 'properties' | 'blocks' | 'top' | 'called'> & {
  readonly properties: P;
  readonly blocks?: B;
  readonly top?: boolean;
  readonly called?: BlockKind['called'];
};

// biome-ignore lint/complexity/noBannedTypes: an empty record of children is what is meant
export function blockKind<const P extends Properties, const B extends Children = {}>(
  draft: Draft<P, B>,
): BlockKind<P, B> {
  return { top: true, called: 'name', ...draft, blocks: draft.blocks ?? ({} as B) } as BlockKind<P, B>;
}

/**
 * The typed model of a block kind. Every property may be missing: broken text stays useful, and what is required is a
 * finding, not a crash. Use `complete` in language/job where a stage needs several at once.
 */
export type Model<K extends BlockKind> = BlockHead & {
  readonly [N in keyof K['properties']]: Given<z.infer<K['properties'][N]['schema']>> | undefined;
} & { readonly [N in keyof K['blocks']]: readonly Model<K['blocks'][N]>[] };

// ── words ────────────────────────────────────────────────────────────────────────────────────────────────────────

/** `buildUp` → `build-up`: the property as it is written in the language. */
export function kebab(key: string): string {
  return key.replace(/[A-Z]/g, letter => `-${letter.toLowerCase()}`);
}

/** `build-up` → `buildUp`. */
export function camel(word: string): string {
  return word.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

function common(doc: string, options: Options, example: string) {
  return {
    doc,
    required: options.required ?? false,
    source: options.source ?? ('common-practice' as SourceId),
    example,
    ...pick(options, 'only', 'requiredFor'),
  };
}

function siOf(written: string, kind: KindName): number {
  const read = readLiteral(written);
  // A limit that can't be read is a mistake in the vocabulary itself; the unit tests of every kind load this.
  if (!read) throw new Error(`vocabulary: '${written}' is not a ${kind}`);
  return read.si;
}

function readLiteral(written: string): { si: number; unit?: string } | undefined {
  const [, literal, word] = /^(-?[0-9.]+)\s*(.*)$/.exec(written) ?? [];
  if (literal === undefined) return undefined;
  if (!word) return { si: Number(literal) };
  const unit = parseUnit(word);
  return unit && { si: toSi(literal, unit), unit: unit.symbol };
}

function exampleOf(kind: KindName): string {
  const unit = KINDS[kind].likely.metric[0];
  return unit ? `1 ${unit}` : '1';
}

/** An example that keeps the limits, for a property that gives none. */
function exampleWithin(kind: KindName, { least, most }: { readonly least?: string; readonly most?: string }): string {
  const example = exampleOf(kind);
  const si = siOf(example, kind);
  if (least !== undefined && si < siOf(least, kind)) return least;
  return most !== undefined && si > siOf(most, kind) ? most : example;
}

function exampleName(kind: string | undefined): string {
  return kind ? `${kind[0]?.toUpperCase()}${camel(kind).slice(1)}1` : 'Name';
}

function pick<T extends object, K extends keyof T>(from: T, ...keys: K[]): Partial<Pick<T, K>> {
  const result: Partial<Pick<T, K>> = {};
  for (const key of keys) if (from[key] !== undefined) result[key] = from[key];
  return result;
}
