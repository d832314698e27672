/**
 * The exact exposure held against brute force on random jobs: at every point of a raster the clocks and counts of the
 * cell that holds it must be those found there step by step. And the metamorphic tests: a job that is mirrored, seen
 * from the other end, split, or moved in time must go through the same.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaOf, cutSlab } from '../../../language/exposure/deposit.ts';
import type { Cell, ClockRange, Exposure } from '../../../language/exposure/exposure.ts';
import { exposure } from '../../../language/exposure/exposure.ts';
import type { Range } from '../../../language/tracks/track.ts';
import type { Job } from './jobs.ts';
import { chaosArb, flat, gridArb, mapped, patternArb } from './jobs.ts';
import type { Raster } from './raster.ts';
import { fillRaster, newRaster } from './raster.ts';

/** Points closer to an edge than this may fall on either side of it. */
const rim = 1e-5;
const clocks = ['soak', 'wetGap', 'residence', 'lastTouch'] as const;
const counts = ['contacts', 'rinses', 'jets', 'pickups'] as const;

/** Number of times out of step that a test tells of; the first is enough. */
function firstDisagreement(job: Job, found: Exposure, raster: Raster): string | undefined {
  let inside = 0;
  for (let row = 0; row < raster.rows; row++) {
    const t = raster.tAt[row]!;
    const strip = found.cells.filter(cell => cell.t[0] - rim <= t && cell.t[1] + rim >= t);
    for (let column = 0; column < raster.columns; column++) {
      const s = raster.sAt[column]!;
      const at = row * raster.columns + column;
      if (!raster.inside[at] || nearEdge(job, s, t)) continue;
      inside++;
      const near = strip.filter(cell => cell.s[0] - rim <= s && cell.s[1] + rim >= s);
      if (near.length === 0) return `no cell at s ${s} t ${t}`;
      if (near.length > 1 || near.some(cell => onRim(cell, s, t))) continue;
      const why = disagreement(near[0]!, raster, at, s);
      if (why) return `${why} at s ${s} t ${t}`;
    }
  }
  return found.cells.length > 0 && inside === 0 && areaOf(job.area) > 2000 ? 'the raster met nothing' : undefined;
}

function disagreement(cell: Cell, raster: Raster, at: number, s: number): string | undefined {
  for (const clock of clocks) {
    const want = raster[clock][at]!;
    const range = cell[clock];
    if (Number.isNaN(want) !== (range === null)) return `${clock}: raster ${want}, cell ${range}`;
    if (range === null) continue;
    const have = range[0] + ((range[1] - range[0]) * (s - cell.s[0])) / (cell.s[1] - cell.s[0]);
    if (Math.abs(have - want) > 1e-5) return `${clock}: raster ${want}, cell ${have}`;
  }
  for (const count of counts) {
    if (raster[count][at] !== cell[count]) return `${count}: raster ${raster[count][at]}, cell ${cell[count]}`;
  }
  const depth = raster.depth[at]!;
  return Math.abs(depth - cell.depth) > 1e-9 ? `depth: raster ${depth}, cell ${cell.depth}` : undefined;
}

function onRim(cell: Cell, s: number, t: number): boolean {
  return [s - cell.s[0], cell.s[1] - s, t - cell.t[0], cell.t[1] - t].some(distance => Math.abs(distance) < rim);
}

/** On a slanting edge of the deposit both answers are right. */
function nearEdge(job: Job, s: number, t: number): boolean {
  return job.area.some(slab => {
    if (s < slab.s[0] - rim || s > slab.s[1] + rim) return false;
    const f = (s - slab.s[0]) / (slab.s[1] - slab.s[0]);
    const left = slab.left[0] + f * (slab.left[1] - slab.left[0]);
    const right = slab.right[0] + f * (slab.right[1] - slab.right[0]);
    return Math.abs(t - left) < 10 * rim || Math.abs(t - right) < 10 * rim;
  });
}

/** A coarse raster whose points lie on no round number. */
function rasterOver(job: Job, found: Exposure, columns: number, rows: number): Raster {
  const [s0, s1] = found.area.s;
  const [t0, t1] = found.area.t;
  const raster = newRaster(
    found.area.s,
    found.area.t,
    (s1 - s0) / columns,
    (t1 - t0) / rows,
    (s1 - s0) * (0.31830988 / columns),
    (t1 - t0) * (0.36787944 / rows),
  );
  return fillRaster(raster, job.area, flat(job), job.rate);
}

