/** Random jobs for the exposure tests: from the patterns of the trade with turns and refills, and from plain chaos. */

import fc from 'fast-check';
import type { Slab } from '../../../language/exposure/deposit.ts';
import { mergeSlabs, rectangle, slabsOf } from '../../../language/exposure/deposit.ts';
import type { ExposureInput } from '../../../language/exposure/exposure.ts';
import { circuitPattern, rinsePattern, sideBySidePattern, sprayPattern } from '../../../language/tracks/patterns.ts';
import { timeConvoy, timeRun } from '../../../language/tracks/timing.ts';
import type { Does, Pass, Range, Track } from '../../../language/tracks/track.ts';
import type { RasterPass } from './raster.ts';

/** A job with its rate always given. */
export type Job = ExposureInput & { readonly rate: number };

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

/**
 * Lengths in steps of 1/4096 m: edges a micrometre apart are one edge by definition, and on which side of it a sliver
 * falls is no one's concern.
 */
const metres = (min: number, max: number) => real(min, max).map(onGrid);
const onGrid = (x: number): number => Math.round(x * 4096) / 4096;

/** Deposits that widen and narrow, lie to one side, or consist of two. */
export const areaArb: fc.Arbitrary<readonly Slab[]> = fc.oneof(
  fc
    .tuple(
      metres(0, 300),
      fc.array(fc.tuple(metres(5, 200), metres(0.5, 18), metres(0.5, 18)), { minLength: 2, maxLength: 4 }),
    )
    .map(([start, steps]) => {
      let s = start;
      return slabsOf(
        steps.map(([step, left, right], i) => {
          s += i === 0 ? 0 : step;
          return { s, left, right };
        }),
      );
    }),
  fc
    .tuple(metres(0, 200), metres(20, 300), metres(-18, 10), metres(1, 20))
    .map(([s, length, t, width]) => rectangle([s, s + length], [t, t + width])),
  // Several that overlap, merged.
  fc
    .array(
      fc
        .tuple(
          fc.integer({ min: 0, max: 80 }),
          fc.integer({ min: 1, max: 60 }),
          fc.array(fc.integer({ min: -12, max: 8 }), { minLength: 2, maxLength: 2 }),
          fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 2, maxLength: 2 }),
        )
        .map(
          ([s, length, [a, b], [c, d]]): Slab => ({ s: [s, s + length], left: [a!, b!], right: [a! + c!, b! + d!] }),
        ),
      { minLength: 1, maxLength: 4 },
    )
    .map(mergeSlabs),
  // Two fingers with bare pavement between them, one longer than the other.
  fc.tuple(metres(20, 200), metres(1, 8), real(0.5, 1)).map(([length, gap, share]): readonly Slab[] => [
    { s: [0, length], left: [-12, -9], right: [-gap, -gap] },
    { s: [0, onGrid(length * share)], left: [gap, gap], right: [11, 12] },
  ]),
);

const doesArb = fc.constantFrom<Does>('sweep', 'wet', 'apply', 'apply', 'contact', 'contact', 'rinse', 'jet', 'pickup');

/** Passes anywhere, at any time, in any direction. */
export const chaosArb: fc.Arbitrary<Job> = areaArb.chain(area => {
  const s0 = Math.min(...area.map(slab => slab.s[0]));
  const s1 = Math.max(...area.map(slab => slab.s[1]));
  const pass = fc
    .record({
      does: doesArb,
      s: fc.oneof({ weight: 2, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: real(-0.2, 0.8) }),
      length: fc.oneof({ weight: 2, arbitrary: fc.constant(1) }, { weight: 1, arbitrary: real(0.05, 1.2) }),
      t: metres(-20, 18),
      width: metres(0.3, 14),
      start: real(0, 3000),
      duration: real(0, 900),
      up: fc.boolean(),
      depth: fc.constantFrom(0.1, 0.2, 0.35, 0.5),
    })
    .map(({ does, s, length, t, width, start, duration, up, depth }): readonly [Does, Pass] => {
      const a = onGrid(s0 + s * (s1 - s0));
      const b = onGrid(a + length * (s1 - s0));
      const centre = t + width / 2;
      return [
        does,
        {
          from: { s: up ? a : b, t: centre },
          to: { s: up ? b : a, t: centre },
          band: [t, t + width],
          start,
          end: start + duration,
          ...(does === 'apply' && { depth }),
        },
      ];
    });
  return fc
    .tuple(fc.array(pass, { maxLength: 24 }), fc.constantFrom(0.1, 0.35, 0.5))
    .map(([passes, rate]) => ({ area, tracks: tracksOf(passes.map(apart)), rate }));
});

/**
 * No two passes at the very same time: which of them comes first is then a matter of definition, and of the last bit
 * of rounding where the two are a hair apart.
 */
function apart([does, pass]: readonly [Does, Pass], index: number): readonly [Does, Pass] {
  const by = index * 0.0137;
  return [does, { ...pass, start: pass.start + by, end: pass.end + by }];
}

