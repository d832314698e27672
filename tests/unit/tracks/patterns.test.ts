import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  advanceOf,
  circuitOffsets,
  interiorContacts,
  lanesFromCentreline,
  lanesNeeded,
  lanesSideBySide,
  sweptWidth,
} from '../../../language/tracks/lanes.ts';
import {
  circuitPattern,
  oneWayPattern,
  rinsePattern,
  sideBySidePattern,
  sprayPattern,
} from '../../../language/tracks/patterns.ts';
import type { Leg } from '../../../language/tracks/track.ts';
import { headingOf } from '../../../language/tracks/track.ts';

const degree = Math.PI / 180;
const bay = [100, 400] as const;

/** How many bands cover an offset. */
function over(bands: readonly (readonly [number, number])[], t: number): number {
  return bands.filter(([a, b]) => a <= t && t <= b).length;
}

const bandsOf = (legs: readonly Leg[]) => legs.map(leg => leg.band);

describe('widths and advances', () => {
  it('swept width of a 2.4 m broom (handbook B1 [D]; 30° is test vector B-1)', () => {
    for (const [angle, width] of [
      [15, 2.318],
      [20, 2.255],
      [25, 2.175],
      [30, 2.078],
      [35, 1.966],
      [40, 1.839],
      [45, 1.697],
    ] as const) {
      expect(sweptWidth(2.4, angle * degree)).toBeCloseTo(width, 3);
    }
    expect(sweptWidth(2.4, 30 * degree)).toBeCloseTo(2.07846, 5);
  });

  it('passes to cover 24 m: 14 with 2.07846 m and 0.3 m overlap (handbook B2, test vector B-2 [D])', () => {
    expect(lanesNeeded(24, 2.07846, 0.3)).toBe(14);
    expect(lanesNeeded(24, 6, 0)).toBe(4);
    expect(lanesNeeded(2, 6, 0.5)).toBe(1);
  });

  it('half of the nominal width at 30° leaves 42 % overlap, and over a quarter of the inside with one contact', () => {
    const swept = sweptWidth(2.4, 30 * degree);
    const inside = interiorContacts(swept, advanceOf('half nominal', 2.4, 30 * degree));
    expect(inside.overlap).toBeCloseTo(0.42, 2);
    expect(inside.fewest).toBe(1);
    expect(inside.share).toBeGreaterThan(0.25);
    expect(inside.share).toBeCloseTo(0.268, 3);
    expect(interiorContacts(swept, advanceOf('half swept', 2.4, 30 * degree))).toEqual({
      overlap: 0.5,
      fewest: 2,
      share: 1,
    });
  });
});

