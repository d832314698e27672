/** Short names for narrow pictures, made from the author's own: `Broom1` → `B1`, `RinseBroom` → `RB`. Each stands for one. */

/** Codes of machines, in order; no two are alike. */
export function machineCodes(names: readonly string[]): readonly string[] {
  return distinct(names, name => {
    const { letters, number, word } = partsOf(name);
    return [letters + number, word.slice(0, 2) + number, word.slice(0, 3) + number, name];
  });
}

/** Codes of works; '' where there is one only. */
export function workCodes(names: readonly string[]): readonly string[] {
  if (names.length < 2) return names.map(() => '');
  return distinct(names, name => [name.slice(0, 1), name.slice(0, 2), name.slice(0, 3), name]);
}

function partsOf(name: string): { letters: string; number: string; word: string } {
  const number = /\d+(?=\D*$)/.exec(name)?.[0] ?? '';
  const word = name.replace(/\W|\d/g, '');
  const capitals = word.replace(/[^\p{Lu}]/gu, '');
  const letters = (capitals.length > 1 ? capitals.slice(0, 2) : word.slice(0, 1).toUpperCase()) || name;
  return { letters, number, word };
}

/** The first proposal that only one name makes; all names that share a proposal move on to their next together. */
function distinct(names: readonly string[], propose: (name: string) => readonly string[]): readonly string[] {
  const proposals = names.map(propose);
  const depth = names.map(() => 0);
  const codeAt = (i: number): string => proposals[i]![Math.min(depth[i]!, proposals[i]!.length - 1)]!;
  for (let round = 0; round < 4; round++) {
    const codes = names.map((_, i) => codeAt(i));
    codes.forEach((code, i) => {
      if (codes.some((other, k) => k !== i && other === code)) depth[i]!++;
    });
  }
  return names.map((_, i) => codeAt(i));
}
