import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Slab } from '../../../language/exposure/deposit.ts';
import { areaOf, extentOf, mergeSlabs, rectangle, slabsOf } from '../../../language/exposure/deposit.ts';

/** Is a point under any of the slabs? */
function under(slabs: readonly Slab[], s: number, t: number): number {
  return slabs.filter(slab => {
    if (s < slab.s[0] || s > slab.s[1]) return false;
    const f = (s - slab.s[0]) / (slab.s[1] - slab.s[0]);
    const left = slab.left[0] + f * (slab.left[1] - slab.left[0]);
    const right = slab.right[0] + f * (slab.right[1] - slab.right[0]);
    return t >= left && t <= right;
  }).length;
}

const slabArb: fc.Arbitrary<Slab> = fc
  .tuple(
    fc.integer({ min: 0, max: 80 }),
    fc.integer({ min: 1, max: 60 }),
    fc.tuple(fc.integer({ min: -12, max: 8 }), fc.integer({ min: -12, max: 8 })),
    fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 })),
  )
  .filter(([, , , width]) => width[0] + width[1] > 0)
  .map(([s, length, left, width]) => ({
    s: [s, s + length],
    left,
    right: [left[0] + width[0], left[1] + width[1]],
  }));

describe('deposits', () => {
  it('a station list is an exact sum of trapezoids (the sketch of the language: 9, 11, 9 m)', () => {
    const slabs = slabsOf([
      { s: 150, left: 9, right: 9 },
      { s: 300, left: 11, right: 11 },
      { s: 750, left: 8, right: 9 },
    ]);
    // (18 + 22)/2 · 150 + (22 + 17)/2 · 450
    expect(areaOf(slabs)).toBe(11_775);
    expect(extentOf(slabs)).toEqual({ s: [150, 750], t: [-11, 11] });
    expect(
      areaOf(
        slabsOf(
          [
            { s: 150, left: 9, right: 9 },
            { s: 300, left: 11, right: 11 },
          ],
          [200, 250],
        ),
      ),
    ).toBeCloseTo((19.3333333333 + 20.6666666667) * 25, 6);
  });

  it('bays of a deposit add up to it', () => {
    const stations = [
      { s: 150, left: 9, right: 9 },
      { s: 300, left: 11, right: 11 },
      { s: 750, left: 8, right: 9 },
    ];
    fc.assert(
      fc.property(fc.double({ min: 150, max: 750, noNaN: true }), s => {
        expect(areaOf(slabsOf(stations, [150, s])) + areaOf(slabsOf(stations, [s, 750]))).toBeCloseTo(11_775, 6);
      }),
    );
  });

  it('merged deposits hold the same ground, each point once (random slabs, point by point)', () => {
    fc.assert(
      fc.property(fc.array(slabArb, { minLength: 1, maxLength: 5 }), slabs => {
        const merged = mergeSlabs(slabs);
        for (let i = 0; i < 30; i++) {
          for (let j = 0; j < 30; j++) {
            const [s, t] = [0.037 + i * 4.71, -12.31 + j * 1.1113];
            expect(under(merged, s, t)).toBe(Math.min(1, under(slabs, s, t)));
          }
        }
        expect(areaOf(merged)).toBeLessThanOrEqual(areaOf(slabs) + 1e-6);
        expect(areaOf(mergeSlabs(merged))).toBeCloseTo(areaOf(merged), 6);
      }),
      { numRuns: 200 },
    );
  });

  it('half overlapping rectangles count once', () => {
    expect(mergeSlabs([...rectangle([0, 100], [-5, 5]), ...rectangle([50, 150], [-5, 5])])).toEqual(
      rectangle([0, 150], [-5, 5]),
    );
    expect(areaOf(mergeSlabs([...rectangle([0, 100], [-5, 5]), ...rectangle([50, 150], [0, 10])]))).toBe(1750);
  });
});
