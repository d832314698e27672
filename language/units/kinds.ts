/** The kinds of quantity that the vocabulary uses. */
import type { QuantityKind } from './types.ts';
export type KindName =
  | 'number'
  | 'count'
  | 'ratio'
  | 'share'
  | 'slope'
  | 'length'
  | 'depth'
  | 'area'
  | 'volume'
  | 'application rate'
  | 'coverage'
  | 'time'
  | 'speed'
  | 'flow'
  | 'pressure'
  | 'temperature'
  | 'temperature difference'
  | 'mass'
  | 'mass per area'
  | 'density'
  | 'power'
  | 'energy'
  | 'force'
  | 'angle'
  | 'rotation speed'
  | 'revolutions'
  | 'frequency'
  | 'area rate'
  | 'evaporation rate'
  | 'money'
  | 'money per time'
  | 'money per volume'
  | 'money per area'
  | 'money per length'
  | 'money per mass';
export declare const KINDS: Readonly<Record<KindName, QuantityKind>>;
export declare function kindNamed(name: string): QuantityKind | undefined;
/** The kind that a value of this dimension and tag is shown as, when nothing else is known. */
export declare function kindOf(m: {
  dimension: QuantityKind['dimension'];
  tag: QuantityKind['tag'];
}): QuantityKind | undefined;
