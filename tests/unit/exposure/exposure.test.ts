import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaOf, rectangle, slabsOf } from '../../../language/exposure/deposit.ts';
import type { ClockRange, Exposure } from '../../../language/exposure/exposure.ts';
import { areaByCount, contactsWithinTolerance, exposure } from '../../../language/exposure/exposure.ts';
import { sweptWidth } from '../../../language/tracks/lanes.ts';
import { circuitPattern, rinsePattern, sideBySidePattern, sprayPattern } from '../../../language/tracks/patterns.ts';
import { timeRun } from '../../../language/tracks/timing.ts';
import type { Pass, Range, Track } from '../../../language/tracks/track.ts';

const kmh = 1 / 3.6;
const degree = Math.PI / 180;

function pass(s: Range, t: Range, time: Range, depth?: number): Pass {
  const middle = (t[0] + t[1]) / 2;
  return {
    from: { s: s[0], t: middle },
    to: { s: s[1], t: middle },
    band: t,
    start: time[0],
    end: time[1],
    ...(depth !== undefined && { depth }),
  };
}

const apply = (...passes: Pass[]): Track => ({ does: 'apply', passes });
const contact = (...passes: Pass[]): Track => ({ does: 'contact', passes });
const rinse = (...passes: Pass[]): Track => ({ does: 'rinse', passes });
const wet = (...passes: Pass[]): Track => ({ does: 'wet', passes });

const strip = rectangle([0, 100], [-3, 3]);
const all: Range = [-3, 3];

/** Least and greatest, without their places. */
function span(clock: ClockRange | null): readonly [number, number] | null {
  return clock && [clock.least.seconds, clock.greatest.seconds];
}

describe('dwell point by point (handbook 8.2, all [D]): L = 900 m, 5 km/h spray, 6 km/h broom, 600 s later', () => {
  const spray = apply(pass([0, 900], all, [0, 900 / (5 * kmh)], 0.5));
  const area = rectangle([0, 900], all);
  const at = (found: Exposure, s: number): number => {
    const cell = found.cells[0]!;
    return cell.soak![0] + ((cell.soak![1] - cell.soak![0]) * (s - cell.s[0])) / (cell.s[1] - cell.s[0]);
  };

  it('same direction: 600, 546, 492 s', () => {
    const found = exposure({ area, tracks: [spray, contact(pass([0, 900], all, [600, 600 + 900 / (6 * kmh)]))] });
    expect(found.soak!.greatest).toMatchObject({ seconds: 600, s: 0 });
    expect(at(found, 450)).toBeCloseTo(546, 9);
    expect(found.soak!.least.seconds).toBeCloseTo(492, 9);
    expect(found.soak!.least.s).toBe(900);
  });

  it('opposite direction: 1,140, 546, -48 s: the broom arrives before the spray (test vector Z-2)', () => {
    const found = exposure({ area, tracks: [spray, contact(pass([900, 0], all, [600, 600 + 900 / (6 * kmh)]))] });
    expect(found.soak!.greatest.seconds).toBeCloseTo(1140, 9);
    expect(found.soak!.greatest.s).toBe(0);
    expect(at(found, 450)).toBeCloseTo(546, 9);
    expect(found.soak!.least.seconds).toBeCloseTo(-48, 9);
    expect(found.soak!.least.s).toBe(900);
  });
});

