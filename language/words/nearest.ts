/** Did-you-mean: the word among some that a misspelt one is nearest to. */
export declare function nearest(word: string, candidates: Iterable<string>): string | undefined;
/** All that are near enough, nearest first, at most `limit` (3). */
export declare function nearestAll(word: string, candidates: Iterable<string>, limit?: number): readonly string[];
