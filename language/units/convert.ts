/** Between literals and SI. */
import type { Magnitude, Unit } from './types.ts';
/** Exact, then rounded once. NaN when the literal is no decimal number; ±Infinity beyond the doubles. Sign allowed. */
export declare function toSi(literal: string, unit: Unit): number;
/** The value in `unit` of an SI value, rounded once. */
export declare function fromSi(si: number, unit: Unit): number;
/** A literal in another unit, as text with at most `digits` significant digits (12); undefined if the units do not agree. */
export declare function convertLiteral(literal: string, from: Unit, to: Unit, digits?: number): string | undefined;
/** A literal with its unit as a magnitude (no unit: a plain number). */
export declare function magnitudeOf(literal: string, unit?: Unit): Magnitude;
export declare function ucumOf(unit: Unit): string;
