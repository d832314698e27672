/** Which words of a property are plain words and which name other blocks; the scopes of the grammar ask this. */
import type { PhraseName, ValueType } from './define.ts';
import { kinds, propertyOf, topKindWords } from './index.ts';
import { plantKinds } from './plant.ts';

/** Words with a fixed meaning in values of their own wording. */
const phraseWords: Readonly<Record<PhraseName, ReadonlySet<string> | 'all'>> = {
  rate: new Set(['of', 'mix', 'product', 'water']),
  dilution: 'all',
  fromEnd: new Set(['from']),
  advance: new Set(['half', 'of', 'swept', 'nominal']),
  hours: 'all',
  times: new Set(['about', 'at', 'most']),
  bays: new Set(['auto']),
  position: new Set(),
  clock: new Set(),
  tandem: new Set(['same', 'next', 'lane', 'apart']),
  currency: 'all',
};

/** True for a word that never refers to a block: `heavy`, the `of` and `mix` of a rate. Rename leaves it alone. */
export function isPlainWord(kind: string | undefined, property: string, word: string): boolean {
  const type = typeOf(kind, property);
  if (!type) return false;
  switch (type.is) {
    case 'words':
    case 'flag':
    case 'text':
    case 'date':
    case 'table':
      return true;
    case 'machines':
      return word === 'of';
    case 'names':
    case 'call':
      return false;
    case 'quantity':
      return false;
    case 'range':
      return word === 'to' || word === 'at' || word === 'least' || word === 'most';
    default: {
      const fixed = phraseWords[type.is];
      return fixed === 'all' || fixed.has(word);
    }
  }
}

/** The kinds of block that a property wants the name of; undefined where it wants none in particular. */
export function kindsFor(kind: string | undefined, property: string): readonly string[] | undefined {
  const type = typeOf(kind, property);
  if (type?.is === 'names' || type?.is === 'call') return type.kinds;
  if (type?.is === 'machines') return plantKinds;
  if (type?.is === 'fromEnd') return ['runway'];
  return undefined;
}

export const nameRules = { isPlainWord, kindsFor, topLevelKinds: topKindWords };

function typeOf(kind: string | undefined, property: string): ValueType | undefined {
  const known = kind === undefined ? undefined : kinds.get(kind);
  return known && propertyOf(known, property)?.property.type;
}