describe('soak', () => {
  it('begins when the coats have reached the rate, not at the first of them', () => {
    const tracks = [
      apply(pass([0, 100], all, [0, 100], 0.2), pass([0, 100], all, [200, 300], 0.2)),
      contact(pass([0, 100], all, [1000, 1100])),
    ];
    expect(span(exposure({ area: strip, tracks, rate: 0.4 }).soak)).toEqual([800, 800]);
    expect(span(exposure({ area: strip, tracks, rate: 0.2 }).soak)).toEqual([1000, 1000]);
    expect(span(exposure({ area: strip, tracks }).soak)).toEqual([1000, 1000]);
  });

  it('is not started again by overlap, keep-wet passes or surplus coats', () => {
    const tracks = [
      apply(
        pass([0, 100], [-3, 1], [0, 100], 0.4),
        pass([100, 0], [-1, 3], [200, 300], 0.4),
        pass([0, 100], all, [500, 600], 0.4),
      ),
      wet(pass([0, 100], all, [700, 800])),
      contact(pass([0, 100], all, [1000, 1100])),
    ];
    const found = exposure({ area: strip, tracks, rate: 0.4 });
    // Left of t = 1 the first pass counts; right of it the second, which comes back.
    expect(span(found.soak)).toEqual([700, 1000]);
    expect(found.soak!.least).toMatchObject({ s: 0 });
    expect(found.soak!.least.t).toBeGreaterThan(1);
  });

  it('ends at the first tool, broom or jet', () => {
    const tracks: Track[] = [
      apply(pass([0, 100], all, [0, 100], 0.4)),
      contact(pass([0, 100], all, [2000, 2100])),
      { does: 'jet', passes: [pass([0, 100], all, [1500, 1600])] },
    ];
    expect(span(exposure({ area: strip, tracks, rate: 0.4 }).soak)).toEqual([1500, 1500]);
  });

  it('from the end of the bay, where a specification counts so', () => {
    const tracks = [
      apply(pass([0, 100], [-3, 0], [0, 100], 0.4), pass([100, 0], [0, 3], [160, 260], 0.4)),
      contact(pass([0, 100], all, [1000, 1100])),
    ];
    const found = exposure({ area: strip, tracks, rate: 0.4, dwellFrom: 'end of bay' });
    expect(span(found.soak)).toEqual([740, 840]);
  });

  it('does not run where the rate was never reached, the product never came, or no tool did', () => {
    const tracks = [
      apply(pass([0, 40], all, [0, 40], 0.4), pass([40, 60], all, [40, 60], 0.3)),
      contact(pass([0, 90], all, [1000, 1090])),
    ];
    const found = exposure({ area: strip, tracks, rate: 0.4 });
    expect(found.cells.map(cell => [cell.s, cell.soak])).toEqual([
      [
        [0, 40],
        [1000, 1000],
      ],
      [[40, 60], null],
      [[60, 90], null],
      [[90, 100], null],
    ]);
    expect(found.gaps).toEqual([
      {
        kind: 'not applied',
        area: 240,
        where: [
          { s: [60, 90], t: [-3, 3] },
          { s: [90, 100], t: [-3, 3] },
        ],
      },
      { kind: 'under rate', area: 120, where: [{ s: [40, 60], t: [-3, 3] }] },
      { kind: 'not contacted', area: 60, where: [{ s: [90, 100], t: [-3, 3] }] },
    ]);
  });

  it('cuts where two brooms change places: the first contact is the earlier one at each point', () => {
    const tracks = [
      apply(pass([0, 100], all, [0, 0], 0.4)),
      contact(pass([0, 100], all, [1000, 1100]), pass([100, 0], all, [1000, 1100])),
    ];
    const found = exposure({ area: strip, tracks, rate: 0.4 });
    expect(span(found.soak)).toEqual([1000, 1050]);
    expect(found.soak!.greatest.s).toBeCloseTo(50, 9);
    expect(found.cells).toHaveLength(2);
  });
});

describe('wet gap', () => {
  it('is the longest dry spell between the first wetting and the last agitation', () => {
    const tracks = [
      apply(pass([0, 100], all, [0, 100])),
      wet(pass([0, 100], all, [900, 1000])),
      contact(pass([0, 100], all, [400, 500]), pass([0, 100], all, [1200, 1300])),
      rinse(pass([0, 100], all, [3000, 3100])),
    ];
    expect(span(exposure({ area: strip, tracks }).wetGap)).toEqual([900, 900]);
    const dried = tracks.map(track => (track.does === 'wet' ? wet(pass([0, 100], all, [300, 400])) : track));
    expect(span(exposure({ area: strip, tracks: dried }).wetGap)).toEqual([900, 900]);
  });

  it('wetting after the last agitation does not matter', () => {
    const tracks = [
      apply(pass([0, 100], all, [0, 100])),
      contact(pass([0, 100], all, [400, 500])),
      wet(pass([0, 100], all, [5000, 5100])),
    ];
    expect(span(exposure({ area: strip, tracks }).wetGap)).toEqual([400, 400]);
  });

  it('has a kink where another spell becomes the longest: least and greatest are both exact', () => {
    // Keep-wet drives against the others: gaps 400 + 4(50 - s)... and 1000 less that; the greater is least at s = 50.
    const tracks = [
      apply(pass([0, 100], all, [0, 0])),
      wet(pass([100, 0], all, [400, 600])),
      contact(pass([0, 100], all, [1000, 1000])),
    ];
    const found = exposure({ area: strip, tracks });
    expect(span(found.wetGap)).toEqual([500, 600]);
    expect(found.wetGap!.least.s).toBeCloseTo(50, 9);
  });
});