/** What must hold of any result by itself. */
function expectSound(job: Job, found: Exposure): void {
  const total = found.cells.reduce((sum, cell) => sum + cell.area, 0);
  expect(Math.abs(total - found.area.squareMetres)).toBeLessThan(1e-3 + 1e-6 * total);
  for (const clock of clocks) {
    const values = found.cells.flatMap(cell => cell[clock] ?? []);
    if (values.length === 0) {
      expect(found[clock]).toBeNull();
      continue;
    }
    expect(found[clock]!.least.seconds).toBeCloseTo(Math.min(...values), 6);
    expect(found[clock]!.greatest.seconds).toBeCloseTo(Math.max(...values), 6);
  }
  for (const count of counts) {
    const values = found.cells.map(cell => cell[count]);
    expect(found[count].least.count).toBe(Math.min(...values));
    expect(found[count].most.count).toBe(Math.max(...values));
  }
  const lacking: [string, (cell: Cell) => boolean, boolean][] = [
    ['not contacted', cell => cell.contacts === 0, has(job, 'contact')],
    ['not rinsed', cell => cell.rinses === 0, has(job, 'rinse')],
    ['not jetted', cell => cell.jets === 0, has(job, 'jet')],
    ['not picked up', cell => cell.pickups === 0, has(job, 'pickup')],
    ['not applied', cell => cell.depth === 0, has(job, 'apply')],
    ['under rate', cell => cell.depth > 0 && cell.depth < job.rate * (1 - 1e-6), has(job, 'apply')],
  ];
  for (const [kind, lacks, asked] of lacking) {
    const gap = found.gaps.find(g => g.kind === kind)?.area ?? 0;
    const area = asked ? found.cells.filter(lacks).reduce((sum, cell) => sum + cell.area, 0) : 0;
    expect(gap).toBeCloseTo(area, 6);
  }
  for (const gap of found.gaps) {
    const boxes = gap.where.reduce((sum, { s, t }) => sum + (s[1] - s[0]) * (t[1] - t[0]), 0);
    expect(boxes).toBeGreaterThanOrEqual(gap.area - 1e-6);
  }
}

function has(job: Job, does: string): boolean {
  return job.tracks.some(track => track.does === does && track.passes.some(pass => pass.end >= pass.start));
}

/** Where the result says an extreme lies, brute force finds it, on one side or the other of that chainage. */
function expectPlaces(job: Job, found: Exposure): void {
  for (const clock of clocks) {
    if (!found[clock]) continue;
    for (const place of [found[clock]!.least, found[clock]!.greatest]) {
      const values = [-1e-5, -2e-6, 2e-6, 1e-5].map(nudge => {
        const point = newRaster([place.s + nudge, place.s + nudge], [place.t, place.t], 1, 1, 0, 0);
        // Ground around the place counts as deposit: at a corner of it the raster's point may lie outside.
        const around = { s: [place.s - 1, place.s + 1], left: [-99, -99], right: [99, 99] } as const;
        return fillRaster(point, [around], flat(job), job.rate)[clock][0]!;
      });
      expect(Math.min(...values.map(v => (Number.isNaN(v) ? Infinity : Math.abs(v - place.seconds))))).toBeLessThan(
        0.1,
      );
    }
  }
}

