/** Areas of station lists: hand-worked cases, and unions against dense numerical integration. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  area,
  areaBetween,
  areaOfCells,
  areaOutside,
  bandsAt,
  clipChainage,
  extentOf,
  fromOtherEnd,
  mergedCells,
  overlapArea,
  rectangle,
  type StationList,
  stationsFromDistances,
  unionArea,
  widthAt,
} from '../../../language/formulas/geometry.ts';

const touchdown = stationsFromDistances([
  { s: 150, left: 9, right: 9 },
  { s: 300, left: 11, right: 11 },
  { s: 750, left: 8, right: 9 },
]);

describe('one deposit', () => {
  it('is a sum of trapezoids', () => {
    expect(area(touchdown)).toBeCloseTo((150 * (18 + 22)) / 2 + (450 * (22 + 17)) / 2, 9);
    expect(widthAt([touchdown], 300)).toBeCloseTo(22, 12);
    expect(widthAt([touchdown], 225)).toBeCloseTo(20, 12);
    expect(widthAt([touchdown], 100)).toBe(0);
    expect(extentOf([touchdown])).toEqual({ from: 150, to: 750, left: -11, right: 11 });
  });
  it('may lie on one side of the centreline, and may step', () => {
    const stepped: StationList = [
      { s: 0, left: 2, right: 5 },
      { s: 100, left: 2, right: 5 },
      { s: 100, left: 2, right: 9 },
      { s: 150, left: 2, right: 9 },
    ];
    expect(area(stepped)).toBeCloseTo(300 + 350, 12);
    expect(widthAt([stepped], 100)).toBeCloseTo(7, 12);
  });
  it('has no area where its edges have crossed', () => {
    const crossed: StationList = [
      { s: 0, left: 0, right: 4 },
      { s: 100, left: 0, right: -4 },
    ];
    expect(area(crossed)).toBeCloseTo(100, 9);
  });
  it('ignores what is not a number, and what goes backward', () => {
    expect(area([{ s: 0, left: -1, right: 1 }])).toBe(0);
    expect(area([])).toBe(0);
    expect(area([...rectangle(0, 10, -1, 1), { s: Number.NaN, left: 0, right: 1 }])).toBeCloseTo(20, 12);
    expect(area([...rectangle(0, 10, -1, 1), { s: 5, left: -9, right: 9 }])).toBeCloseTo(20, 12);
    expect(extentOf([[]])).toBeUndefined();
  });
});

describe('several deposits', () => {
  it('count once where they overlap', () => {
    const a = rectangle(0, 100, -10, 10);
    const b = rectangle(50, 150, 0, 20);
    expect(unionArea([a, b])).toBeCloseTo(2000 + 2000 - 500, 9);
    expect(overlapArea([a], [b])).toBeCloseTo(500, 9);
    expect(areaOutside([a], [b])).toBeCloseTo(1500, 9);
    expect(areaBetween([a, b], 25, 75)).toBeCloseTo(25 * 20 + 25 * 30, 9);
    expect(bandsAt([a, b], 75)).toEqual([{ left: -10, right: 20 }]);
    expect(bandsAt([rectangle(0, 9, -5, -3), rectangle(0, 9, 3, 5)], 4)).toEqual([
      { left: -5, right: -3 },
      { left: 3, right: 5 },
    ]);
  });
  it('are cut where their edges cross', () => {
    // Two wedges that cross in the middle: together a bow tie's hull, worked by hand.
    const up: StationList = [
      { s: 0, left: 0, right: 2 },
      { s: 100, left: 8, right: 10 },
    ];
    const down: StationList = [
      { s: 0, left: 8, right: 10 },
      { s: 100, left: 0, right: 2 },
    ];
    // Each is 200 m2; they overlap in a rhombus 25 m long and 2 m high.
    expect(unionArea([up, down])).toBeCloseTo(400 - 25, 9);
  });
});

const station = fc.tuple(
  fc.double({ min: 0, max: 40, noNaN: true }),
  fc.double({ min: -20, max: 20, noNaN: true }),
  fc.double({ min: 0, max: 15, noNaN: true }),
);
const deposit = fc
  .tuple(fc.double({ min: 0, max: 100, noNaN: true }), fc.array(station, { minLength: 2, maxLength: 5 }))
  .map(([start, steps]): StationList => {
    let s = start;
    return steps.map(([advance, left, width]) => {
      s += advance;
      return { s, left, right: left + width };
    });
  });
const deposits = fc.array(deposit, { minLength: 1, maxLength: 5 });

/** Area by the midpoint rule on a dense raster of chainages; width straight from the stations, without our merge. */
function denseArea(lists: readonly StationList[], steps: number): { area: number; error: number } {
  const ends = lists.flat().map(({ s }) => s);
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const step = (to - from) / steps;
  let sum = 0;
  let last: number | undefined;
  let variation = 0;
  for (let i = 0; i < steps; i++) {
    const width = denseWidth(lists, from + (i + 0.5) * step);
    sum += width * step;
    variation += Math.abs(width - (last ?? width));
    last = width;
  }
  // A midpoint sum of a function of bounded variation is off by at most step times its variation.
  return { area: sum, error: step * (variation + 60) };
}