describe('residence, rinses and the last touch', () => {
  it('first product to last rinse', () => {
    const tracks = [
      apply(pass([0, 100], all, [0, 100], 0.4), pass([0, 100], all, [50, 150], 0.4)),
      rinse(pass([0, 100], all, [1000, 1100]), pass([100, 0], [-1, 3], [2000, 2100])),
    ];
    const found = exposure({ area: strip, tracks });
    expect(span(found.residence)).toEqual([1000, 2100]);
    expect(found.residence!.greatest).toMatchObject({ s: 0, t: 1 });
    expect(found.rinsesAtCentreline).toMatchObject({ least: { count: 2 }, most: { count: 2 } });
    expect(found.lastTouch!.greatest).toMatchObject({ seconds: 2100, s: 0 });
  });

  it('counts rinses at the centreline on both sides of an edge that lies on it', () => {
    const tracks = [rinse(pass([0, 100], [-3, 0], [0, 100]), pass([0, 50], [0, 3], [200, 250]))];
    const found = exposure({ area: strip, tracks });
    expect(found.rinsesAtCentreline).toMatchObject({ least: { count: 0 }, most: { count: 1 } });
    expect(exposure({ area: rectangle([0, 100], [2, 5]), tracks }).rinsesAtCentreline).toBeNull();
  });

  it('three circuits at the crown are three rinses there: six passes, all over the centreline', () => {
    const legs = rinsePattern({ bay: [0, 100], edge: 8, widths: [4], advance: 2, firstRepeats: 3 }).members[0]!;
    const run = timeRun(legs, { speed: 2, turning: { time: 30 } }).run;
    const found = exposure({ area: rectangle([0, 100], [-8, 8]), tracks: [{ does: 'rinse', passes: run.passes }] });
    expect(found.rinsesAtCentreline).toMatchObject({ least: { count: 6 }, most: { count: 6 } });
    expect(found.gaps).toEqual([]);
  });
});