describe('lanes', () => {
  const widths = fc.record({
    left: fc.double({ min: -30, max: 25, noNaN: true }),
    extent: fc.double({ min: 0.5, max: 50, noNaN: true }),
    width: fc.double({ min: 0.5, max: 15, noNaN: true }),
    share: fc.double({ min: 0, max: 0.8, noNaN: true }),
  });

  it('side by side: cover all, neighbours overlap by what was asked, one lane fewer would not do', () => {
    fc.assert(
      fc.property(
        widths,
        fc.constantFrom('middle', 'left', 'right' as const),
        ({ left, extent, width, share }, from) => {
          const across = [left, left + extent] as const;
          const { lanes } = lanesSideBySide(across, width, width * share, from);
          expect(lanes[0]!.band[0]).toBeLessThanOrEqual(across[0] + 1e-9);
          expect(lanes.at(-1)!.band[1]).toBeGreaterThanOrEqual(across[1] - 1e-9);
          for (let k = 1; k < lanes.length; k++) {
            expect(lanes[k - 1]!.band[1] - lanes[k]!.band[0]).toBeCloseTo(width * share, 9);
          }
          const covered = lanes.at(-1)!.band[1] - lanes[0]!.band[0];
          if (lanes.length > 1) expect(covered - width * (1 - share)).toBeLessThan(extent + 1e-9);
        },
      ),
    );
  });

  it('from the centreline: every point of the extent is covered, from the inside out on both sides', () => {
    fc.assert(
      fc.property(widths, fc.boolean(), ({ left, extent, width, share }, closed) => {
        const across = [left, left + extent] as const;
        const { lanes } = lanesFromCentreline(across, width, width * share, closed);
        const bands = [...lanes.left, ...lanes.right].map(lane => lane.band);
        for (let i = 0; i <= 40; i++)
          expect(over(bands, across[0] + 1e-9 + (i / 40) * (extent - 2e-9))).toBeGreaterThan(0);
        for (const side of [lanes.left, lanes.right]) {
          for (let k = 1; k < side.length; k++) expect(Math.abs(side[k]!.t)).toBeGreaterThan(Math.abs(side[k - 1]!.t));
        }
        if (closed) {
          for (const [a, b] of bands) {
            expect(a).toBeGreaterThanOrEqual(across[0] - 1e-9);
            expect(b).toBeLessThanOrEqual(across[1] + 1e-9);
          }
        }
      }),
    );
  });

  it('the two innermost swaths overlap across the centreline like all others', () => {
    const { lanes } = lanesFromCentreline([-11, 11], 6, 0.4);
    expect(lanes.left[0]!.band[1] - lanes.right[0]!.band[0]).toBeCloseTo(0.4, 12);
    expect(lanes.right[0]!.band[1] - lanes.right[1]!.band[0]).toBeCloseTo(0.4, 12);
  });

  it('circuits: the edge is covered, and `as inside` gives it as many contacts as the middle', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 30, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.double({ min: 0.3, max: 0.95, noNaN: true }),
        (edge, swept, share) => {
          const advance = swept * share;
          const bandsFor = (rule: 'covered' | 'as inside') =>
            circuitOffsets(edge, swept, advance, rule).lanes.flatMap(t => [
              [t - swept / 2, t + swept / 2] as const,
              [-t - swept / 2, -t + swept / 2] as const,
            ]);
          expect(over(bandsFor('covered'), edge - 1e-7)).toBeGreaterThanOrEqual(1);
          const fewest = Math.floor(swept / advance + 1e-9);
          const bands = bandsFor('as inside');
          for (let i = 0; i <= 60; i++) {
            expect(over(bands, -edge + 1e-7 + (i / 60) * 2 * (edge - 1e-7))).toBeGreaterThanOrEqual(fewest);
          }
        },
      ),
    );
  });

  it('refuses what would explode or never get on, instead of hanging', () => {
    expect(lanesSideBySide([-2000, 2000], 0.001, 0).problem).toMatchObject({ kind: 'too many lanes' });
    expect(lanesSideBySide([-10, 10], 2, 2).problem).toMatchObject({ kind: 'no progress' });
    expect(lanesSideBySide([-10, 10], Number.NaN, 0).problem).toMatchObject({ kind: 'no width' });
    expect(lanesSideBySide([10, -10], 2, 0).problem).toMatchObject({ kind: 'no width' });
    expect(circuitOffsets(20, 2, 0).problem).toMatchObject({ kind: 'no progress' });
    expect(circuitOffsets(20, 2, 1, 'covered', 1e9).problem).toMatchObject({ kind: 'too many lanes' });
    expect(lanesFromCentreline([-1e9, 1e9], 1, 0).problem).toMatchObject({ kind: 'too many lanes' });
    expect(sprayPattern({ bay: [5, 5], across: [-6, 6], width: 6, overlap: 0 }).problem).toMatchObject({
      kind: 'no bay',
    });
    expect(sprayPattern({ bay, across: [-6, 6], width: 6, overlap: 0, coats: 1e9 }).problem).toMatchObject({
      kind: 'too many passes',
    });
  });
});

describe('spraying', () => {
  it('alternates sides from the inside out, and direction with every pass', () => {
    const { legs } = sprayPattern({ bay, across: [-11, 11], width: 6, overlap: 0, coats: 2 });
    expect(legs.map(leg => leg.from.t)).toEqual([3, -3, 9, -9, 3, -3, 9, -9]);
    expect(legs.map(headingOf)).toEqual([1, -1, 1, -1, 1, -1, 1, -1]);
    expect(legs.map(leg => leg.round)).toEqual([1, 1, 1, 1, 2, 2, 2, 2]);
    expect(legs[0]).toMatchObject({ from: { s: 100, t: 3 }, to: { s: 400, t: 3 }, band: [0, 6] });
  });

  it('starts where it is told', () => {
    const { legs } = sprayPattern({ bay, across: [-6, 6], width: 6, overlap: 0, first: 'left', heading: -1 });
    expect(legs.map(leg => leg.from.t)).toEqual([-3, 3]);
    expect(legs[0]!.from.s).toBe(400);
  });

  it('an area on one side is sprayed from its inner edge outward', () => {
    const { legs } = sprayPattern({ bay, across: [-14, -3], width: 6, overlap: 0 });
    expect(bandsOf(legs)).toEqual([
      [-9, -3],
      [-15, -9],
    ]);
  });
});

