/**
 * Reading units: as whole texts (`parseUnit`) and in the lexer, right after a number (`matchUnit`).
 *
 * Both use one scanner, so what the lexer takes for a unit is exactly what can be read. It is greedy over `/ * ·` only
 * without blanks and only while the next word is a unit that ends there: `0.5 L/width` is 0.5 L divided by `width`.
 */

import { LENGTH, multiply, NUMBER, power as powerOf, sameDimension, TEMPERATURE, VOLUME } from './dimensions.ts';
import { mul, ONE, pow } from './rational.ts';
import { type Atom, atomOf, type Factor, SAME_AS, WORDS } from './table.ts';
import type { Dimension, Tag, Unit, UnitPart } from './types.ts';

/** The unit that this text is, all of it, in any spelling; undefined when it is none. */
export function parseUnit(text: string): Unit | undefined {
  const trimmed = text.trim();
  const scanned = scan(trimmed, 0);
  return scanned && scanned.end === trimmed.length ? unitOf(scanned.factors) : undefined;
}

/**
 * Length of the longest unit that starts at `offset`, 0 when none does.
 * A name that merely begins like a unit (`mix`, `h-2`), a member (`h.rate`) and a call (`min(`) are no units.
 */
export function matchUnit(text: string, offset: number): number {
  if (!STARTS.has(text.charCodeAt(offset))) return 0;
  const scanned = scan(text, offset);
  return scanned ? scanned.end - offset : 0;
}

/** Codes of all characters that a unit can start with: the hint that keeps the lexer fast. */
export function unitStartChars(): number[] {
  return [...STARTS];
}

// --- The scanner ---

interface Scanned {
  readonly factors: readonly Factor[];
  readonly end: number;
}

/** More factors than any unit has; keeps hostile text cheap. */
const MOST_FACTORS = 8;

function scan(text: string, start: number): Scanned | undefined {
  const first = scanWord(text, start);
  if (!first) return undefined;
  const factors = [...first.factors];
  let end = first.end;
  while (factors.length < MOST_FACTORS) {
    const sign = SIGNS.get(text.charCodeAt(end));
    if (sign === undefined) break;
    const next = (sign < 0 ? scanThousand(text, end + 1) : undefined) ?? scanWord(text, end + 1);
    if (!next) break;
    for (const factor of next.factors) factors.push({ atom: factor.atom, power: sign * factor.power });
    end = next.end;
  }
  return { factors, end };
}

/** One word with its power, such as `m2`, `ft³`, `sq ft`, `°C`. */
function scanWord(text: string, start: number): Scanned | undefined {
  let end = start;
  while (isWordChar(text.charCodeAt(end))) end += 1;
  if (end === start) return scanSign(text, start);
  const word = text.slice(start, end);
  if (LEADS.has(word)) {
    const pair = scanSecondWord(text, word, end);
    if (pair) return pair;
  }
  const factors = WORDS.get(word);
  return factors && scanPower(text, end, factors);
}

function scanSecondWord(text: string, first: string, end: number): Scanned | undefined {
  let start = end;
  while (isBlank(text.charCodeAt(start))) start += 1;
  if (start === end) return undefined;
  let stop = start;
  while (isWordChar(text.charCodeAt(stop))) stop += 1;
  const factors = WORDS.get(`${first} ${text.slice(start, stop)}`);
  return factors && scanPower(text, stop, factors);
}

/** A unit of one sign that is no letter, such as `%` and `€`: it may stand before anything but a name. */
function scanSign(text: string, start: number): Scanned | undefined {
  const factors = WORDS.get(text.charAt(start));
  return factors && !isNameChar(text.charCodeAt(start + 1)) ? { factors, end: start + 1 } : undefined;
}