describe('contacts of a broom, computed and not assumed', () => {
  const area = rectangle([0, 300], [-12, 12]);
  const circuits = (swept: number, advance: number, edges: 'covered' | 'as inside' = 'covered'): Track => {
    const legs = circuitPattern({ bay: [0, 300], edge: 12, swept: [swept], advance, runs: 1, edges }).members[0]!;
    return contact(...timeRun(legs, { speed: 2, turning: { time: 30 } }).run.passes);
  };

  it('a square broom that advances by half its width: two contacts inside, one along the edges', () => {
    const found = exposure({ area, tracks: [circuits(2.4, 1.2)] });
    expect(found.contacts).toMatchObject({ least: { count: 1 }, most: { count: 2 } });
    expect(Math.abs(found.contacts.least.t)).toBeGreaterThan(10);
    const single = found.profile.filter(strip => strip.contacts[0] === 1);
    expect(single).toHaveLength(2);
    expect(found.profile.at(0)!.contacts).toEqual([1, 1]);
    expect(found.profile.at(-1)!.contacts).toEqual([1, 1]);
  });

  it('the extra circuit cures the edges', () => {
    const found = exposure({ area, tracks: [circuits(2.4, 1.2, 'as inside')] });
    expect(found.contacts).toMatchObject({ least: { count: 2 }, most: { count: 2 } });
  });

  it('lane 1 on the centreline instead would leave single contacts beside it, too', () => {
    // Lanes at 0, 1.2, 2.4 … on both sides; the crown is met by both passes of the first circuit.
    const lanes = Array.from({ length: 11 }, (_, k) => k * 1.2).flatMap(t => [t, -t]);
    const passes = lanes.map((t, i) => pass([0, 300], [t - 1.2, t + 1.2], [200 * i, 200 * i + 150]));
    const found = exposure({ area: rectangle([0, 300], [-6, 6]), tracks: [contact(...passes)] });
    const inner = found.profile.filter(strip => Math.abs(strip.t[0] + strip.t[1]) < 2.5);
    expect(inner.map(strip => strip.contacts[0])).toEqual([3, 3]);
    expect(
      found.profile.filter(strip => Math.abs(strip.t[0] + strip.t[1]) > 3).every(strip => strip.contacts[0] === 2),
    ).toBe(true);
  });

  it('half of the nominal width at 30°: 42 % overlap, over a quarter of the inside with a single contact', () => {
    const swept = sweptWidth(2.4, 30 * degree);
    const track = circuits(swept, 1.2, 'as inside');
    const inside = exposure({ area: rectangle([0, 300], [-9.6, 9.6]), tracks: [track] });
    const areas = areaByCount(inside.cells);
    expect(areas.map(entry => entry.count)).toEqual([1, 2]);
    const single = areas[0]!.area / inside.area.squareMetres;
    expect(single).toBeGreaterThan(0.25);
    expect(single).toBeCloseTo(1 - (swept / 1.2 - 1), 9);
    expect((swept - 1.2) / swept).toBeCloseTo(0.42, 2);
  });

  it('half of the swept width at 30°: two contacts everywhere inside', () => {
    const swept = sweptWidth(2.4, 30 * degree);
    const found = exposure({ area, tracks: [circuits(swept, swept / 2, 'as inside')] });
    expect(found.contacts).toMatchObject({ least: { count: 2 }, most: { count: 2 } });
  });

  it('example Z (handbook 8.3): an overlap of 0.3 m, under half a width, leaves most ground with one contact', () => {
    const swept = sweptWidth(2.4, 30 * degree);
    const found = exposure({ area, tracks: [circuits(swept, swept - 0.3)] });
    expect(found.contacts).toMatchObject({ least: { count: 1 }, most: { count: 2 } });
    const twice = areaByCount(found.cells).find(entry => entry.count === 2)!.area / found.area.squareMetres;
    // 13 overlaps of 0.3 m in 24 m; the last band of 0.3 m on both sides is inside 12.6 m.
    expect(twice).toBeCloseTo((13 * 0.3) / 24, 9);
  });

  it('track keeping of 0.2 m: what is sure, and what may happen', () => {
    const half = contactsWithinTolerance(area, [circuits(2.4, 1.2)], 0.2);
    // Where one band ends and the next but one begins, both may stray away: only the one between is sure.
    expect(half.contacts.least.count).toBe(1);
    expect(half.profile.filter(part => Math.abs(part.t[0]) < 5 && part.contacts[0] === 1).length).toBeGreaterThan(5);
    expect(half.contacts.most.count).toBe(3);
    const cured = contactsWithinTolerance(area, [circuits(2.4, 0.95, 'as inside')], 0.2);
    expect(cured.contacts.least.count).toBe(2);
    expect(cured.uncertain).toBe(0);
    const none = contactsWithinTolerance(area, [circuits(2.4, 1.2)], 0);
    expect(none.contacts).toMatchObject({ least: { count: 1 }, most: { count: 2 } });
    expect(contactsWithinTolerance(area, [circuits(2.4, 1.2)], 5).uncertain).toBeCloseTo(7200, 6);
  });
});

