/**
 * Arithmetic of magnitudes, with dimensions checked.
 *
 * Total: whatever goes in, a magnitude or a problem comes out. Temperatures are readings on a scale: two of them have a
 * difference but no sum. The sign of a temperature literal belongs to the literal (`toSi('-5', unit)`), because the
 * negative of a reading depends on the scale.
 */

import { divide, generalKey, LENGTH, multiply, NUMBER, power, sameDimension, TEMPERATURE } from './dimensions.ts';
import { kindOf } from './kinds.ts';
import type { Dimension, Magnitude, QuantityKind, Tag, UnitProblem } from './types.ts';

/** Two values that differ by less than this share of the larger are the same: a job in the other system still agrees. */
export const SAME_WITHIN = 1e-9;

export function isProblem(x: object): x is UnitProblem {
  return 'problem' in x;
}

/** A number without dimension. */
export function plain(value: number): Magnitude {
  return { si: value, dimension: NUMBER, tag: 'none' };
}

/** a + b. A temperature and a difference add up to a temperature. */
export function add(a: Magnitude, b: Magnitude): Magnitude | UnitProblem {
  if (a.tag === 'temperature' && b.tag === 'temperature') {
    return problem(
      'temperature',
      'two temperatures have a difference but no sum; write the second as a difference, in K or Δ°F',
    );
  }
  return alike(a, b, 'added to') ?? result(a.si + b.si, a.dimension, joined(a, b));
}

/** a − b. Two temperatures give a difference. */
export function sub(a: Magnitude, b: Magnitude): Magnitude | UnitProblem {
  if (a.tag === 'difference' && b.tag === 'temperature') {
    return problem('temperature', 'a temperature cannot be subtracted from a temperature difference');
  }
  const unlike = alike(b, a, 'subtracted from');
  if (unlike) return unlike;
  const difference = a.tag === 'temperature' && b.tag === 'temperature';
  return result(a.si - b.si, a.dimension, difference ? 'difference' : joined(a, b));
}

/** a · b. What a length results from (rate or depth) is kept where the other factor is a plain number. */
export function mul(a: Magnitude, b: Magnitude): Magnitude | UnitProblem {
  const reading = noReading(a, b, 'multiplied');
  if (reading) return reading;
  const dimension = multiply(a.dimension, b.dimension);
  return result(a.si * b.si, dimension, derivedTag(dimension, a, b));
}

/** a / b. */
export function div(a: Magnitude, b: Magnitude): Magnitude | UnitProblem {
  const reading = noReading(a, b, 'divided');
  if (reading) return reading;
  if (b.si === 0) return problem('zero', 'the divisor is zero');
  const dimension = divide(a.dimension, b.dimension);
  return result(a.si / b.si, dimension, sameDimension(b.dimension, NUMBER) ? a.tag : derivedTag(dimension, a, b));
}

/** −a; not of a reading, see above. */
export function negate(a: Magnitude): Magnitude | UnitProblem {
  if (a.tag === 'temperature') {
    return problem('temperature', 'a temperature has no negative; write the sign before the number, as in -5 °C');
  }
  return { ...a, si: 0 - a.si };
}

/** a to a plain power that is a multiple of ½; a plain number to any plain power. */
export function pow(a: Magnitude, exponent: Magnitude): Magnitude | UnitProblem {
  if (!sameDimension(exponent.dimension, NUMBER)) {
    return problem('power', `an exponent is a plain number, not ${articled(magnitudeName(exponent))}`);
  }
  const reading = noReading(a, a, 'raised to a power');
  if (reading) return reading;
  const dimension = power(a.dimension, exponent.si);
  if (!dimension) return problem('power', `${articled(magnitudeName(a))} cannot be raised to this power`);
  if (a.si === 0 && exponent.si < 0) return problem('zero', 'zero has no negative power');
  return result(a.si ** exponent.si, dimension, exponent.si === 1 ? a.tag : derivedTag(dimension, a, a));
}

export function sqrt(a: Magnitude): Magnitude | UnitProblem {
  return pow(a, plain(0.5));
}

