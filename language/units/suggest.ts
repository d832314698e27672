/** Units for a misspelt or a missing one. */

import { nearestAll } from '../words/nearest.ts';
import { generalKey } from './dimensions.ts';
import { KINDS } from './kinds.ts';
import { parseUnit } from './parse.ts';
import { WORDS } from './table.ts';
import type { QuantityKind, System, Unit } from './types.ts';

/**
 * Canonical units that a word may have been meant to be, likeliest first, at most three. With a kind, only units of
 * that kind, and if no word is near, those likely for it.
 */
export function suggestUnits(word: string, kind?: QuantityKind): readonly string[] {
  if (word.length > 64) return kind ? likelyUnits(kind, 'metric').slice(0, 3) : [];
  const compounds = Object.values(KINDS).flatMap(k => [...k.likely.metric, ...k.likely.us]);
  const candidates = [...WORDS.keys(), ...compounds].sort((a, b) => Number(isCode(a)) - Number(isCode(b)));
  const found = [...repairCompound(word), ...nearestAll(word, candidates, 12)];
  const units = found.map(parseUnit).filter(unit => unit !== undefined);
  const symbols = new Set(units.filter(unit => !kind || belongsTo(unit, kind)).map(unit => unit.symbol));
  if (symbols.size === 0 && kind) return likelyUnits(kind, 'metric').slice(0, 3);
  return [...symbols].slice(0, 3);
}

/** Units to offer where a bare number stands, likeliest first. */
export function likelyUnits(kind: QuantityKind, system: System): readonly string[] {
  return kind.likely[system];
}

/** Whether values in this unit may stand where the kind belongs. */
export function belongsTo(unit: Unit, kind: QuantityKind): boolean {
  if (kind.also && unit.dimension.key === kind.also.dimension.key) return true;
  return generalKey(unit.dimension) === generalKey(kind.dimension) && (unit.tag === kind.tag || unit.tag === 'none');
}

/** Codes of currencies look like much else that is misspelt, so they come last: `gmp` was hardly meant as GBP. */
function isCode(word: string): boolean {
  return /^[A-Z]{3}$/.test(word) && WORDS.get(word)?.[0]?.atom.dimension.key === `money:${word}:1`;
}

/** `l/M2`: each part mended by itself, if every part can be. */
function repairCompound(word: string): readonly string[] {
  const parts = word.split(/([/*·])/);
  if (parts.length < 3 || parts.length > 9) return [];
  const mended = parts.map(part => (/^[/*·]$/.test(part) || parseUnit(part) ? part : mendPart(part)));
  return mended.includes(undefined) ? [] : [mended.join('')];
}

function mendPart(part: string): string | undefined {
  const [, letters = '', power = ''] = /^(.*?)(\^?[23]|[²³])?$/.exec(part) ?? [];
  const [best] = nearestAll(letters, WORDS.keys(), 1);
  return best === undefined ? undefined : `${best}${power}`;
}