function denseWidth(lists: readonly StationList[], s: number): number {
  const bands: [number, number][] = [];
  for (const list of lists) {
    for (let i = 0; i + 1 < list.length; i++) {
      const [a, b] = [list[i]!, list[i + 1]!];
      if (!(a.s <= s && s < b.s)) continue;
      const share = (s - a.s) / (b.s - a.s);
      bands.push([a.left + share * (b.left - a.left), a.right + share * (b.right - a.right)]);
    }
  }
  bands.sort((a, b) => a[0] - b[0]);
  let width = 0;
  let reach = Number.NEGATIVE_INFINITY;
  for (const [left, right] of bands) {
    width += Math.max(0, right - Math.max(left, reach));
    reach = Math.max(reach, right);
  }
  return width;
}

describe('unions of random deposits', () => {
  it('have the area of a dense numerical integration', () => {
    fc.assert(
      fc.property(deposits, lists => {
        const dense = denseArea(lists, 4000);
        expect(Math.abs(unionArea(lists) - dense.area)).toBeLessThanOrEqual(dense.error + 1e-9);
      }),
      { numRuns: 300 },
    );
  });
  it('are cells that do not overlap, wide or narrow, in order', () => {
    fc.assert(
      fc.property(deposits, lists => {
        const cells = mergedCells(lists);
        for (const [i, cell] of cells.entries()) {
          expect(cell.to).toBeGreaterThan(cell.from);
          const next = cells[i + 1];
          if (!next) continue;
          const beside = next.from === cell.from;
          if (!beside) expect(next.from).toBeGreaterThanOrEqual(cell.to);
          else expect(next.leftFrom + next.leftTo).toBeGreaterThanOrEqual(cell.rightFrom + cell.rightTo - 1e-9);
        }
        expect(areaOfCells(cells)).toBeCloseTo(unionArea(lists), 9);
      }),
    );
  });
  it('keep their area seen from the other end, in any order, split, and given twice', () => {
    fc.assert(
      fc.property(deposits, fc.double({ min: 0, max: 300, noNaN: true }), (lists, cut) => {
        const whole = unionArea(lists);
        const close = (other: number) => expect(Math.abs(other - whole)).toBeLessThan(1e-7);
        close(unionArea(lists.map(list => fromOtherEnd(list, 3000))));
        close(unionArea(lists.toReversed()));
        close(unionArea([...lists, ...lists]));
        close(unionArea(lists.flatMap(list => [clipChainage(list, -1e9, cut), clipChainage(list, cut, 1e9)])));
        close(areaBetween(lists, -1e9, cut) + areaBetween(lists, cut, 1e9));
      }),
    );
  });
  it('are no smaller than the largest and no larger than the sum', () => {
    fc.assert(
      fc.property(deposits, lists => {
        const areas = lists.map(area);
        const whole = unionArea(lists);
        expect(whole).toBeGreaterThanOrEqual(Math.max(...areas) - 1e-7);
        expect(whole).toBeLessThanOrEqual(areas.reduce((sum, each) => sum + each, 0) + 1e-7);
      }),
    );
  });
  it('and an exclusion share out the whole', () => {
    fc.assert(
      fc.property(deposits, deposits, (lists, others) => {
        const shared = overlapArea(lists, others) + areaOutside(lists, others);
        expect(Math.abs(shared - unionArea(lists))).toBeLessThan(1e-7);
      }),
    );
  });
  it('never throw, whatever the numbers', () => {
    const wild = fc.array(
      fc.array(fc.record({ s: fc.double(), left: fc.double(), right: fc.double() }), { maxLength: 6 }),
      {
        maxLength: 4,
      },
    );
    fc.assert(
      fc.property(wild, lists => {
        expect(typeof unionArea(lists)).toBe('number');
        mergedCells(lists);
        extentOf(lists);
      }),
    );
  });
});