describe('exact exposure against brute force', () => {
  it('agrees at every point, passes anywhere and at any time (1,500 random jobs)', () => {
    fc.assert(
      fc.property(chaosArb, job => {
        const found = exposure(job);
        expect(firstDisagreement(job, found, rasterOver(job, found, 17, 19))).toBeUndefined();
        expectSound(job, found);
      }),
      { numRuns: 1500 },
    );
  });

  it('agrees at every point, jobs as crews do them, with turns and refills (500 random jobs)', () => {
    fc.assert(
      fc.property(patternArb, job => {
        const found = exposure(job);
        expect(firstDisagreement(job, found, rasterOver(job, found, 13, 23))).toBeUndefined();
        expectSound(job, found);
      }),
      { numRuns: 500 },
    );
  });

  it('names the places of the extremes rightly', () => {
    fc.assert(
      fc.property(fc.oneof(chaosArb, patternArb), job => {
        expectPlaces(job, exposure(job));
      }),
      { numRuns: 300 },
    );
  });

  it('its extremes are those of a raster of 0.25 m within that resolution', () => {
    fc.assert(
      fc.property(gridArb, job => {
        const found = exposure(job);
        const raster = fillRaster(newRaster(found.area.s, found.area.t, 0.25, 0.25), job.area, flat(job), job.rate);
        clocks.forEach((clock, i) => {
          const [least, greatest] = [raster.extremes[2 * i]!, raster.extremes[2 * i + 1]!];
          if (!found[clock]) {
            expect(least).toBe(Number.POSITIVE_INFINITY);
            return;
          }
          const steepest = Math.max(
            ...found.cells.flatMap(cell =>
              cell[clock] ? [Math.abs(cell[clock][1] - cell[clock][0]) / (cell.s[1] - cell.s[0])] : [],
            ),
          );
          // Where a clock begins to run at a place where two passes meet, the next point may be a whole step away.
          const slack = 0.25 * steepest + 1e-6;
          expect(least - found[clock]!.least.seconds).toBeGreaterThanOrEqual(-1e-6);
          expect(found[clock]!.greatest.seconds - greatest).toBeGreaterThanOrEqual(-1e-6);
          // Ground shorter than the step may hold no point at all.
          if (found.cells.some(cell => cell.s[1] - cell.s[0] < 0.25)) return;
          expect(least - found[clock]!.least.seconds).toBeLessThanOrEqual(slack);
          expect(found[clock]!.greatest.seconds - greatest).toBeLessThanOrEqual(slack);
        });
        expect(found.contacts.least.count).toBe(raster.extremes[8]);
        expect(found.contacts.most.count).toBe(raster.extremes[9]);
        expect(found.rinses.least.count).toBe(raster.extremes[10]);
        expect(found.rinses.most.count).toBe(raster.extremes[11]);
      }),
      { numRuns: 300 },
    );
  });
});

/** Clocks, counts and gaps without their places. */
function values(found: Exposure) {
  const clock = (range: ClockRange | null) => range && [range.least.seconds, range.greatest.seconds].map(rounded);
  return {
    area: rounded(found.area.squareMetres),
    soak: clock(found.soak),
    wetGap: clock(found.wetGap),
    residence: clock(found.residence),
    lastTouch: clock(found.lastTouch),
    contacts: [found.contacts.least.count, found.contacts.most.count],
    rinses: [found.rinses.least.count, found.rinses.most.count],
    jets: [found.jets.least.count, found.jets.most.count],
    centreline: found.rinsesAtCentreline && [found.rinsesAtCentreline.least.count, found.rinsesAtCentreline.most.count],
    gaps: found.gaps.map(gap => [gap.kind, rounded(gap.area)]),
  };
}

/** To a hundredth of a millisecond or of a square centimetre: below that two ways of computing may differ. */
function rounded(value: number): number {
  return Math.round(value * 1e4) / 1e4 + 0;
}

/** Rounded values may still fall on either side of a half: compare as numbers. */
function expectSame(a: unknown, b: unknown): void {
  if (typeof a === 'number' && typeof b === 'number') {
    expect(Math.abs(a - b)).toBeLessThanOrEqual(2.1e-4);
  } else if (Array.isArray(a) && Array.isArray(b)) {
    expect(a.length).toBe(b.length);
    for (let i = 0; i < a.length; i++) expectSame(a[i], b[i]);
  } else if (a && b && typeof a === 'object' && typeof b === 'object') {
    expect(Object.keys(a)).toEqual(Object.keys(b));
    for (const key of Object.keys(a))
      expectSame((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]);
  } else {
    expect(a).toEqual(b);
  }
}

const anyJob = fc.oneof(chaosArb, patternArb);
const flipped = (range: Range): Range => [-range[1], -range[0]];
/** Each end with the other edge's sign changed: left becomes right. */
const negated = (range: Range): Range => [-range[0], -range[1]];
const reversed = (range: Range): Range => [range[1], range[0]];

