/** Arithmetic of magnitudes. Total: problems are data. A sign before a temperature literal belongs into `toSi('-5', unit)`. */
import type { Magnitude, QuantityKind, UnitProblem } from './types.ts';
export declare function isProblem(x: object): x is UnitProblem;
export declare function plain(value: number): Magnitude;
export declare function add(a: Magnitude, b: Magnitude): Magnitude | UnitProblem;
export declare function sub(a: Magnitude, b: Magnitude): Magnitude | UnitProblem;
export declare function mul(a: Magnitude, b: Magnitude): Magnitude | UnitProblem;
export declare function div(a: Magnitude, b: Magnitude): Magnitude | UnitProblem;
export declare function negate(a: Magnitude): Magnitude | UnitProblem;
/** To a plain power, a multiple of ½. */
export declare function pow(a: Magnitude, exponent: Magnitude): Magnitude | UnitProblem;
export declare function sqrt(a: Magnitude): Magnitude | UnitProblem;
/** -1, 0, 1; 0 also when equal to 1e-9 of the larger. */
export declare function compare(a: Magnitude, b: Magnitude): -1 | 0 | 1 | UnitProblem;
export declare function least(list: readonly Magnitude[]): Magnitude | UnitProblem;
export declare function greatest(list: readonly Magnitude[]): Magnitude | UnitProblem;
/** The magnitude as this kind takes it (mm/h of water as kg/m²/h), or why it does not belong. */
export declare function assign(kind: QuantityKind, value: Magnitude): Magnitude | UnitProblem;
/** Radians of an angle in turns, for sin and cos. */
export declare function radians(turns: number): number;
/** `length`, `temperature difference`, `application rate`, `money in EUR`, `length²/time` … */
export declare function magnitudeName(m: Magnitude): string;
