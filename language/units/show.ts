/**
 * Showing values to people: `6 912 L`, `0.35 L/m²`, `11.3 km/h`, `35 °C`, `1 h 23 min`.
 *
 * Digits are cut for reading, never for computing. Whole digits are never dropped (6 912 L stays 6 912 L), trailing
 * zeros always are, except the cents of a sum of money.
 */

import { fromSi } from './convert.ts';
import { sameDimension, TIME } from './dimensions.ts';
import { kindOf } from './kinds.ts';
import { isSame, magnitudeName } from './magnitude.ts';
import { parseUnit } from './parse.ts';
import type { Dimension, Magnitude, QuantityKind, System, Unit } from './types.ts';

/** Between groups of three digits, and before a unit: a plain blank, which a terminal and a test can trust. */
export const GROUP_SPACE = ' ';

export interface ShowOptions {
  /** Significant digits instead of the kind's own. */
  readonly digits?: number;
  /** Code of the currency that a kind of money is in. */
  readonly currency?: string;
  /** No-break blanks and a true minus sign, for documents and the preview. */
  readonly typographic?: boolean;
}

/** A value in SI as a reader of this system of units wants it. */
export function show(si: number, kind: QuantityKind | Dimension, system: System, options: ShowOptions = {}): string {
  if ('key' in kind) return showMagnitude({ si, dimension: kind, tag: 'none' }, system, undefined, options);
  return finish(write(si, kind, system, options), options);
}

/** A magnitude, as its kind or else by its dimension; money in its own currency. */
export function showMagnitude(m: Magnitude, system: System, kind = kindOf(m), options: ShowOptions = {}): string {
  const currency = options.currency ?? currencyOf(m.dimension);
  if (kind) return show(m.si, kind, system, { ...options, ...(currency && { currency }) });
  const text = `${formatNumber(m.si, options.digits ?? 4)} ${composedUnit(m.dimension) || magnitudeName(m)}`;
  return finish(text, options);
}

/** A value in SI in the given unit: `0.01 gal/ft²`. Four significant digits unless told otherwise. */
export function showIn(si: number, unit: Unit, options: ShowOptions = {}): string {
  return finish(joinUnit(formatNumber(fromSi(si, unit), options.digits ?? 4), unit.shown), options);
}

/**
 * A value and its limit side by side, with digits enough that they look equal only when they are (to 1e-9).
 * A sign that says 'too much' beside two equal numbers is a contradiction.
 */
export function showBeside(
  si: number,
  limit: number,
  kind: QuantityKind | Dimension,
  system: System,
  options: ShowOptions = {},
): readonly [string, string] {
  const most = 12;
  const first = options.digits ?? ('digits' in kind ? kind.digits : 4);
  for (let digits = first; digits <= most; digits += 1) {
    const pair = [si, limit].map(value => show(value, kind, system, { ...options, digits }));
    const [left = '', right = ''] = pair;
    if (left !== right || isSame(si, limit)) return [left, right];
  }
  return [show(si, kind, system, { ...options, digits: 17 }), show(limit, kind, system, { ...options, digits: 17 })];
}

/**
 * A number with `digits` significant digits, whole digits kept, groups of three parted by a blank.
 * Very large and very small ones as 1.2e+21; NaN and the infinities as words.
 */
export function formatNumber(value: number, digits: number): string {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? 'not a number' : value > 0 ? 'infinite' : '-infinite';
  const size = Math.abs(value);
  if (size === 0) return '0';
  if (size >= 1e15 || size < 1e-9) return value.toExponential(Math.max(0, digits - 1)).replace(/\.?0+e/, 'e');
  const decimals = Math.min(20, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));
  return group(trimZeros(value.toFixed(decimals)));
}

// --- Details ---

function write(si: number, kind: QuantityKind, system: System, options: ShowOptions): string {
  const digits = options.digits ?? kind.digits;
  if (sameDimension(kind.dimension, TIME)) return showTime(si, options.digits);
  const steps = kind.shown[system];
  const step = steps.find(({ below }) => Math.abs(si) < below) ?? steps.at(-1);
  if (!step) return formatNumber(si, digits);
  // Nothing is zero metres rather than zero millimetres.
  const unit = (si === 0 ? kind[system] : undefined) ?? step.unit;
  const currency = options.currency ?? '¤';
  const value = fromSi(si, unit);
  const isMoney = unit.symbol === '¤';
  const number = isMoney && options.digits === undefined ? formatMoney(value) : formatNumber(value, digits);
  return joinUnit(number, unit.shown.replace('¤', currency));
}

