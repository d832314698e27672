/**
 * The figures and letters of a runway designation, as painted: 9 m tall, in straight strokes. The height is published
 * (MOS 139, handbook 4.3 [V2]); width (3 m) and strokes (0.9 m) are from memory, near enough for a drawing.
 * Points are [across to the right, up in the direction of landing], metres; several loops are filled even-odd.
 */
type Loop = readonly (readonly [number, number])[];

const six: readonly Loop[] = [
  [
    [0.7, 0],
    [2.3, 0],
    [3, 0.9],
    [3, 4.5],
    [2.3, 5.4],
    [0.9, 5.4],
    [0.9, 7.8],
    [1.05, 8.1],
    [1.95, 8.1],
    [2.1, 7.8],
    [2.1, 6.9],
    [3, 6.9],
    [3, 8.1],
    [2.3, 9],
    [0.7, 9],
    [0, 8.1],
    [0, 0.9],
  ],
  [
    [1.05, 0.9],
    [1.95, 0.9],
    [2.1, 1.2],
    [2.1, 4.2],
    [1.95, 4.5],
    [0.9, 4.5],
    [0.9, 1.2],
  ],
];

const glyphs: Readonly<Record<string, readonly Loop[]>> = {
  0: [
    [
      [0.7, 0],
      [2.3, 0],
      [3, 0.9],
      [3, 8.1],
      [2.3, 9],
      [0.7, 9],
      [0, 8.1],
      [0, 0.9],
    ],
    [
      [1.05, 0.9],
      [1.95, 0.9],
      [2.1, 1.2],
      [2.1, 7.8],
      [1.95, 8.1],
      [1.05, 8.1],
      [0.9, 7.8],
      [0.9, 1.2],
    ],
  ],
  1: [
    [
      [1.2, 0],
      [2.1, 0],
      [2.1, 9],
      [1.4, 9],
      [0.6, 7.7],
      [0.6, 6.6],
      [1.2, 7.3],
    ],
  ],
  2: [
    [
      [0, 0],
      [3, 0],
      [3, 0.9],
      [1.15, 0.9],
      [2.85, 4.3],
      [3, 5.2],
      [3, 8.1],
      [2.3, 9],
      [0.7, 9],
      [0, 8.1],
      [0, 6.6],
      [0.9, 6.6],
      [0.9, 7.8],
      [1.05, 8.1],
      [1.95, 8.1],
      [2.1, 7.8],
      [2.1, 5.3],
      [0, 1],
    ],
  ],
  3: [
    [
      [0.7, 0],
      [2.3, 0],
      [3, 0.9],
      [3, 4],
      [2.65, 4.6],
      [3, 5.2],
      [3, 8.1],
      [2.3, 9],
      [0.7, 9],
      [0, 8.1],
      [0, 6.6],
      [0.9, 6.6],
      [0.9, 7.8],
      [1.05, 8.1],
      [1.95, 8.1],
      [2.1, 7.8],
      [2.1, 5.4],
      [1.85, 5.05],
      [1.1, 5.05],
      [1.1, 4.15],
      [1.85, 4.15],
      [2.1, 3.8],
      [2.1, 1.2],
      [1.95, 0.9],
      [1.05, 0.9],
      [0.9, 1.2],
      [0.9, 2.4],
      [0, 2.4],
      [0, 0.9],
    ],
  ],
  4: [
    [
      [1.85, 0],
      [2.65, 0],
      [2.65, 2],
      [3, 2],
      [3, 2.9],
      [2.65, 2.9],
      [2.65, 9],
      [1.7, 9],
      [0, 3],
      [0, 2],
      [1.85, 2],
    ],
    [
      [0.95, 2.9],
      [1.85, 2.9],
      [1.85, 6.2],
    ],
  ],
  5: [
    [
      [0.7, 0],
      [2.3, 0],
      [3, 0.9],
      [3, 4.6],
      [2.3, 5.5],
      [0.9, 5.5],
      [0.9, 8.1],
      [2.8, 8.1],
      [2.8, 9],
      [0, 9],
      [0, 4.6],
      [1.95, 4.6],
      [2.1, 4.3],
      [2.1, 1.2],
      [1.95, 0.9],
      [1.05, 0.9],
      [0.9, 1.2],
      [0.9, 2.4],
      [0, 2.4],
      [0, 0.9],
    ],
  ],
  6: six,
  7: [
    [
      [0.6, 0],
      [1.55, 0],
      [3, 7.2],
      [3, 9],
      [0, 9],
      [0, 8.1],
      [2.15, 8.1],
    ],
  ],
  8: [
    [
      [0.7, 0],
      [2.3, 0],
      [3, 0.9],
      [3, 4],
      [2.65, 4.6],
      [3, 5.2],
      [3, 8.1],
      [2.3, 9],
      [0.7, 9],
      [0, 8.1],
      [0, 5.2],
      [0.35, 4.6],
      [0, 4],
      [0, 0.9],
    ],
    [
      [1.05, 0.9],
      [1.95, 0.9],
      [2.1, 1.2],
      [2.1, 3.8],
      [1.85, 4.15],
      [1.15, 4.15],
      [0.9, 3.8],
      [0.9, 1.2],
    ],
    [
      [1.15, 5.05],
      [1.85, 5.05],
      [2.1, 5.4],
      [2.1, 7.8],
      [1.95, 8.1],
      [1.05, 8.1],
      [0.9, 7.8],
      [0.9, 5.4],
    ],
  ],
  9: six.map(loop => loop.map(([u, v]) => [3 - u, 9 - v] as const)),
  L: [
    [
      [0, 0],
      [3, 0],
      [3, 0.9],
      [0.9, 0.9],
      [0.9, 9],
      [0, 9],
    ],
  ],
  C: [
    [
      [0.7, 0],
      [2.3, 0],
      [3, 0.9],
      [3, 2.4],
      [2.1, 2.4],
      [2.1, 1.2],
      [1.95, 0.9],
      [1.05, 0.9],
      [0.9, 1.2],
      [0.9, 7.8],
      [1.05, 8.1],
      [1.95, 8.1],
      [2.1, 7.8],
      [2.1, 6.6],
      [3, 6.6],
      [3, 8.1],
      [2.3, 9],
      [0.7, 9],
      [0, 8.1],
      [0, 0.9],
    ],
  ],
  R: [
    [
      [0, 0],
      [0.9, 0],
      [0.9, 4],
      [1.3, 4],
      [2.1, 0],
      [3, 0],
      [2.15, 4.2],
      [3, 5.1],
      [3, 8.1],
      [2.3, 9],
      [0, 9],
    ],
    [
      [0.9, 4.9],
      [1.95, 4.9],
      [2.1, 5.2],
      [2.1, 7.8],
      [1.95, 8.1],
      [0.9, 8.1],
    ],
  ],
};

/** Height of figures and letters, width of one, gap between two, m. */
export const glyphHeight = 9;
const glyphWidth = 3;
const glyphGap = 1.5;
/** Between the figures and the letter below them, m. */
const lineGap = 6;

/** Loops of a designation such as `04` or `27L`, centred across, its lower edge at 0; figures above their letter. */
export function designationLoops(designation: string): { readonly loops: readonly Loop[]; readonly height: number } {
  const letters = designation.replace(/[^LCR]/g, '');
  const figures = designation.replace(/\D/g, '');
  const rows = [figures, letters].filter(row => row !== '');
  const height = rows.length * glyphHeight + Math.max(0, rows.length - 1) * lineGap;
  const loops = rows.flatMap((row, r) => {
    const base = (rows.length - 1 - r) * (glyphHeight + lineGap);
    const width = row.length * glyphWidth + (row.length - 1) * glyphGap;
    return [...row].flatMap((letter, i) => {
      const left = -width / 2 + i * (glyphWidth + glyphGap);
      return (glyphs[letter] ?? []).map(loop => loop.map(([u, v]) => [left + u, base + v] as const));
    });
  });
  return { loops, height };
}