describe('brooming', () => {
  const options = { bay, edge: 3, swept: [2], advance: 1 };

  it('goes out round the centreline, then in over the same circuits, direction and facing turned', () => {
    const pattern = circuitPattern(options);
    const legs = pattern.members[0]!;
    expect(pattern.circuits).toBe(3);
    expect(legs.map(leg => leg.from.t)).toEqual([0.5, -0.5, 1.5, -1.5, 2.5, -2.5, -2.5, 2.5, -1.5, 1.5, -0.5, 0.5]);
    expect(legs.map(headingOf)).toEqual([1, -1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1]);
    expect(new Set(legs.slice(0, 6).map(leg => leg.facing))).toEqual(new Set(['centreline']));
    expect(new Set(legs.slice(6).map(leg => leg.facing))).toEqual(new Set(['edge']));
    for (let i = 0; i < 6; i++) {
      const back = legs[11 - i]!;
      expect([back.from, back.to, back.band]).toEqual([legs[i]!.to, legs[i]!.from, legs[i]!.band]);
    }
  });

  it('followers in the same lane repeat it; in the next lane they widen the convoy', () => {
    const same = circuitPattern({ ...options, swept: [2, 2], runs: 1 });
    expect(same.members[1]).toEqual(same.members[0]);
    expect(same.advance).toBe(1);
    const next = circuitPattern({ ...options, swept: [2, 2], runs: 1, followers: 'next lane' });
    expect(next.advance).toBe(2);
    expect(next.circuits).toBe(2);
    expect(next.members.map(legs => legs.map(leg => Math.abs(leg.from.t)))).toEqual([
      [0.5, 0.5, 2.5, 2.5],
      [1.5, 1.5, 3.5, 3.5],
    ]);
  });

  it('has the lanes of example Z: 7 circuits, 14 passes, pitch 1.7785 m (handbook 8.3 [D])', () => {
    const swept = sweptWidth(2.4, 30 * degree);
    const pattern = circuitPattern({ bay: [0, 900], edge: 12, swept: [swept], advance: swept - 0.3, runs: 1 });
    expect(pattern.circuits).toBe(7);
    expect(pattern.members[0]).toHaveLength(14);
    expect(pattern.advance).toBeCloseTo(1.7785, 4);
  });
});

describe('rinsing', () => {
  it('goes outward only: the first circuit repeated, then each wider one', () => {
    const { members, circuits } = rinsePattern({
      bay,
      edge: 6,
      widths: [4, 3],
      advance: 2,
      firstRepeats: 3,
      repeats: 2,
    });
    expect(circuits).toBe(3);
    expect(members).toHaveLength(2);
    expect(members[0]!.filter((_, i) => i % 2 === 0).map(leg => leg.from.t)).toEqual([1, 1, 1, 3, 3, 5, 5]);
    expect(members[0]!.every(leg => leg.facing === 'edge')).toBe(true);
    expect(members[1]![0]!.band).toEqual([-0.5, 2.5]);
  });
});

describe('passes side by side and one way', () => {
  it('one way runs against the landing direction by default', () => {
    const { legs } = oneWayPattern({ bay, across: [-4, 4], width: 2, overlap: 0 });
    expect(legs).toHaveLength(4);
    expect(legs.every(leg => headingOf(leg) === -1)).toBe(true);
    const order = oneWayPattern({ bay, across: [-4, 4], width: 2, overlap: 0, order: 'from centreline' }).legs;
    expect(order.map(leg => leg.from.t)).toEqual([1, -1, 3, -3]);
  });

  it('side by side runs up and down', () => {
    const { legs } = sideBySidePattern({
      bay,
      across: [-4, 4],
      width: 2,
      overlap: 0,
      order: 'right to left',
      rounds: 2,
    });
    expect(legs.map(leg => leg.from.t)).toEqual([3, 1, -1, -3, 3, 1, -1, -3]);
    expect(legs.map(headingOf)).toEqual([1, -1, 1, -1, 1, -1, 1, -1]);
  });
});
