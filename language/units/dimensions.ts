/** Dimensions: what may be added, compared and assigned. */

import type { Base, Dimension } from './types.ts';

/** A plain number. */
export const NUMBER: Dimension = { key: '', powers: [] };
export const LENGTH = dimension({ length: 1 });
export const AREA = dimension({ length: 2 });
export const VOLUME = dimension({ length: 3 });
export const TIME = dimension({ time: 1 });
export const MASS = dimension({ mass: 1 });
export const TEMPERATURE = dimension({ temperature: 1 });
export const ANGLE = dimension({ angle: 1 });
export const SPEED = dimension({ length: 1, time: -1 });
export const FLOW = dimension({ length: 3, time: -1 });
export const PRESSURE = dimension({ mass: 1, length: -1, time: -2 });
export const FORCE = dimension({ mass: 1, length: 1, time: -2 });
export const ENERGY = dimension({ mass: 1, length: 2, time: -2 });
export const POWER = dimension({ mass: 1, length: 2, time: -3 });

/** The dimension with these exponents (multiples of ½); zeros are left out. */
export function dimension(powers: Readonly<Partial<Record<Base, number>>>): Dimension {
  return fromPairs(Object.entries(powers) as [Base, number][]);
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.key === b.key;
}

export function multiply(a: Dimension, b: Dimension): Dimension {
  if (b.key === '') return a;
  if (a.key === '') return b;
  return combine(a, b, 1);
}

export function divide(a: Dimension, b: Dimension): Dimension {
  return b.key === '' ? a : combine(a, b, -1);
}

/** To a power that is a multiple of ½; undefined when an exponent would not be a multiple of ½ or is beyond ±99. */
export function power(a: Dimension, exponent: number): Dimension | undefined {
  const pairs = a.powers.map(([base, e]) => [base, e * exponent] as [Base, number]);
  if (pairs.some(([, e]) => !Number.isInteger(2 * e) || Math.abs(e) > 99)) return undefined;
  return fromPairs(pairs);
}

/** Dimension with all currencies as `money`; an exchange rate keeps its two. */
export function generalKey(dimension: Dimension): string {
  const currencies = dimension.powers.filter(([base]) => base.startsWith('money')).length;
  return currencies === 1 ? dimension.key.replace(/money:[A-Z]{3}:/, 'money:') : dimension.key;
}

function combine(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const sum = new Map<Base, number>(a.powers);
  for (const [base, e] of b.powers) sum.set(base, (sum.get(base) ?? 0) + sign * e);
  return fromPairs([...sum]);
}

function fromPairs(pairs: readonly (readonly [Base, number])[]): Dimension {
  const powers = pairs.filter(([, e]) => e !== 0).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return { key: powers.map(([base, e]) => `${base}:${e}`).join(' '), powers };
}