describe('the deposit', () => {
  it('counts only inside its slanting edges, exactly', () => {
    const area = slabsOf([
      { s: 0, left: 3, right: 0 },
      { s: 100, left: 3, right: 10 },
    ]);
    const tracks = [apply(pass([0, 100], [-3, 5], [0, 100], 0.4)), contact(pass([0, 50], [-3, 10], [500, 550]))];
    const found = exposure({ area, tracks, rate: 0.4 });
    expect(found.area).toEqual({ s: [0, 100], t: [-3, 10], squareMetres: 800 });
    // Right of t = 5: a triangle from s = 50 to 100, 5 m wide.
    const [unsprayed, unbroomed] = found.gaps;
    expect(unsprayed).toEqual({ kind: 'not applied', area: 125, where: [{ s: [50, 100], t: [5, 10] }] });
    // Beyond s = 50: 50 m, on average 10.5 m wide; the rectangles around it reach the deposit's edge.
    expect(unbroomed).toMatchObject({ kind: 'not contacted', area: 525 });
    expect(Math.max(...unbroomed!.where.map(box => box.t[1]))).toBe(10);
    expect(found.cells.reduce((sum, cell) => sum + cell.area, 0)).toBeCloseTo(800, 9);
  });

  it('the extreme lies where the deposit ends, not where the pass does', () => {
    const area = slabsOf([
      { s: 0, left: 0, right: 0 },
      { s: 100, left: 10, right: 10 },
    ]);
    // The strip right of t = 5 holds deposit from s = 50 only.
    const tracks = [apply(pass([0, 100], [5, 10], [0, 100])), contact(pass([0, 100], [5, 10], [500, 800]))];
    const found = exposure({ area, tracks });
    expect(found.soak!.least.seconds).toBeCloseTo(600, 6);
    expect(found.soak!.least.s).toBeCloseTo(50, 6);
    expect(found.soak!.greatest.seconds).toBeCloseTo(700, 6);
  });

  it('deposits side by side that come into a strip at different chainages all count', () => {
    const area = [
      { s: [0, 100], left: [0, -10], right: [0, -5] },
      { s: [20, 50], left: [2, 2], right: [4, 4] },
    ] as const;
    const found = exposure({ area, tracks: [contact(pass([0, 100], [-10, -3], [0, 50]))], needs: ['contact'] });
    expect(found.area.squareMetres).toBe(310);
    expect(found.cells.reduce((sum, cell) => sum + cell.area, 0)).toBeCloseTo(310, 9);
    // Left of -3 the triangle lies under the broom: from s = 30 (its left edge) and s = 60 (its right edge) on.
    const under = ((100 - 30) * 7) / 2 - ((100 - 60) * 2) / 2;
    expect(found.gaps[0]!.area).toBeCloseTo(310 - under, 9);
  });

  it('nothing and nonsense give empty results, never an exception', () => {
    const empty = exposure({ area: [], tracks: [apply(pass([0, 1], all, [0, 1]))] });
    expect(empty).toMatchObject({ soak: null, wetGap: null, residence: null, gaps: [], cells: [], profile: [] });
    const bad = [Number.NaN, Number.POSITIVE_INFINITY, -1];
    for (const x of bad) {
      for (const y of bad) {
        const found = exposure({
          area: [...rectangle([x, 100], [y, 3]), ...strip],
          tracks: [apply(pass([x, 100], [y, 3], [0, y], x)), contact(pass([0, 100], all, [x, y]))],
          rate: y,
        });
        expect(found.area.squareMetres).toBeGreaterThan(0);
      }
    }
    expect(exposure({ area: strip, tracks: [] }).cells).toHaveLength(1);
  });

  it('names what was asked for and never done', () => {
    const found = exposure({
      area: strip,
      tracks: [],
      needs: ['apply', 'contact', 'jet', 'rinse', 'pickup', 'sweep', 'wet'],
    });
    expect(found.gaps.map(gap => [gap.kind, gap.area])).toEqual([
      ['not swept', 600],
      ['not wetted', 600],
      ['not applied', 600],
      ['not contacted', 600],
      ['not jetted', 600],
      ['not rinsed', 600],
      ['not picked up', 600],
    ]);
  });

  it('bands that meet up to rounding leave no sliver', () => {
    const bands = Array.from({ length: 20 }, (_, k) => [k * 0.1 - 1, k * 0.1 - 1 + 0.1] as const);
    const tracks = [apply(...bands.map((band, k) => pass([0, 100], band, [k, k + 1], 0.4)))];
    const found = exposure({ area: rectangle([0, 100], [-1, 1]), tracks, rate: 0.4 });
    expect(found.gaps).toEqual([]);
    expect(found.cells).toHaveLength(20);
    expect(found.cells.every(cell => cell.depth === 0.4)).toBe(true);
  });
});

