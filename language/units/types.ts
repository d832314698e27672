/** The shapes that the units stage hands to the rest. All plain, immutable data. */

import type { Rational } from './rational.ts';

/** A base of measurement. Each currency is a base of its own, so two currencies never add up; `money` stands for any. */
export type Base = 'length' | 'mass' | 'time' | 'temperature' | 'angle' | 'money' | `money:${string}`;

/** A vector of exponents over the bases. Two dimensions are equal when their keys are. Exponents may be halves. */
export interface Dimension {
  /** Canonical text, such as `length:3 time:-1`; empty for a plain number. */
  readonly key: string;
  /** Exponents that are not zero, sorted by base. */
  readonly powers: readonly (readonly [Base, number])[];
}

/**
 * What the exponents cannot say.
 * - `temperature`: a reading on a scale (°C, °F); `difference`: a difference of two (K, Δ°C, Δ°F)
 * - `rate`: volume on an area (L/m²); `length`: a length, depth or thickness (mm). Both are length¹ and are kept apart.
 * - `none`: nothing to tell apart; also a computed volume/area, which may be used as either.
 */
export type Tag = 'none' | 'temperature' | 'difference' | 'rate' | 'length';

/**
 * A measured value inside: `si` counts m, kg, s, K, turns (revolutions) and units of currency.
 * Note the angle: 1 is a full turn, since a degree is then exact; see `radians`.
 */
export interface Magnitude {
  readonly si: number;
  readonly dimension: Dimension;
  readonly tag: Tag;
}

/** Why an operation has no answer; data, never thrown. */
export interface UnitProblem {
  readonly problem: 'dimension' | 'tag' | 'temperature' | 'currency' | 'zero' | 'range' | 'power';
  /** One plain sentence without a full stop: `a length cannot be added to a time`. */
  readonly message: string;
}

/** Which system of units the author writes in. */
export type System = 'metric' | 'us';

/** One factor of a unit: `L/min` is L to the power 1 and min to the power -1. */
export interface UnitPart {
  readonly symbol: string;
  readonly power: number;
}

/** A unit: si = value · factor + offset. */
export interface Unit {
  /** The one canonical way to write it in a spec: `L/m2`, `gal/ft2`, `°C`, `fl oz`. */
  readonly symbol: string;
  /** How it is shown: `L/m²`, `gal/ft²`. */
  readonly shown: string;
  readonly factor: Rational;
  /** Only for the temperature scales °C and °F. */
  readonly offset?: Rational;
  /** False only where π comes in (rad): the factor is then good to 50 digits. */
  readonly exact: boolean;
  readonly dimension: Dimension;
  readonly tag: Tag;
  /** Its code in the Unified Code for Units of Measure; money is an annotation such as `{EUR}`. */
  readonly ucum: string;
  readonly system: 'metric' | 'us' | 'imperial' | 'both';
  readonly parts: readonly UnitPart[];
}

/** A named kind of quantity, as the vocabulary and the parameters of methods use it: `application rate`, `pressure`. */
export interface QuantityKind {
  readonly name: string;
  readonly dimension: Dimension;
  readonly tag: Tag;
  /** The unit preferred in each system; undefined for plain numbers. Of money it holds `¤` for the currency. */
  readonly metric: Unit | undefined;
  readonly us: Unit | undefined;
  /** UCUM code of the unit that `si` counts in. */
  readonly si: string;
  /** Units shown, from the smallest up; the first whose `below` (in SI) exceeds the value is taken. */
  readonly shown: Readonly<Record<System, readonly ShownUnit[]>>;
  /** Units an author is likely to want, likeliest first, for fixes and completion. */
  readonly likely: Readonly<Record<System, readonly string[]>>;
  /** Significant digits shown; whole digits are never dropped. */
  readonly digits: number;
  /** Another dimension that is taken as well, multiplied by `factor`: mm/h of water is kg/m²/h. */
  readonly also?: { readonly dimension: Dimension; readonly factor: number; readonly because: string };
}

export interface ShownUnit {
  readonly unit: Unit;
  readonly below: number;
}
