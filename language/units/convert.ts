/** Between literals in a unit and SI: exact inside, rounded to a double once. */

import { NUMBER, sameDimension } from './dimensions.ts';
import { parseUnit } from './parse.ts';
import { add, div, fromNumber, mul, parseDecimal, type Rational, sub, toDecimal, toNumber } from './rational.ts';
import type { Magnitude, Unit } from './types.ts';

/**
 * The SI value of a literal in a unit, exact and then rounded once. A sign belongs into the literal: −5 °C is not the
 * negative of 5 °C. NaN when the literal is no decimal number; ±Infinity beyond the doubles.
 */
export function toSi(literal: string, unit: Unit): number {
  const value = read(literal);
  return value ? toNumber(toSiExactly(value, unit)) : Number.NaN;
}

/** The value in `unit` of an SI value, rounded once; NaN and the infinities stay what they are. */
export function fromSi(si: number, unit: Unit): number {
  const value = fromNumber(si);
  return value ? toNumber(fromSiExactly(value, unit)) : si;
}

/**
 * A literal written in another unit, as a decimal with at most `digits` significant digits (12: a job converted to the
 * other system and back agrees to 1e-9). Undefined when the units do not agree or the literal can't be read.
 */
export function convertLiteral(literal: string, from: Unit, to: Unit, digits = 12): string | undefined {
  const value = read(literal);
  if (!value || !sameDimension(from.dimension, to.dimension) || from.tag !== to.tag) return undefined;
  return toDecimal(fromSiExactly(toSiExactly(value, from), to), digits);
}

/** A literal with its unit as a magnitude; without unit, a plain number. */
export function magnitudeOf(literal: string, unit?: Unit): Magnitude {
  if (unit) return { si: toSi(literal, unit), dimension: unit.dimension, tag: unit.tag };
  const value = read(literal);
  return { si: value ? toNumber(value) : Number.NaN, dimension: NUMBER, tag: 'none' };
}

/** A literal with its unit; a magnitude that remembers how it was written. */
export interface Quantity extends Magnitude {
  readonly literal: string;
  readonly unit?: Unit;
}

/** A quantity as written in one piece, such as `0.35 L/m2`, `-5 °C`, `12`; undefined when it is none. */
export function parseQuantity(text: string): Quantity | undefined {
  const match = /^([+-]?[\d.]+(?:[eE][+-]?\d+)?)\s*(.*)$/s.exec(text.trim());
  const [literal, word] = [match?.[1] ?? '', match?.[2] ?? ''];
  const unit = parseUnit(word);
  if (!read(literal) || (word !== '' && !unit)) return undefined;
  return { literal, ...(unit && { unit }), ...magnitudeOf(literal, unit) };
}

/** The unit's code in the Unified Code for Units of Measure. */
export function ucumOf(unit: Unit): string {
  return unit.ucum;
}

function toSiExactly(value: Rational, unit: Unit): Rational {
  const scaled = mul(value, unit.factor);
  return unit.offset ? add(scaled, unit.offset) : scaled;
}

function fromSiExactly(si: Rational, unit: Unit): Rational {
  return div(unit.offset ? sub(si, unit.offset) : si, unit.factor);
}

/** Very long literals are read as a double first: more digits than a double holds say nothing about a runway. */
function read(literal: string): Rational | undefined {
  const exact = parseDecimal(literal);
  if (exact) return exact;
  return literal.trim() === '' || /[^\d.eE+-]/.test(literal) ? undefined : fromNumber(Number(literal));
}
