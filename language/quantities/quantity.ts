/**
 * A quantity while it is being worked out: explained, or missing with what it lacks. Whatever is computed from a missing
 * quantity is missing too, for the same reasons, so a formula is written once and never asks whether its inputs are there.
 */
import { type Computation, computed, type Explained, input } from '../explain/explain.ts';
import type { Doubts } from '../job/doubts.ts';
import type { Job } from '../job/job.ts';
import type { KindName } from '../units/index.ts';
import { kebab } from '../vocabulary/define.ts';
import type { BlockHead, Given, Place } from '../vocabulary/given.ts';
import { kinds } from '../vocabulary/index.ts';

export type Quantity = Explained | Missing;

/** A quantity that could not be computed, and why. */
export interface Missing {
  readonly path: string;
  readonly label: string;
  readonly lacks: readonly Gap[];
  /** The quantities for want of which it is missing; absent where it is the text that lacks something. */
  readonly parts?: readonly Missing[];
}

/** One thing that is lacking, as a clause: 'the rate of North.Spray is missing'. */
export interface Gap {
  readonly clause: string;
  /** The block in which it should stand. */
  readonly place?: Place;
}

export function isMissing(quantity: Quantity): quantity is Missing {
  return 'lacks' in quantity;
}

/** What every topic needs: the job, the names of blocks, and a memory so that each quantity is made once. */
export interface Context {
  readonly job: Job;
  /** Path of a top-level block, unique in the job: `Sprayer1`. */
  readonly nameOf: (block: BlockHead) => string;
  /** The quantity of this path; made the first time it is asked for. */
  readonly once: (path: string, make: () => Quantity) => Quantity;
  /** Anything else that many quantities are made from, by a key of its own; made the first time. */
  readonly keep: <T>(key: string, make: () => T) => T;
  /** Notes what is read that is in doubt; absent where everything can be read. */
  readonly doubts?: Doubts;
}

export type Formula = Omit<Computation, 'inputs'> & { readonly inputs: readonly Quantity[] };

/** A computed quantity, or what its inputs lack. A result that is no finite number counts as missing. */
export function quantity(formula: Formula): Quantity {
  const { path, label, place } = formula;
  if (!hasAll(formula)) {
    const parts = formula.inputs.filter(isMissing);
    return { ...missing(path, label, ...parts.flatMap(each => each.lacks)), parts };
  }
  const result = computed(formula);
  if (Number.isFinite(result.value)) return withFiniteInterval(result);
  return missing(path, label, {
    clause: `${formula.formula} has no finite value with these inputs`,
    ...(place && { place }),
  });
}

function hasAll(formula: Formula): formula is Formula & Computation {
  return !formula.inputs.some(isMissing);
}

/** A tolerance wide enough to divide by zero says nothing: the nominal value stands without an interval. */
function withFiniteInterval(result: Explained): Explained {
  if (result.interval?.every(Number.isFinite) ?? true) return result;
  const { interval: _, ...rest } = result;
  return { ...rest, note: [rest.note, 'the tolerances leave it without bounds'].filter(Boolean).join('; ') };
}

/** A missing quantity; each gap once. */
export function missing(path: string, label: string, ...gaps: readonly Gap[]): Missing {
  const lacks = gaps.filter((gap, i) => gaps.findIndex(other => other.clause === gap.clause) === i);
  return { path, label, lacks };
}

/** 'North.product cannot be computed: the rate of North.Spray is missing'. */
export function missingText({ path, lacks }: Missing): string {
  return `${path} cannot be computed: ${lacks.map(gap => gap.clause).join('; ')}`;
}

/** A block with the path under which authors know it. */
export interface Owner<B extends BlockHead = BlockHead> {
  readonly path: string;
  readonly block: B;
}

/** Properties of a block that hold a number. */
type NumberKey<B> = {
  [K in keyof B & string]-?: NonNullable<B[K]> extends Given<infer V> ? (V extends number ? K : never) : never;
}[keyof B & string];

/**
 * A number that the text says, as a leaf of the graph; kind and wording come from the vocabulary. Without it the quantity
 * is missing.
 */
export function leaf<B extends BlockHead>(owner: Owner<B>, key: NumberKey<B>, symbol: string): Quantity {
  const { path, block } = owner;
  const { word, words } = wordsOf(key);
  const label = `${words} of ${path}`;
  const given = block[key] as Given<number> | undefined;
  if (given === undefined || !Number.isFinite(given.value)) {
    return missing(`${path}.${word}`, label, {
      clause: `the ${words} of ${path} is missing`,
      place: block.heading,
    });
  }
  const type = kinds.get(block.kind)?.properties[key]?.type;
  const kind: KindName = type?.is === 'quantity' ? type.kind : 'number';
  return input(`${path}.${word}`, label, symbol, kind, given);
}

/** A property as the language writes it, and as a sentence does; asked for with every number. */
const written = new Map<string, { readonly word: string; readonly words: string }>();

function wordsOf(key: string): { readonly word: string; readonly words: string } {
  let known = written.get(key);
  if (!known) {
    const word = kebab(key);
    known = { word, words: word.replaceAll('-', ' ') };
    written.set(key, known);
  }
  return known;
}

/** The same where the number is part of a property with a wording of its own (`0.35 L/m2 of mix`). */
export function partOf<V>(
  given: Given<V> | undefined,
  value: (of: V) => number | undefined,
  named: { path: string; label: string; symbol: string; kind: KindName; place?: Place },
): Quantity {
  const number = given && value(given.value);
  if (given === undefined || number === undefined) {
    return missing(named.path, named.label, {
      clause: `the ${named.label} is missing`,
      ...(named.place && { place: named.place }),
    });
  }
  return input(named.path, named.label, named.symbol, named.kind, { ...given, value: number });
}

/** A sum of one or more quantities of the same kind; one summand alone is carried over as it is. */
export function sum(formula: Omit<Formula, 'compute' | 'formula' | 'source'> & { readonly of: string }): Quantity {
  const { of, inputs, ...rest } = formula;
  const addends = inputs.length === 1 ? (symbolOf(inputs[0]) ?? of) : `Σ ${of}`;
  return quantity({
    ...rest,
    inputs,
    formula: `${rest.symbol} = ${addends}`,
    compute: (...values) => values.reduce((total, value) => total + value, 0),
    source: 'definition',
  });
}

function symbolOf(quantity: Quantity | undefined): string | undefined {
  return quantity && !isMissing(quantity) ? quantity.symbol : undefined;
}

/** The value, where there is one. */
export function numberOf(quantity: Quantity): number | undefined {
  return isMissing(quantity) ? undefined : quantity.value;
}
