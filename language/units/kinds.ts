/**
 * The kinds of quantity that the vocabulary, the parameters of methods and the results speak of.
 *
 * A kind says more than a dimension: what to call it, which units an author probably means, and how it is shown.
 */

import { generalKey, NUMBER, SPEED } from './dimensions.ts';
import { parseUnit } from './parse.ts';
import { toNumber } from './rational.ts';
import type { Dimension, QuantityKind, ShownUnit, System, Tag, Unit } from './types.ts';

export type KindName = keyof typeof DEFINITIONS;
/** The same, under the name the vocabulary uses. */
export type QuantityKindName = KindName;

/** The kind of this name. */
export function quantityKind(name: KindName): QuantityKind {
  return KINDS[name];
}

/** The kind that these words name, if they name one: `application rate`. */
export function kindNamed(name: string): QuantityKind | undefined {
  return Object.hasOwn(KINDS, name) ? KINDS[name as KindName] : undefined;
}

/** The kind that a value is shown as when nothing else is known of it; undefined for unusual dimensions. */
export function kindOf(m: { readonly dimension: Dimension; readonly tag: Tag }): QuantityKind | undefined {
  const alike = BY_DIMENSION.get(generalKey(m.dimension)) ?? [];
  return alike.find(kind => kind.tag === m.tag) ?? alike[0];
}

interface Definition {
  /** The unit preferred in each system. */
  readonly metric?: string;
  readonly us?: string;
  /** Further units an author may well type, separated by `|`. */
  readonly likely?: { readonly metric?: string; readonly us?: string };
  /** Units for small and large values: values below (from) so many of that unit are shown in it. */
  readonly small?: { readonly metric?: readonly [string, number]; readonly us?: readonly [string, number] };
  readonly large?: { readonly metric?: readonly [string, number]; readonly us?: readonly [string, number] };
  readonly digits?: number;
  /** UCUM code of the SI unit. */
  readonly si: string;
  readonly also?: QuantityKind['also'];
}

const DEFINITIONS = {
  length: {
    metric: 'm',
    us: 'ft',
    likely: { metric: 'mm|cm|km', us: 'in|yd|mi' },
    small: { metric: ['mm', 100], us: ['in', 12] },
    si: 'm',
  },
  depth: {
    metric: 'mm',
    us: 'in',
    likely: { metric: 'µm|cm|m', us: 'mil|ft' },
    small: { metric: ['µm', 10], us: ['mil', 10] },
    digits: 3,
    si: 'm',
  },
  area: { metric: 'm2', us: 'ft2', likely: { metric: 'ha', us: 'ac|yd2' }, si: 'm2' },
  volume: {
    metric: 'L',
    us: 'gal',
    likely: { metric: 'm3|mL', us: 'fl oz|ft3' },
    small: { metric: ['mL', 1000], us: ['fl oz', 32] },
    si: 'm3',
  },
  'application rate': {
    metric: 'L/m2',
    us: 'gal/ft2',
    likely: { metric: 'L/ha|mL/m2', us: 'gal/1000 ft2|gal/ac|gal/yd2' },
    digits: 3,
    si: 'm',
  },
  coverage: { metric: 'm2/L', us: 'ft2/gal', digits: 3, si: 'm2/m3' },
  time: { metric: 'min', us: 'min', likely: { metric: 'h|s|d', us: 'h|s|d' }, si: 's' },
  speed: {
    metric: 'km/h',
    us: 'mph',
    likely: { metric: 'm/s|m/min|kt', us: 'ft/min|ft/s|kt' },
    digits: 3,
    si: 'm/s',
  },
  flow: { metric: 'L/min', us: 'gal/min', likely: { metric: 'm3/h|L/s', us: 'gal/h' }, si: 'm3/s' },
  pressure: {
    metric: 'bar',
    us: 'psi',
    likely: { metric: 'kPa|MPa|Pa', us: 'psf|inHg' },
    small: { metric: ['kPa', 20] },
    si: 'Pa',
  },
  temperature: { metric: '°C', us: '°F', digits: 3, si: 'K' },
  'temperature difference': { metric: 'K', us: 'Δ°F', likely: { metric: 'Δ°C' }, digits: 3, si: 'K' },
  mass: {
    metric: 'kg',
    us: 'lb',
    likely: { metric: 'g|t', us: 'oz|ton' },
    small: { metric: ['g', 1000], us: ['oz', 16] },
    si: 'kg',
  },
  'mass per area': {
    metric: 'kg/m2',
    us: 'lb/ft2',
    likely: { metric: 'g/m2', us: 'oz/yd2' },
    small: { metric: ['g/m2', 1000] },
    digits: 3,
    si: 'kg/m2',
  },
  density: { metric: 'kg/m3', us: 'lb/ft3', likely: { metric: 'kg/L|g/cm3', us: 'lb/gal' }, si: 'kg/m3' },
  power: {
    metric: 'kW',
    us: 'hp',
    likely: { metric: 'W|metric hp', us: 'kW' },
    small: { metric: ['W', 1000] },
    digits: 3,
    si: 'W',
  },
  energy: { metric: 'kWh', us: 'kWh', likely: { metric: 'MJ|kJ', us: 'MJ' }, small: { metric: ['kJ', 3600] }, si: 'J' },
  force: { metric: 'N', us: 'lbf', likely: { metric: 'kN' }, large: { metric: ['kN', 10] }, digits: 3, si: 'N' },
  angle: { metric: '°', us: '°', likely: { metric: 'rad', us: 'rad' }, digits: 3, si: 'circ' },
  revolutions: { metric: 'rev', us: 'rev', si: 'circ' },
  'rotation speed': { metric: 'rpm', us: 'rpm', likely: { metric: 'rev/s', us: 'rev/s' }, digits: 3, si: 'circ/s' },
  frequency: { metric: 'Hz', us: 'Hz', si: 'Hz' },
  'area rate': { metric: 'm2/h', us: 'ft2/h', likely: { metric: 'ha/h|m2/min', us: 'ac/h|ft2/min' }, si: 'm2/s' },
  'evaporation rate': {
    metric: 'kg/m2/h',
    us: 'lb/ft2/h',
    likely: { metric: 'mm/h|L/m2/h', us: 'in/h' },
    digits: 3,
    si: 'kg/m2/s',
    also: { dimension: SPEED, factor: 1000, because: '1 mm of water is 1 kg/m² (1000 kg/m³)' },
  },
  money: { metric: '¤', us: '¤', likely: { metric: 'EUR|GBP|USD', us: 'USD' }, si: '{money}' },
  'money per time': { metric: '¤/h', us: '¤/h', likely: { metric: 'EUR/h|EUR/d', us: 'USD/h|USD/d' }, si: '{money}/s' },
  'money per volume': {
    metric: '¤/L',
    us: '¤/gal',
    likely: { metric: 'EUR/L|EUR/m3', us: 'USD/gal' },
    si: '{money}/m3',
  },
  'money per area': {
    metric: '¤/m2',
    us: '¤/ft2',
    likely: { metric: 'EUR/m2', us: 'USD/ft2|USD/yd2' },
    si: '{money}/m2',
  },
  'money per length': {
    metric: '¤/m',
    us: '¤/ft',
    likely: { metric: 'EUR/m|EUR/km', us: 'USD/ft|USD/mi' },
    si: '{money}/m',
  },
  'money per mass': {
    metric: '¤/kg',
    us: '¤/lb',
    likely: { metric: 'EUR/kg|EUR/t', us: 'USD/lb|USD/ton' },
    si: '{money}/kg',
  },
  number: { si: '1' },
  count: { si: '1' },
  ratio: { likely: { metric: '%', us: '%' }, si: '1' },
  share: { metric: '%', us: '%', digits: 3, si: '1' },
  slope: { metric: '%', us: '%', likely: { metric: '‰' }, digits: 3, si: '1' },
} as const satisfies Readonly<Record<string, Definition>>;

