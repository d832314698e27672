/** Units for a misspelt or missing one. */
import type { QuantityKind, System } from './types.ts';
/** Canonical units that `word` may have been meant to be, likeliest first, at most three; of the kind if one is given. */
export declare function suggestUnits(word: string, kind?: QuantityKind): readonly string[];
/** Units to offer where a bare number stands, likeliest first. */
export declare function likelyUnits(kind: QuantityKind, system: System): readonly string[];