/** -1, 0 or 1 as a is less than, the same as (to 1e-9) or more than b. */
export function compare(a: Magnitude, b: Magnitude): -1 | 0 | 1 | UnitProblem {
  const unlike = comparable(a, b);
  if (unlike) return unlike;
  if (Number.isNaN(a.si) || Number.isNaN(b.si)) return problem('range', 'the value is not a number');
  if (isSame(a.si, b.si)) return 0;
  return a.si < b.si ? -1 : 1;
}

/** Whether two values of one dimension are the same to 1e-9 of the larger. */
export function isSame(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) <= SAME_WITHIN * Math.max(Math.abs(a), Math.abs(b));
}

/** The size without the sign; not of a reading of temperature. */
export function abs(a: Magnitude): Magnitude | UnitProblem {
  return noReading(a, a, 'stripped of its sign') ?? { ...a, si: Math.abs(a.si) };
}

/**
 * To a whole number of steps: `ceil` up, `floor` down, `round` to the nearest (halves up). What is within 1e-9 of a
 * whole number of steps already stays there: 0.3 m is three steps of 0.1 m, though not in binary.
 */
export function roundTo(how: 'ceil' | 'floor' | 'round', a: Magnitude, step: Magnitude): Magnitude | UnitProblem {
  const reading = noReading(a, step, 'rounded, because its zero depends on the scale');
  if (reading) return reading;
  if (!sameDimension(a.dimension, step.dimension)) {
    const [value, by] = [magnitudeName(a), magnitudeName(step)].map(articled);
    return problem('dimension', `${value} cannot be rounded to ${by}; name a step of its own kind`);
  }
  if (!(step.si > 0)) return problem('zero', 'the step to round to is not above zero');
  const steps = a.si / step.si;
  const nearest = Math.round(steps);
  const isWhole = Math.abs(nearest - steps) <= SAME_WITHIN * Math.max(1, Math.abs(steps));
  const whole = isWhole ? nearest : Math[how](steps);
  return result(whole * step.si, a.dimension, joined(a, step));
}

export function least(list: readonly Magnitude[]): Magnitude | UnitProblem {
  return extreme(list, -1);
}

export function greatest(list: readonly Magnitude[]): Magnitude | UnitProblem {
  return extreme(list, 1);
}

/** The magnitude as this kind takes it (mm/h of water as kg/m²/h), or why it does not belong there. */
export function assign(kind: QuantityKind, value: Magnitude): Magnitude | UnitProblem {
  const given = generalKey(value.dimension);
  if (kind.also && given === generalKey(kind.also.dimension)) {
    return result(value.si * kind.also.factor, kind.dimension, kind.tag);
  }
  if (given !== generalKey(kind.dimension)) {
    const units = [...kind.likely.metric.slice(0, 2), ...kind.likely.us.slice(0, 2)].filter(
      (u, i, all) => all.indexOf(u) === i,
    );
    const hint = units.length > 0 ? `; write it in ${orList(units)}` : '';
    const stands = `${articled(magnitudeName(value))} stands where ${articled(kind.name)} belongs`;
    return problem('dimension', `${stands}${hint}`);
  }
  if (kind.tag !== value.tag && kind.tag !== 'none' && value.tag !== 'none') {
    return problem(
      kind.tag === 'temperature' || kind.tag === 'difference' ? 'temperature' : 'tag',
      TAG_HINTS[kind.tag],
    );
  }
  if (!Number.isFinite(value.si)) return problem('range', 'the value is too large');
  return { si: value.si, dimension: value.dimension, tag: kind.tag };
}

/** Radians of an angle in turns, for sine and cosine. */
export function radians(turns: number): number {
  return turns * 2 * Math.PI;
}

/** `length`, `application rate`, `temperature difference`, `money in EUR`; for nameless ones `length²·mass/time`. */
export function magnitudeName(m: { dimension: Dimension; tag: Tag }): string {
  if (sameDimension(m.dimension, NUMBER)) return 'plain number';
  const currency = /money:([A-Z]{3})/.exec(m.dimension.key)?.[1];
  const name = kindOf(m)?.name;
  if (name === 'money' && currency) return `sum in ${currency}`;
  return name && currency ? `${name} in ${currency}` : (name ?? composedName(m.dimension));
}

/** The name of a dimension alone. */
export function dimensionName(dimension: Dimension): string {
  return magnitudeName({ dimension, tag: 'none' });
}

// --- Details ---

