/**
 * The graph of explained quantities. A computed number carries its formula in the trade's symbols, its inputs (explained
 * in turn, each knowing its place in the text) and its source. Hover, report, comparison and the author's own
 * requirements read this graph; a number that can't say where it came from is a defect.
 */
import type { Mark, SourceId } from '../sources/sources.ts';
import type { KindName } from '../units/index.ts';
import type { Given, Origin, Place } from '../vocabulary/given.ts';

export interface Explained {
  /** How an author refers to it: `North.product`, `NorthTouchdown.area`, `Sprayer1.width`. */
  readonly path: string;
  /** What it is, in a few words: 'product for the work'. */
  readonly label: string;
  /** The trade's symbol, as it stands in the formulas that use it: `A`, `Q`, `v`. */
  readonly symbol: string;
  readonly kind: KindName;
  /** SI; see language/units for what SI means here (angles in turns, temperatures in kelvin). */
  readonly value: number;
  /** Least and greatest value that the tolerances allow. */
  readonly interval?: readonly [least: number, greatest: number];
  /** In symbols, `Q = r · v · b`; undefined for an input. */
  readonly formula?: string;
  readonly inputs: readonly Explained[];
  /** The publication behind the formula or the default; 'the author' for what the text says. */
  readonly source: SourceId | 'the author';
  /** How well this one fact is verified, where that differs from its source as a whole (one row of a table). */
  readonly mark?: Mark;
  /** Where an input stands, or the block a computed quantity belongs to. */
  readonly place?: Place;
  readonly origin?: Origin;
  /** The unit the author wrote, for an input. */
  readonly unit?: string;
  /** Anything a reader has to know: the band of an estimate, what was left out. */
  readonly note?: string;
}

/** An input of the text as a leaf of the graph. */
export function input(path: string, label: string, symbol: string, kind: KindName, given: Given<number>): Explained {
  return {
    path,
    label,
    symbol,
    kind,
    value: given.value,
    ...(given.interval && { interval: given.interval }),
    ...(given.unit && { unit: given.unit }),
    inputs: [],
    source: given.origin.by === 'default' ? (given.origin.source as SourceId) : 'the author',
    place: given.place,
    origin: given.origin,
  };
}

export interface Computation {
  readonly path: string;
  readonly label: string;
  readonly symbol: string;
  readonly kind: KindName;
  readonly formula: string;
  readonly inputs: readonly Explained[];
  /** Takes the inputs' values in order. */
  readonly compute: (...values: number[]) => number;
  readonly source: SourceId;
  readonly place?: Place;
  readonly note?: string;
  /** False where more of an input does not move the result one way only: then no interval is carried. */
  readonly monotone?: boolean;
}

/**
 * A computed quantity. Its interval follows from those of its inputs: the least and greatest result over their corners,
 * which is exact for a formula monotone in each of them.
 */
export function computed(computation: Computation): Explained {
  const { compute, monotone = true, ...rest } = computation;
  const values = computation.inputs.map(each => each.value);
  const interval = monotone ? corners(computation.inputs, compute) : undefined;
  return { ...rest, value: compute(...values), ...(interval && { interval }) };
}

function corners(
  inputs: readonly Explained[],
  compute: (...values: number[]) => number,
): readonly [number, number] | undefined {
  if (!inputs.some(each => each.interval)) return undefined;
  const uncertain = inputs.map((each, i) => (each.interval ? i : -1)).filter(i => i >= 0);
  // 2^8 corners at most: a formula with more uncertain inputs than that is split into steps.
  if (uncertain.length > 8) return undefined;
  let [least, greatest] = [Infinity, -Infinity];
  for (let corner = 0; corner < 1 << uncertain.length; corner++) {
    const values = inputs.map(each => each.value);
    uncertain.forEach((i, bit) => {
      values[i] = inputs[i]!.interval![(corner >> bit) & 1]!;
    });
    const result = compute(...values);
    least = Math.min(least, result);
    greatest = Math.max(greatest, result);
  }
  return [least, greatest];
}