/** Cents below 10 000, whole units above. */
function formatMoney(value: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e15) return formatNumber(value, 4);
  return group(Math.abs(value) < 10_000 && !Number.isInteger(value) ? value.toFixed(2) : value.toFixed(0));
}

/**
 * Seconds as crews say them: `35 s`, `12 min 30 s`, `45 min`, `1 h 23 min`, `14 d`. Whole seconds below an hour, whole
 * minutes above, unless more `digits` are asked for: then hours, minutes and seconds.
 */
function showTime(seconds: number, digits: number | undefined): string {
  if (!Number.isFinite(seconds) || Math.abs(seconds) >= 1e12) return `${formatNumber(seconds, digits ?? 4)} s`;
  if (seconds < 0) return `-${showTime(-seconds, digits)}`;
  if (seconds < 59.5) return `${formatNumber(seconds, digits ?? 3)} s`;
  if (seconds % DAY === 0 && seconds >= 2 * DAY) return `${group(String(seconds / DAY))} d`;
  const fine = digits !== undefined && digits > 4;
  const decimals = fine ? Math.min(12, digits - 5) : 0;
  const step = seconds < HOUR - 0.5 || fine ? 10 ** -decimals : 60;
  const rounded = Math.round(seconds / step) * step;
  const hours = Math.floor(rounded / HOUR);
  const minutes = Math.floor((rounded - hours * HOUR) / 60);
  const rest = trimZeros((rounded - hours * HOUR - minutes * 60).toFixed(decimals));
  const parts = [hours > 0 ? `${group(String(hours))} h` : '', minutes > 0 ? `${minutes} min` : ''];
  return [...parts, rest === '0' ? '' : `${rest} s`].filter(part => part !== '').join(' ');
}
const HOUR = 3600;
const DAY = 86_400;

/** `5 %` and `35 °C` with a blank, an angle in degrees without: 30°. */
function joinUnit(number: string, unit: string): string {
  return unit === '°' ? `${number}${unit}` : `${number} ${unit}`;
}

function finish(text: string, options: ShowOptions): string {
  if (!options.typographic) return text;
  return text
    .replace(/(?<=\d) (?=\d{3}(?!\d))/g, '\u202f')
    .replace(/ /g, '\u00a0')
    .replace(/^-/, '\u2212');
}

function trimZeros(text: string): string {
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return trimmed === '-0' ? '0' : trimmed;
}

/** Parts the whole digits in threes. */
function group(text: string): string {
  const [whole = '', decimals] = text.split('.');
  const grouped = whole.replace(/(?<=\d)(?=(\d{3})+$)/g, GROUP_SPACE);
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
}

/** The SI unit of a dimension that no kind names: `kg·m²/s`. */
function composedUnit(dimension: Dimension): string {
  const raised = (base: string, e: number) => {
    const symbol = SI_SYMBOLS[base] ?? base.replace(/^money:/, '');
    return e === 1 ? symbol : (parseUnit(`${symbol}^${e}`)?.shown ?? `${symbol}^${e}`);
  };
  const above = dimension.powers.filter(([, e]) => e > 0).map(([base, e]) => raised(base, e));
  const below = dimension.powers.filter(([, e]) => e < 0).map(([base, e]) => raised(base, -e));
  if (above.length === 0 && below.length === 0) return '';
  return [above.join('·') || '1', ...below].join('/');
}
const SI_SYMBOLS: Readonly<Record<string, string>> = {
  length: 'm',
  mass: 'kg',
  time: 's',
  temperature: 'K',
  angle: 'rev',
  money: '¤',
};

function currencyOf(dimension: Dimension): string | undefined {
  for (const [base] of dimension.powers) if (base.startsWith('money:')) return base.slice(6);
  return undefined;
}
