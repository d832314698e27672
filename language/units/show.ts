/** Showing values: `6 912 L`, `0.35 L/m²`, `11.3 km/h`, `1 h 23 min`. */
import type { Dimension, Magnitude, QuantityKind, System, Unit } from './types.ts';
/** Between groups of three digits and before the unit: a plain blank; `typographic` takes no-break ones. */
export declare const GROUP_SPACE: string;
export interface ShowOptions {
  /** Significant digits instead of the kind's own. */
  readonly digits?: number;
  /** Currency code for kinds of money. */
  readonly currency?: string;
  /** Narrow no-break blanks and a true minus, for documents and the preview. */
  readonly typographic?: boolean;
}
export declare function show(si: number, kind: QuantityKind | Dimension, system: System, options?: ShowOptions): string;
export declare function showMagnitude(m: Magnitude, system: System, kind?: QuantityKind, options?: ShowOptions): string;
export declare function showIn(si: number, unit: Unit, options?: ShowOptions): string;
/** A value and its limit, with enough digits that they never look equal unless they are. */
export declare function showBeside(
  si: number,
  limit: number,
  kind: QuantityKind | Dimension,
  system: System,
  options?: ShowOptions,
): readonly [string, string];