/** A job as crews do it: pre-wet, spray with refills, brooms in tandem, jets or none, rinse, pick up. */
export const patternArb: fc.Arbitrary<Job> = fc
  .record({
    area: areaArb,
    boom: metres(3, 12),
    overlap: metres(0, 1),
    coats: fc.integer({ min: 1, max: 2 }),
    capacity: real(300, 4000),
    emptied: fc.boolean(),
    nominal: metres(1.5, 4),
    share: metres(0.4, 1),
    brooms: fc.integer({ min: 1, max: 3 }),
    next: fc.boolean(),
    runs: fc.integer({ min: 1, max: 3 }),
    lag: real(-600, 2400),
    speeds: fc.tuple(real(1, 4), real(1, 4), real(1, 4)),
    jets: fc.boolean(),
    wet: fc.boolean(),
    radius: real(0, 9),
  })
  .map(job => {
    const s0 = Math.min(...job.area.map(slab => slab.s[0]));
    const s1 = Math.max(...job.area.map(slab => slab.s[1]));
    const across: Range = [
      Math.min(...job.area.flatMap(slab => slab.left)),
      Math.max(...job.area.flatMap(slab => slab.right)),
    ];
    const bay: Range = [s0, s1];
    const edge = Math.max(1, Math.abs(across[0]), Math.abs(across[1]));
    const turning = { radius: job.radius, speed: 2, fixed: 4 };
    const rate = 0.35;
    const tracks: Track[] = [];
    let at = 0;
    if (job.wet) {
      const legs = sideBySidePattern({ bay, across, width: 8, overlap: 0.5 }).legs;
      const run = timeRun(legs, { speed: 4, turning }, at).run;
      tracks.push({ does: 'wet', passes: run.passes });
      at = run.end;
    }
    const tank = {
      kind: 'empties',
      capacity: job.capacity,
      perArea: rate,
      trip: { seconds: 200 },
      service: 120,
      goes: job.emptied ? 'when empty' : 'before a pass',
    } as const;
    const spray = timeRun(
      sprayPattern({ bay, across, width: job.boom, overlap: job.overlap, coats: job.coats }).legs,
      { speed: job.speeds[0], turning, tank },
      at,
      rate / job.coats,
    ).run;
    tracks.push({ does: 'apply', passes: spray.passes });
    const swept = Array.from({ length: job.brooms }, () => job.nominal);
    const pattern = circuitPattern({
      bay,
      edge,
      swept,
      advance: job.nominal * job.share,
      runs: job.runs,
      followers: job.next ? 'next lane' : 'same lane',
    });
    const movers = swept.map(() => ({ speed: job.speeds[1], turning, headway: 25 }));
    const brooms = timeConvoy(pattern.members, movers, spray.end + job.lag).runs;
    for (const run of brooms) tracks.push({ does: 'contact', passes: run.passes });
    at = Math.max(...brooms.map(run => run.end));
    if (job.jets) {
      const legs = sideBySidePattern({ bay, across, width: 2.5, overlap: 0.2 }).legs;
      const run = timeRun(legs, { speed: 2, turning }, at - 300).run;
      tracks.push({ does: 'jet', passes: run.passes });
      at = run.end;
    }
    const rinse = timeRun(
      rinsePattern({ bay, edge, widths: [4], advance: 2 }).members[0]!,
      { speed: job.speeds[2], turning },
      at,
    ).run;
    tracks.push({ does: 'rinse', passes: rinse.passes });
    const pickup = timeRun(
      sideBySidePattern({ bay, across, width: 2.4, overlap: 0.1 }).legs,
      { speed: 3, turning },
      rinse.end,
    ).run;
    tracks.push({ does: 'pickup', passes: pickup.passes });
    return { area: job.area, tracks, rate };
  });

/** Everything on multiples of half a metre, so that a raster of a quarter metre misses no strip. */
export const gridArb: fc.Arbitrary<Job> = fc
  .tuple(fc.integer({ min: 4, max: 40 }), fc.integer({ min: 2, max: 20 }))
  .chain(([halfMetres, half]) => {
    const pass = fc
      .record({
        does: doesArb,
        t: fc.integer({ min: -half - 2, max: half }),
        width: fc.integer({ min: 1, max: 12 }),
        start: fc.integer({ min: 0, max: 2000 }),
        duration: fc.integer({ min: 1, max: 300 }),
        up: fc.boolean(),
      })
      .map(({ does, t, width, start, duration, up }): readonly [Does, Pass] => [
        does,
        {
          from: { s: up ? 0 : halfMetres / 2, t: 0 },
          to: { s: up ? halfMetres / 2 : 0, t: 0 },
          band: [t / 2, (t + width) / 2],
          start,
          end: start + duration,
          ...(does === 'apply' && { depth: 0.35 }),
        },
      ]);
    return fc.array(pass, { minLength: 2, maxLength: 20 }).map(passes => ({
      area: rectangle([0, halfMetres / 2], [-half / 2, half / 2]),
      tracks: tracksOf(passes),
      rate: 0.35,
    }));
  });

/** Passes gathered by what they do. */
export function tracksOf(passes: readonly (readonly [Does, Pass])[]): readonly Track[] {
  const kinds = [...new Set(passes.map(([does]) => does))];
  return kinds.map(does => ({ does, passes: passes.filter(([what]) => what === does).map(([, pass]) => pass) }));
}

/** The passes of a job as the raster wants them. */
export function flat(job: ExposureInput): RasterPass[] {
  return job.tracks.flatMap(track => track.passes.map(pass => ({ ...pass, does: track.does })));
}

/** The same job with every place and time changed by functions. */
export function mapped(
  job: Job,
  changePass: (pass: Pass) => Pass,
  changeSlab: (slab: Slab) => Slab = slab => slab,
): Job {
  return {
    ...job,
    area: job.area.map(changeSlab),
    tracks: job.tracks.map(track => ({ does: track.does, passes: track.passes.map(changePass) })),
  };
}