/** `1000 ft2` in `gal/1000 ft2`: a number inside a unit, which can't be mistaken only right after the `/`. */
function scanThousand(text: string, start: number): Scanned | undefined {
  THOUSAND.lastIndex = start;
  const match = THOUSAND.exec(text);
  if (!match) return undefined;
  const area = scanWord(text, THOUSAND.lastIndex);
  const only = area?.factors.length === 1 ? area.factors[0] : undefined;
  const atom = only && atomOf(`${match[1]?.replace(',', '')} ${only.atom.symbol}${only.power}`);
  return area && atom ? { factors: [{ atom, power: 1 }], end: area.end } : undefined;
}
const THOUSAND = /(100|1,?000)[ \t\u00a0\u202f]?(?=[a-z])/y;

/** The power after a word, then the proof that the word ends there. */
function scanPower(text: string, start: number, factors: readonly Factor[]): Scanned | undefined {
  const only = factors.length === 1 ? factors[0] : undefined;
  const simple = only?.power === 1 && takesPower(only.atom);
  const code = text.charCodeAt(start);
  const caret = code === 0x5e ? 1 : 0;
  const exponent = simple ? (POWERS.get(caret ? text.charCodeAt(start + 1) : code) ?? 1) : 1;
  const end = exponent === 1 ? start : start + caret + 1;
  if (!endsAt(text, end)) {
    // `2 m^20` is the quantity 2 m to the power 20, so the unit may still end before the sign.
    return caret && endsAt(text, start) ? { factors, end: start } : undefined;
  }
  return { factors: exponent === 1 ? factors : factors.map(({ atom }) => ({ atom, power: exponent })), end };
}

function endsAt(text: string, end: number): boolean {
  const code = text.charCodeAt(end);
  if (isNameChar(code) || code === 0xb2 || code === 0xb3 || code === 0x28) return false;
  return !((code === 0x2d || code === 0x2e) && isNameChar(text.charCodeAt(end + 1)));
}

/** `/ * ·`, also the dot operator `⋅`. */
const SIGNS: ReadonlyMap<number, 1 | -1> = new Map([
  [0x2f, -1],
  [0x2a, 1],
  [0xb7, 1],
  [0x22c5, 1],
]);

const POWERS: ReadonlyMap<number, number> = new Map([
  [0x32, 2],
  [0x33, 3],
  [0xb2, 2],
  [0xb3, 3],
]);

/** First words of the spellings with a blank. */
const LEADS: ReadonlySet<string> = new Set(
  [...WORDS.keys()].filter(word => /^\D+ /.test(word)).map(word => word.slice(0, word.indexOf(' '))),
);

const STARTS: ReadonlySet<number> = new Set([...WORDS.keys()].map(w => w.charCodeAt(0)).filter(code => !isDigit(code)));

/** Letters, the degree sign, the micro signs and the deltas: what words of units are made of. */
function isWordChar(code: number): boolean {
  return (
    (code >= 0x61 && code <= 0x7a) ||
    (code >= 0x41 && code <= 0x5a) ||
    code === 0xb0 ||
    code === 0xb5 ||
    code === 0x3bc ||
    code === 0x394 ||
    code === 0x2206
  );
}

/** What a name may hold, hyphen aside: the same ranges as ID in the grammar. */
function isNameChar(code: number): boolean {
  return (
    (code >= 0x61 && code <= 0x7a) ||
    (code >= 0x41 && code <= 0x5a) ||
    isDigit(code) ||
    code === 0x5f ||
    (code >= 0xc0 && code <= 0x24f && code !== 0xd7 && code !== 0xf7)
  );
}