const TAG_HINTS: Readonly<Record<Tag, string>> = {
  none: '',
  rate: 'a length is not an application rate; write the volume on an area, as in L/m2 or gal/ft2',
  length: 'an application rate is not a length; write a length, as in mm or in',
  temperature: 'a temperature difference stands where a temperature belongs; write it in °C or °F',
  difference: 'a temperature stands where a temperature difference belongs; write it in K or Δ°F',
};

function problem(kind: UnitProblem['problem'], message: string): UnitProblem {
  return { problem: kind, message };
}

function result(si: number, dimension: Dimension, tag: Tag): Magnitude | UnitProblem {
  if (!Number.isFinite(si)) return problem('range', 'the result is too large or is not a number');
  return { si, dimension, tag };
}

/** Why a cannot be `added to` b; undefined when it can. */
function alike(a: Magnitude, b: Magnitude, verb: string): UnitProblem | undefined {
  if (!sameDimension(a.dimension, b.dimension)) {
    const kind = generalKey(a.dimension) === generalKey(b.dimension) ? 'currency' : 'dimension';
    return problem(kind, `${articled(magnitudeName(a))} cannot be ${verb} ${articled(magnitudeName(b))}`);
  }
  if ((a.tag === 'rate' && b.tag === 'length') || (a.tag === 'length' && b.tag === 'rate')) {
    const [left, right] = [a, b].map(m => (m.tag === 'rate' ? 'an application rate' : 'a length'));
    return problem('tag', `${left} cannot be ${verb} ${right}`);
  }
  return undefined;
}

function comparable(a: Magnitude, b: Magnitude): UnitProblem | undefined {
  const unlike = alike(a, b, 'compared with');
  if (unlike || a.tag === b.tag || (a.tag !== 'temperature' && b.tag !== 'temperature')) return unlike;
  return problem('temperature', 'a temperature cannot be compared with a temperature difference');
}

function extreme(list: readonly Magnitude[], sign: -1 | 1): Magnitude | UnitProblem {
  let best = list[0];
  if (!best) return problem('range', 'there is nothing to choose from');
  for (const next of list.slice(1)) {
    const unlike = comparable(next, best);
    if (unlike) return unlike;
    best = { ...(Math.sign(next.si - best.si) === sign ? next : best), tag: joined(best, next) };
  }
  return best;
}

function noReading(a: Magnitude, b: Magnitude, verb: string): UnitProblem | undefined {
  if (a.tag !== 'temperature' && b.tag !== 'temperature') return undefined;
  return problem('temperature', `a temperature cannot be ${verb}; only a temperature difference can`);
}

/** Of two that go together: the tag that says more. A reading and a difference make a reading. */
function joined(a: Magnitude, b: Magnitude): Tag {
  if (a.tag === 'temperature' || b.tag === 'temperature') return 'temperature';
  return a.tag === 'none' ? b.tag : a.tag;
}

/**
 * A product that is a temperature is a difference. One that is a length keeps its factor's tag if the other is a plain
 * number; otherwise it stays open: litres over an area are a rate, the sand of a texture test over its patch is a depth.
 */
function derivedTag(dimension: Dimension, a: Magnitude, b: Magnitude): Tag {
  if (sameDimension(dimension, TEMPERATURE)) return 'difference';
  if (!sameDimension(dimension, LENGTH)) return 'none';
  if (sameDimension(a.dimension, NUMBER)) return b.tag;
  return sameDimension(b.dimension, NUMBER) ? a.tag : 'none';
}

function composedName(dimension: Dimension): string {
  const raised = (base: string, e: number) =>
    `${base.replace(/^money:/, '')}${EXPONENTS[String(e)] ?? (e === 1 ? '' : `^${e}`)}`;
  const above = dimension.powers.filter(([, e]) => e > 0).map(([base, e]) => raised(base, e));
  const below = dimension.powers.filter(([, e]) => e < 0).map(([base, e]) => raised(base, -e));
  return [above.join('·') || '1', ...below].join('/');
}
const EXPONENTS: Readonly<Record<string, string>> = { '2': '²', '3': '³', '0.5': '^½' };

/** With its article; money has none. */
export function articled(name: string): string {
  if (name.startsWith('money')) return name;
  return `${/^[aeiou]/i.test(name) ? 'an' : 'a'} ${name}`;
}

function orList(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