describe('a spray job with a refill in the middle of a pass', () => {
  it('soaks shorter behind the refill by just the time it took', () => {
    const legs = sideBySidePattern({ bay: [0, 400], across: [-3, 3], width: 6, overlap: 0 }).legs;
    const run = timeRun(
      legs,
      {
        speed: 2,
        turning: { time: 60 },
        tank: {
          kind: 'empties',
          capacity: 480,
          perArea: 0.4,
          trip: { seconds: 100 },
          service: 200,
          goes: 'when empty',
        },
      },
      0,
      0.4,
    ).run;
    expect(run.passes).toHaveLength(2);
    const broom = contact(pass([0, 400], all, [1500, 1700]));
    const found = exposure({ area: rectangle([0, 400], all), tracks: [apply(...run.passes), broom], rate: 0.4 });
    expect(found.cells).toHaveLength(2);
    expect(found.cells[0]!.s[1]).toBeCloseTo(200, 4);
    expect(found.soak!.greatest.seconds).toBeCloseTo(1500, 6);
    expect(found.soak!.least.seconds).toBeCloseTo(1200, 6);
    expect(areaOf(rectangle([0, 400], all))).toBe(2400);
  });
});

describe('closure identities (handbook 8.1 [D])', () => {
  it('liquid used = rate · swath area = what the ground got, overlap included; loads hold it, the last one partly', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 14 }),
        fc.double({ min: 2, max: 9, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        fc.double({ min: 200, max: 5000, noNaN: true }),
        fc.constantFrom('before a pass' as const, 'when empty' as const),
        (half, width, share, capacity, goes) => {
          const legs = sprayPattern({ bay: [0, 500], across: [-half, half], width, overlap: width * share }).legs;
          const tank = { kind: 'empties', capacity, perArea: 0.4, trip: { seconds: 60 }, service: 60, goes } as const;
          const { run } = timeRun(legs, { speed: 2.5, turning: { radius: 6, speed: 2 }, tank }, 0, 0.4);
          const swaths = legs.length * 500 * width;
          expect(run.used).toBeCloseTo(0.4 * swaths, 2);
          const flow = 0.4 * width * 2.5;
          const working = run.passes.reduce((sum, p) => sum + p.end - p.start, 0);
          expect(flow * working).toBeCloseTo(run.used, 2);
          // All ground that any swath touches.
          const edges = run.passes.flatMap(p => p.band);
          const ground = rectangle([0, 500], [Math.min(...edges), Math.max(...edges)]);
          const found = exposure({ area: ground, tracks: [apply(...run.passes)], rate: 0.4 });
          const got = found.cells.reduce((sum, cell) => sum + cell.depth * cell.area, 0);
          expect(Math.abs(got - run.used)).toBeLessThan(1e-3 + 1e-5 * run.used);
          const overlapped = found.cells.reduce((sum, cell) => sum + (cell.depth > 0.41 ? cell.area : 0), 0);
          expect(run.used - 0.4 * found.area.squareMetres).toBeCloseTo(0.4 * overlapped, 0);
          expect(run.loads * capacity).toBeGreaterThanOrEqual(run.used - 1e-6);
          if (goes === 'when empty') expect((run.loads - 1) * capacity).toBeLessThan(run.used + 1e-6);
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('order of the input', () => {
  it('does not matter', () => {
    const passes = Array.from({ length: 8 }, (_, k) =>
      pass([k % 2 ? 100 : 0, k % 2 ? 0 : 100], [-3 + k / 2, k / 2], [k * 90, k * 90 + 80]),
    );
    const forward = exposure({ area: strip, tracks: [apply(...passes.slice(0, 4)), contact(...passes.slice(4))] });
    const backward = exposure({
      area: strip,
      tracks: [contact(...passes.slice(4).reverse()), apply(...passes.slice(0, 4).reverse())],
    });
    expect(backward).toEqual(forward);
    fc.assert(
      fc.property(fc.shuffledSubarray(passes, { minLength: 8 }), shuffled => {
        const again = exposure({
          area: strip,
          tracks: shuffled.map(p => (passes.indexOf(p) < 4 ? apply(p) : contact(p))),
        });
        expect(again).toEqual(forward);
      }),
      { numRuns: 50 },
    );
  });
});
