/**
 * Exact exposure against a raster of 0.25 m, side by side in one run: `node tests/bench/exposure.bench.ts`.
 * Warm; medians of the processor time that the process used, so that a busy machine, which interrupts the long raster
 * more often than the short exact run, does not flatter the ratio. The raster fills arrays that were made before; the
 * exact side makes its whole result.
 */

import { rectangle } from '../../language/exposure/deposit.ts';
import type { ExposureInput } from '../../language/exposure/exposure.ts';
import { exposure } from '../../language/exposure/exposure.ts';
import { circuitPattern, rinsePattern, sideBySidePattern, sprayPattern } from '../../language/tracks/patterns.ts';
import { timeConvoy, timeRun } from '../../language/tracks/timing.ts';
import type { Track } from '../../language/tracks/track.ts';
import { fillRaster, newRaster } from '../unit/exposure/raster.ts';

const kmh = 1 / 3.6;

/** A whole chemical job on a rectangle: spray, two brooms out and in, rinse, pick up. */
function chemicalJob(length: number, width: number): ExposureInput {
  const bay = [0, length] as const;
  const half = width / 2;
  const turning = { radius: 7, speed: 6 * kmh, fixed: 5 };
  const tank = { kind: 'empties', capacity: 4000, perArea: 0.35, trip: { seconds: 240 }, service: 300 } as const;
  const spray = timeRun(
    sprayPattern({ bay, across: [-half, half], width: 9, overlap: 0.5 }).legs,
    { speed: 11.3 * kmh, turning, tank },
    0,
    0.35,
  ).run;
  const swept = 3.6 * Math.cos(Math.PI / 6);
  const brooms = timeConvoy(
    circuitPattern({ bay, edge: half, swept: [swept, swept], advance: swept / 2 }).members,
    [
      { speed: 8 * kmh, turning },
      { speed: 8 * kmh, turning, headway: 40 },
    ],
    spray.end + 1200,
  ).runs;
  const rinse = timeRun(
    rinsePattern({ bay, edge: half, widths: [4], advance: 2 }).members[0]!,
    { speed: 8 * kmh, turning },
    brooms.at(-1)!.end + 60,
  ).run;
  const pickup = timeRun(
    sideBySidePattern({ bay, across: [-half, half], width: 2.4, overlap: 0.2 }).legs,
    { speed: 8 * kmh, turning },
    rinse.end + 60,
  ).run;
  const tracks: Track[] = [
    { does: 'apply', passes: spray.passes },
    ...brooms.map(run => ({ does: 'contact', passes: run.passes }) as const),
    { does: 'rinse', passes: rinse.passes },
    { does: 'pickup', passes: pickup.passes },
  ];
  return { area: rectangle(bay, [-half, half]), tracks, rate: 0.35 };
}

/** The same with sprayer and one broom only, about as many passes as the computation notes were measured with. */
function sprayAndBroom(length: number, width: number, runs: number): ExposureInput {
  const { area, tracks, rate } = chemicalJob(length, width);
  const half = width / 2;
  const swept = 3.6 * Math.cos(Math.PI / 6);
  const legs = circuitPattern({ bay: [0, length], edge: half, swept: [swept], advance: swept / 2, runs }).members[0]!;
  const spray = tracks[0]!;
  const start = spray.passes.at(-1)!.end + 1200;
  const broom = timeRun(legs, { speed: 8 * kmh, turning: { radius: 7, speed: 6 * kmh } }, start).run;
  return { area, tracks: [spray, { does: 'contact', passes: broom.passes }], rate: rate! };
}

/** Processor time of one run, ms: the median over `samples` batches of `batch` runs. */
function median(run: () => unknown, samples: number, batch: number): number {
  const times: number[] = [];
  for (let i = 0; i < 7; i++) run();
  while (times.length < samples) {
    const before = process.cpuUsage();
    for (let i = 0; i < batch; i++) run();
    const used = process.cpuUsage(before);
    times.push((used.user + used.system) / 1000 / batch);
  }
  return times.sort((x, y) => x - y)[times.length >> 1]!;
}

const jobs: [string, ExposureInput][] = [
  ['900 x 24 m, spray and broom', sprayAndBroom(900, 24, 1)],
  ['900 x 45 m, spray and broom', sprayAndBroom(900, 45, 1)],
  ['900 x 60 m, spray and broom', sprayAndBroom(900, 60, 1)],
  ['900 x 45 m, whole chemical job', chemicalJob(900, 45)],
  ['900 x 60 m, whole chemical job', chemicalJob(900, 60)],
];

// Warm the compiler on every shape of job before anything is timed.
for (let i = 0; i < 400; i++) for (const [, job] of jobs) exposure(job);

console.log(
  'job                              passes   cells   exact ms  raster ms     ratio   soak least exact/raster',
);
for (const [name, job] of jobs) {
  const passes = job.tracks.flatMap(track => track.passes.map(pass => ({ ...pass, does: track.does })));
  const found = exposure(job);
  const raster = newRaster(found.area.s, found.area.t, 0.25, 0.25);
  const exact = median(() => exposure(job), 15, 200);
  const coarse = median(() => fillRaster(raster, job.area, passes, job.rate!), 9, 1);
  console.log(
    [
      name.padEnd(31),
      String(passes.length).padStart(7),
      String(found.cells.length).padStart(7),
      exact.toFixed(4).padStart(10),
      coarse.toFixed(1).padStart(10),
      `${Math.round(coarse / exact)} x`.padStart(9),
      `${found.soak!.least.seconds.toFixed(2)} / ${raster.extremes[0]!.toFixed(2)} s`.padStart(26),
    ].join(' '),
  );
}

console.log('\nsame zone, more runs of the broom: cost against passes');
for (const runs of [1, 4, 16, 64]) {
  const job = sprayAndBroom(900, 45, runs);
  const passes = job.tracks.reduce((sum, track) => sum + track.passes.length, 0);
  const time = median(() => exposure(job), 11, 50);
  console.log(
    `${String(passes).padStart(6)} passes ${time.toFixed(3).padStart(8)} ms ${((1000 * time) / passes).toFixed(2)} us a pass`,
  );
}