/** All kinds, by name. */
export const KINDS: Readonly<Record<KindName, QuantityKind>> = Object.fromEntries(
  Object.entries(DEFINITIONS as Readonly<Record<string, Definition>>).map(([name, d]) => [name, kindFrom(name, d)]),
) as Record<KindName, QuantityKind>;

/** Kinds by dimension, the one to show first in front: the order of the definitions. */
const BY_DIMENSION: ReadonlyMap<string, readonly QuantityKind[]> = new Map(
  Object.values(KINDS).map(({ dimension }) => [
    dimension.key,
    Object.values(KINDS).filter(kind => kind.dimension.key === dimension.key),
  ]),
);

function kindFrom(name: string, d: Definition): QuantityKind {
  const metric = unitNamed(d.metric);
  const us = unitNamed(d.us);
  return {
    name,
    dimension: metric?.dimension ?? NUMBER,
    tag: metric?.tag ?? 'none',
    metric,
    us,
    si: d.si,
    shown: { metric: shownUnits(d, 'metric', metric), us: shownUnits(d, 'us', us) },
    likely: { metric: likelyWords(d, 'metric'), us: likelyWords(d, 'us') },
    digits: d.digits ?? 4,
    ...(d.also && { also: d.also }),
  };
}

function shownUnits(d: Definition, system: System, preferred: Unit | undefined): readonly ShownUnit[] {
  if (!preferred) return [];
  const [small, large] = [d.small?.[system], d.large?.[system]];
  const step = (entry: readonly [string, number] | undefined): ShownUnit[] => {
    const unit = unitNamed(entry?.[0]);
    return unit && entry ? [{ unit, below: entry[1] * toNumber(unit.factor) }] : [];
  };
  const [biggest] = step(large);
  return [
    ...step(small),
    { unit: preferred, below: biggest?.below ?? Number.POSITIVE_INFINITY },
    ...(biggest ? [{ unit: biggest.unit, below: Number.POSITIVE_INFINITY }] : []),
  ];
}

/** Money has no preferred currency, so its sign is nothing to suggest. */
function likelyWords(d: Definition, system: System): readonly string[] {
  const words = [d[system], ...(d.likely?.[system]?.split('|') ?? [])];
  return words.filter((word): word is string => word !== undefined && !word.includes('¤'));
}

function unitNamed(symbol: string | undefined): Unit | undefined {
  return symbol === undefined ? undefined : parseUnit(symbol);
}
