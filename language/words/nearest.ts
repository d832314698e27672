/**
 * Did you mean: the words among some that a misspelt one is nearest to.
 *
 * Nearness is the optimal-string-alignment distance (Damerau 1964, Levenshtein 1966): letters missing, added, changed,
 * or two neighbours swapped. Case, hyphens and blanks count little, because that is what people get wrong without
 * misspelling.
 */

/** The nearest word, if any is near enough to be what was meant. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  return nearestAll(word, candidates, 1)[0];
}

/** All words near enough, nearest first (then in the order given), at most `limit`. */
export function nearestAll(word: string, candidates: Iterable<string>, limit = 3): readonly string[] {
  if (word.length === 0 || word.length > LONGEST) return [];
  const plain = simplify(word);
  const allowed = tolerance(plain.length);
  const found: { readonly candidate: string; readonly distance: number }[] = [];
  for (const candidate of new Set(candidates)) {
    if (candidate === word || candidate.length > LONGEST) continue;
    const other = simplify(candidate);
    if (Math.abs(other.length - plain.length) > allowed) continue;
    const distance = plain === other ? 0 : editDistance(plain, other);
    if (distance <= allowed) found.push({ candidate, distance });
  }
  return found
    .sort((a, b) => a.distance - b.distance)
    .slice(0, limit)
    .map(({ candidate }) => candidate);
}

/** Least number of letters to add, drop, change or swap with a neighbour, to make one word of the other. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const current = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min((previous[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (before[j - 2] ?? 0) + 1);
      current.push(best);
    }
    before = previous;
    previous = current;
  }
  return previous[b.length] ?? 0;
}

/** No word of the language is longer; longer input is no misspelling and must not cost time. */
const LONGEST = 64;

/** One error in short words, two from six letters, three from ten; none in words of two, where all look alike. */
function tolerance(length: number): number {
  return length <= 2 ? 0 : length <= 5 ? 1 : length <= 9 ? 2 : 3;
}

function simplify(word: string): string {
  return word.toLowerCase().replace(/[-_ ]/g, '');
}