function isDigit(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

function isBlank(code: number): boolean {
  return code === 0x20 || code === 0x09 || code === 0xa0 || code === 0x202f;
}

// --- From factors to a unit ---

function unitOf(scanned: readonly Factor[]): Unit {
  const factors = own(merge(scanned));
  const single = factors.length === 1 && factors[0]?.power === 1 ? factors[0].atom : undefined;
  const dimension = factors.reduce((d, f) => multiply(d, powerOf(f.atom.dimension, f.power) ?? NUMBER), NUMBER);
  return {
    symbol: write(factors, part => part.symbol, '*'),
    shown: write(factors, showPart, '·'),
    factor: factors.reduce((r, f) => mul(r, pow(f.atom.factor, f.power)), ONE),
    ...(single?.offset && { offset: single.offset }),
    exact: factors.every(f => f.atom.exact),
    dimension,
    tag: tagOf(dimension, factors, single),
    ucum: ucum(factors, single),
    system: systemOf(factors),
    parts: factors.map(({ atom, power }): UnitPart => ({ symbol: atom.symbol, power })),
  };
}

/** `m*m` is m2; beyond the cube the factors stay apart, so that every symbol can be read again. */
function merge(factors: readonly Factor[]): readonly Factor[] {
  const merged: Factor[] = [];
  for (const factor of factors) {
    const i = merged.findIndex(m => m.atom === factor.atom && m.power * factor.power > 0);
    const sum = (merged[i]?.power ?? 0) + factor.power;
    if (i >= 0 && Math.abs(sum) <= 3 && takesPower(factor.atom)) merged[i] = { atom: factor.atom, power: sum };
    else merged.push(factor);
  }
  // The first factor stays in front; a divisor before a multiplier reads as well behind it.
  return [...merged.filter(f => f.power > 0), ...merged.filter(f => f.power < 0)];
}

/** Signs, scales of temperature and units of two words take no power. */
function takesPower(atom: Atom): boolean {
  return /^[A-Za-zµ]+$/.test(atom.symbol);
}

/** Where a product has a unit of its own, that unit. */
function own(factors: readonly Factor[]): readonly Factor[] {
  const same = SAME_AS.get(write(factors, part => part.symbol, '*'));
  const atom = same === undefined ? undefined : atomOf(same);
  return atom ? [{ atom, power: 1 }] : factors;
}

type Write = (atom: { symbol: string; power: number; atom: Atom }) => string;

function write(factors: readonly Factor[], name: Write, times: string): string {
  return factors
    .map(({ atom, power }, i) => {
      const raised = Math.abs(power);
      const sign = power < 0 ? '/' : i === 0 ? '' : times;
      const exponent = raised === 1 ? '' : times === '·' ? (raised === 2 ? '²' : '³') : `${raised}`;
      return `${sign}${name({ symbol: atom.symbol, power, atom })}${exponent}`;
    })
    .join('');
}

function showPart({ atom }: { atom: Atom }): string {
  return atom.shown ?? atom.symbol;
}

/** A scale in a compound counts differences: W/°C is W/K. */
function ucum(factors: readonly Factor[], single: Atom | undefined): string {
  if (single) return single.ucum.replace(/^\((.*)\)$/, '$1');
  return factors
    .map(({ atom, power }, i) => {
      const code = atom.offset ? (atom.symbol === '°C' ? 'K' : '[degR]') : atom.ucum;
      const raised = Math.abs(power);
      const compound = /[./]/.test(code) && !code.startsWith('(');
      const grouped = (raised > 1 && /[./(]/.test(code)) || (power < 0 && compound) ? `(${code})` : code;
      return `${power < 0 ? '/' : i === 0 ? '' : '.'}${grouped}${raised === 1 ? '' : raised}`;
    })
    .join('');
}

function tagOf(dimension: Dimension, factors: readonly Factor[], single: Atom | undefined): Tag {
  if (sameDimension(dimension, TEMPERATURE)) return single?.offset ? 'temperature' : 'difference';
  if (!sameDimension(dimension, LENGTH)) return 'none';
  if (single) return 'length';
  const hasVolume = factors.some(
    f => f.power > 0 && sameDimension(powerOf(f.atom.dimension, f.power) ?? NUMBER, VOLUME),
  );
  return hasVolume ? 'rate' : 'none';
}

/** The acre and the foot are imperial too, so one imperial gallon makes the unit imperial. */
function systemOf(factors: readonly Factor[]): Unit['system'] {
  const systems = new Set(factors.map(f => f.atom.system).filter(s => s !== 'both'));
  if (systems.has('imperial') && !systems.has('metric')) return 'imperial';
  return systems.size === 1 ? ([...systems][0] ?? 'both') : 'both';
}