describe('metamorphic', () => {
  it('left and right mirrored: the same', () => {
    fc.assert(
      fc.property(anyJob, job => {
        const mirrored = mapped(
          job,
          p => ({ ...p, band: flipped(p.band) }),
          slab => ({ s: slab.s, left: negated(slab.right), right: negated(slab.left) }),
        );
        expectSame(values(exposure(mirrored)), values(exposure(job)));
      }),
      { numRuns: 300 },
    );
  });

  it('seen from the other end of the runway (s → L − s, t → −t): the same, at the same ground', () => {
    fc.assert(
      fc.property(anyJob, job => {
        const L = 2450;
        const turned = mapped(
          job,
          p => ({
            ...p,
            from: { s: L - p.from.s, t: -p.from.t },
            to: { s: L - p.to.s, t: -p.to.t },
            band: flipped(p.band),
          }),
          slab => ({
            s: [L - slab.s[1], L - slab.s[0]],
            left: reversed(negated(slab.right)),
            right: reversed(negated(slab.left)),
          }),
        );
        expectSame(values(exposure(turned)), values(exposure(job)));
      }),
      { numRuns: 300 },
    );
  });

  it('moved in time: only the last touch moves', () => {
    fc.assert(
      fc.property(anyJob, fc.integer({ min: -86_400, max: 86_400 }), (job, by) => {
        const later = exposure(mapped(job, p => ({ ...p, start: p.start + by, end: p.end + by })));
        const before = exposure(job);
        expectSame({ ...values(later), lastTouch: null }, { ...values(before), lastTouch: null });
        if (before.lastTouch) {
          expect(later.lastTouch!.greatest.seconds - before.lastTouch.greatest.seconds).toBeCloseTo(by, 4);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('a deposit split in two: areas add up, extremes are those of the parts', () => {
    fc.assert(
      fc.property(anyJob, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (job, share) => {
        const whole = exposure(job);
        const [s0, s1] = whole.area.s;
        const cut = s0 + share * (s1 - s0);
        const part = (range: Range) =>
          exposure({ ...job, area: job.area.map(slab => cutSlab(slab, range)).filter(slab => slab !== undefined) });
        const [near, far] = [part([s0, cut]), part([cut, s1])];
        expect(near.area.squareMetres + far.area.squareMetres).toBeCloseTo(whole.area.squareMetres, 6);
        for (const clock of clocks) {
          const parts = [near[clock], far[clock]].filter(range => range !== null);
          if (!whole[clock]) {
            expect(parts).toEqual([]);
            continue;
          }
          expect(Math.min(...parts.map(range => range.least.seconds))).toBeCloseTo(whole[clock].least.seconds, 3);
          expect(Math.max(...parts.map(range => range.greatest.seconds))).toBeCloseTo(whole[clock].greatest.seconds, 3);
        }
        for (const gap of whole.gaps) {
          const areas = [near, far].map(found => found.gaps.find(g => g.kind === gap.kind)?.area ?? 0);
          expect(areas[0]! + areas[1]!).toBeCloseTo(gap.area, 3);
        }
        // As two slabs of one area it is the very same.
        const both = job.area.flatMap(slab => [cutSlab(slab, [s0, cut]), cutSlab(slab, [cut, s1])]);
        expectSame(values(exposure({ ...job, area: both.filter(slab => slab !== undefined) })), values(whole));
      }),
      { numRuns: 200 },
    );
  });

  it('a pass cut in two at any place is the same pass', () => {
    fc.assert(
      fc.property(anyJob, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (job, share) => {
        const cut = {
          ...job,
          tracks: job.tracks.map(track => ({
            does: track.does,
            passes: track.passes.flatMap(p => {
              const s = p.from.s + share * (p.to.s - p.from.s);
              const time = p.start + share * (p.end - p.start);
              return [
                { ...p, to: { s, t: p.to.t }, end: time },
                { ...p, from: { s, t: p.from.t }, start: time },
              ];
            }),
          })),
        };
        expectSame(values(exposure(cut)), values(exposure(job)));
      }),
      { numRuns: 200 },
    );
  });
});
