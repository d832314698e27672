/**
 * From the text of a job to tracks and exposure: the integrated example of the handbook, lags that are exact, bays, build-up,
 * tolerances, and the whole pipeline against brute force.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exposureContract, exposureResults } from '../../../language/exposure/contract.ts';
import type { BayTracks } from '../../../language/exposure/fromTracks.ts';
import {
  exposureOf,
  fewestBays,
  placedAt,
  tracksIn,
  tracksOf,
  tracksOfJob,
} from '../../../language/exposure/fromTracks.ts';
import { greatestLag, leastLag } from '../../../language/exposure/lags.ts';
import { spreadOf } from '../../../language/exposure/tolerances.ts';
import { analyseQuantities } from '../../../language/quantities/quantities.ts';
import { trackResults, tracksContract } from '../../../language/tracks/contract.ts';
import { fieldEfficiency } from '../../../language/tracks/turns.ts';
import { flat } from './jobs.ts';
import { type Draft, jobOf, jobText } from './jobText.ts';
import { fillRaster, newRaster } from './raster.ts';

async function workOf(draft: Draft = {}) {
  const job = await jobOf(jobText(draft));
  return { job, work: tracksOfJob(job)[0]! };
}

const named = (bay: BayTracks, step: string) => bay.activities.find(each => each.id.endsWith(`/${step}`))!;
const minutes = (value: number): number => value * 60;

describe('the integrated example of the handbook', () => {
  // Handbook 8.3, example Z [D]: invented inputs, exact outputs. 900 × 24 m, 0.5 L/m² with a 6 m boom at 5 km/h from a
  // 4,000 L tank, broom 2.4 m at 30° with 0.3 m overlap at 6 km/h and R = 7 m, turned at working speed.
  const z: Draft = {
    stations: '    0 12 12\n    900 12 12',
    sprayer: 'turning-radius: 7 m',
    spray: 'speed: 5 km/h\n    rate: 0.5 L/m2 of mix',
    broom: 'turning-radius: 7 m\n  turn-speed: 6 km/h',
    agitate: 'speed: 6 km/h\n    advance: 1.778461 m\n    returns: no',
  };

  it('spraying: 4 passes, 43.2 min of run, 3 turns, 3 loads, flow times time is rate times area', async () => {
    const { work } = await workOf(z);
    const { run } = named(work.bays[0]!, 'Spray').machines[0]!;
    // A pass of 900 m takes 2,700 L: the 4,000 L tank does not last for a second one, so it fills up before each.
    expect(run.passes.length).toBe(4);
    expect(run.passes.reduce((sum, pass) => sum + pass.end - pass.start, 0)).toBeCloseTo(2592, 6);
    expect(run.used).toBeCloseTo(10_800, 6);
    expect(run.turns.length + run.trips.length).toBe(3);
  });

  it('brooming: 7 circuits, 12,600 m straight, 449.2 m in 13 turns, 130.5 min, field efficiency 0.7964', async () => {
    const { work } = await workOf(z);
    const activity = named(work.bays[0]!, 'Agitate');
    const { run, width, speed } = activity.machines[0]!;
    expect(activity.circuits).toBe(7);
    expect(width).toBeCloseTo(2.0785, 4);
    expect(run.passes.length).toBe(14);
    expect(run.turns.length).toBe(13);
    expect(run.distance.working).toBeCloseTo(12_600, 6);
    expect(run.distance.turning).toBeCloseTo(449.2, 1);
    expect((activity.end - activity.start) / 60).toBeCloseTo(130.5, 1);
    expect(fieldEfficiency(21_600, width, speed, activity.end - activity.start)).toBeCloseTo(0.7964, 4);
  });

  it('the same through the explained quantities', async () => {
    const { job, work } = await workOf(z);
    const { known } = analyseQuantities(job, { works: [work], exposures: work.bays.map(exposureOf) });
    const value = (path: string): number => known.get(`North.${path}`)!.value;
    expect(value('Agitate.efficiency')).toBeCloseTo(0.7964, 4);
    expect(value('Agitate.turning')).toBeCloseTo(449.2, 1);
    expect(value('Agitate.time') / 60).toBeCloseTo(130.5, 1);
    expect(value('Spray.laid')).toBeCloseTo(10.8, 9);
    expect(value('rinseWater')).toBeCloseTo(64.8, 9);
  });

  it('every tracked quantity is explained down to lines of the text', async () => {
    const { job, work } = await workOf(z);
    const { known } = analyseQuantities(job, { works: [work], exposures: work.bays.map(exposureOf) });
    const plain = new Set(analyseQuantities(job).known.keys());
    const tracked = [...known.values()].filter(each => !plain.has(each.path));
    expect(tracked.length).toBeGreaterThan(20);
    for (const each of tracked) {
      expect(each.formula, each.path).toBeDefined();
      const leaves = [...leavesOf(each)];
      expect(
        leaves.some(leaf => leaf.place !== undefined),
        each.path,
      ).toBe(true);
    }
  });
});

function* leavesOf(each: { inputs: readonly unknown[]; place?: unknown }): Generator<{ place?: unknown }> {
  if (each.inputs.length === 0) yield each;
  for (const input of each.inputs) yield* leavesOf(input as never);
}

describe('lags', () => {
  it('with the least lag the shortest soak is the limit, at some point exactly and nowhere less', async () => {
    const { work } = await workOf({ work: 'bays: 2', agitate: 'speed: 11 km/h' });
    for (const bay of work.bays) expect(bay.exposure.soak!.least.seconds).toBeCloseTo(1800, 6);
  });

  it('agree with the exposure at any start', async () => {
    const { work } = await workOf();
    const bay = work.bays[0]!;
    const [spray, agitate, rinse] = ['Spray', 'Agitate', 'Rinse'].map(step => named(bay, step)) as [
      never,
      never,
      never,
    ];
    const at = (activity: (typeof bay.activities)[number]) => tracksIn(activity);
    const lag = leastLag(bay.slabs, at(spray), at(agitate), { soak: 3000, rate: 0.35 })!;
    const moved = placedAt(bay, new Map([[named(bay, 'Agitate').id, named(bay, 'Agitate').start + lag]]));
    expect(exposureOf(moved).exposure.soak!.least.seconds).toBeCloseTo(3000, 6);
    const most = greatestLag(bay.slabs, at(spray), at(rinse), { residence: 50_000 })!;
    const late = placedAt(bay, new Map([[named(bay, 'Rinse').id, named(bay, 'Rinse').start + most]]));
    expect(exposureOf(late).exposure.residence!.greatest.seconds).toBeCloseTo(50_000, 6);
  });

  it('the listed bounds are those of the exposure', async () => {
    const { work } = await workOf({ soak: 'at-least: 30 min\n    at-most: 19 h' });
    const bay = work.bays[0]!;
    const listed = bay.lags.find(each => each.why === 'longest residence')!;
    const start = named(bay, 'Spray').start + listed.greatest!;
    const late = placedAt(bay, new Map([[listed.to, start]]));
    expect(exposureOf(late).exposure.residence!.greatest.seconds).toBeCloseTo(19 * 3600, 5);
  });

  it('steps wait for the interval that the method asks for', async () => {
    const { work } = await workOf({ rinse: 'speed: 6 km/h\n    rate: 3 L/m2 of water\n    interval: 5 to 20 min' });
    const bay = work.bays[0]!;
    expect(named(bay, 'Rinse').start - named(bay, 'Agitate').end).toBeCloseTo(300, 9);
  });

  it('soak from the end of the bay counts from the last pass', async () => {
    const { work } = await workOf({ soak: 'at-least: 30 min\n    dwell-from: end of bay' });
    const bay = work.bays[0]!;
    expect(named(bay, 'Agitate').start - named(bay, 'Spray').end).toBeCloseTo(1800, 6);
  });
});

describe('bays', () => {
  it('by number, by length, in either order', async () => {
    const three = (await workOf({ work: 'bays: 3' })).work.bays.map(each => each.bay.s);
    expect(three).toEqual([
      [200, 300],
      [300, 400],
      [400, 500],
    ]);
    const back = (await workOf({ work: 'bays: 120 m\n  order: towards threshold' })).work.bays.map(each => each.bay.s);
    expect(back).toEqual([
      [380, 500],
      [260, 380],
      [200, 260],
    ]);
  });

  it('auto: the fewest that keep the limit, and one less does not', async () => {
    const { job, work } = await workOf({ work: 'bays: auto', soak: 'at-least: 30 min\n    at-most: 100 min' });
    const limit = minutes(100);
    const worst = (count?: number): number =>
      Math.max(
        ...tracksOf(work.plan, job, count === undefined ? {} : { bays: count }).bays.map(
          each => each.exposure.residence!.greatest.seconds,
        ),
      );
    expect(work.bays.length).toBeGreaterThan(1);
    expect(worst()).toBeLessThanOrEqual(limit);
    expect(worst(work.bays.length - 1)).toBeGreaterThan(limit);
    expect(fewestBays(work.plan, job)).toBe(work.bays.length);
  });

  it('counts that would explode come back as a problem', async () => {
    expect((await workOf({ work: 'bays: 600' })).work.problems[0]).toMatchObject({ kind: 'too many bays', value: 600 });
    const thin = (await workOf({ agitate: 'speed: 6 km/h\n    advance: 1 mm' })).work;
    expect(thin.problems[0]).toMatchObject({ kind: 'too many lanes' });
  });
});

describe('steps', () => {
  it('pre-wet only on hot pavement; keep-wet every so often until the first broom', async () => {
    const wets = `  step PreWet {
    does: pre-wet
    by: Tanker
    speed: 12 km/h
    rate: 0.3 L/m2 of water
    when: >= 30 °C
  }
`;
    const keeps = `  step KeepWet {
    does: keep-wet
    by: Tanker
    speed: 12 km/h
    rate: 0.2 L/m2 of water
    every: 12 min
  }
`;
    const weather = (surface: number) =>
      `conditions {\n  air: 20 °C\n  surface: ${surface} °C\n  humidity: 60 %\n  wind: 8 km/h\n}`;
    const hot = (await workOf({ before: wets, after: keeps, more: weather(36) })).work.bays[0]!;
    const cool = (await workOf({ before: wets, after: keeps, more: weather(20) })).work.bays[0]!;
    expect(hot.activities.some(each => each.does === 'pre-wet')).toBe(true);
    expect(cool.activities.some(each => each.does === 'pre-wet')).toBe(false);
    const runs = hot.activities.filter(each => each.does === 'keep-wet');
    expect(runs.length).toBeGreaterThanOrEqual(2);
    expect(runs[1]!.start - runs[0]!.start).toBeCloseTo(720, 9);
    for (const run of runs) expect(run.end).toBeLessThanOrEqual(named(hot, 'Agitate').start);
    // It shortens the wet gap, and leaves soak and residence alone.
    const without = (await workOf({ before: wets, more: weather(36) })).work.bays[0]!;
    expect(hot.exposure.wetGap!.greatest.seconds).toBeLessThan(without.exposure.wetGap!.greatest.seconds);
    expect(hot.exposure.soak!.least.seconds).toBeCloseTo(without.exposure.soak!.least.seconds, 6);
  });

  it('build-up changes coats, cycles and soak of the bays it lies in', async () => {
    const buildUp = '  build-up medium {\n    coats: 2\n    cycles: 3\n    soak: 45 min\n  }\n';
    const { work } = await workOf({ after: buildUp });
    const bay = work.bays[0]!;
    expect(named(bay, 'Spray').rounds).toBe(2);
    expect(named(bay, 'Spray').machines[0]!.run.passes[0]!.depth).toBeCloseTo(0.175, 9);
    expect(named(bay, 'Agitate').rounds).toBe(6);
    expect(bay.exposure.soak!.least.seconds).toBeCloseTo(2700, 6);
  });

  it('brooms in tandem: the same lane multiplies contacts, the next lane halves the circuits', async () => {
    const of = async (tandem: string) =>
      (await workOf({ agitate: `speed: 6 km/h\n    tandem: ${tandem} 20 m apart`, more: '' })).work.bays[0]!;
    const text = (tandem: string) =>
      jobText({ agitate: `speed: 6 km/h\n    tandem: ${tandem} lane 20 m apart` }).replace(
        'by: Broom1\n    speed: 6',
        'by: Broom1, Broom2\n    speed: 6',
      );
    const same = tracksOfJob(await jobOf(text('same')))[0]!.bays[0]!;
    const next = tracksOfJob(await jobOf(text('next')))[0]!.bays[0]!;
    const alone = await of('same lane');
    expect(same.exposure.contacts.least.count).toBe(2 * alone.exposure.contacts.least.count);
    expect(named(next, 'Agitate').circuits).toBe(Math.ceil(named(alone, 'Agitate').circuits! / 2));
    const lag = same.exposure && named(same, 'Agitate').machines.map(each => each.run.start);
    expect(lag[1]! - lag[0]!).toBeCloseTo(20 / (6 / 3.6), 9);
  });

  it('a further circuit gives the edge more contacts', async () => {
    const least = async (agitate: string) => (await workOf({ agitate })).work.bays[0]!.exposure.contacts.least.count;
    const plain = await least('speed: 6 km/h');
    expect(await least('speed: 6 km/h\n    extra-circuits: 1')).toBeGreaterThan(plain);
  });

  it('dry sweeping goes against the landing, with empty returns', async () => {
    const before = `  step Sweep {
    does: sweep
    by: Sweeper1
    speed: 18 km/h
    overlap: 0.3 m
    direction: against landing
  }
`;
    const { run } = named((await workOf({ before })).work.bays[0]!, 'Sweep').machines[0]!;
    expect(run.passes.every(pass => pass.to.s < pass.from.s)).toBe(true);
    expect(run.trips.filter(trip => trip.why === 'return').length).toBe(run.passes.length - 1);
  });

  it('rinsing repeats the first circuit as often as usual; the water of the step lasts for all circuits', async () => {
    const { work } = await workOf();
    const bay = work.bays[0]!;
    const rinse = named(bay, 'Rinse');
    const [truck] = rinse.machines;
    const first = truck!.run.passes.filter(pass => pass.lane === 1);
    expect(new Set(first.map(pass => pass.round)).size).toBe(3);
    expect(truck!.run.used).toBeCloseTo(3 * bay.bay.area, 6);
  });
});

describe('tolerances', () => {
  it('slow sprayer and fast broom make the shortest soak, all slow the longest residence', async () => {
    const { job, work } = await workOf({
      spray: 'speed: 8 km/h ± 10 %\n    rate: 0.35 L/m2 of mix',
      agitate: 'speed: 6 km/h ± 10 %',
    });
    const bay = work.bays[0]!;
    const spread = spreadOf(job, bay)!;
    expect(spread.leastSoak![0]).toBeLessThan(1800 - 1);
    expect(spread.leastSoak![1]).toBeGreaterThanOrEqual(1800 - 1e-6);
    expect(spread.residence![1]).toBeGreaterThan(bay.exposure.residence!.greatest.seconds);
    const { known } = analyseQuantities(job, { works: [work], exposures: work.bays.map(exposureOf) });
    expect(known.get('North.Soak.least')!.interval![0]).toBeCloseTo(spread.leastSoak![0], 9);
  });

  it('speeds in between never leave the corners', async () => {
    const at = async (spray: number, broom: number) => {
      const speeds = {
        spray: `speed: ${spray} km/h\n    rate: 0.35 L/m2 of mix`,
        agitate: `speed: ${broom} km/h`,
      };
      return (await workOf(speeds)).work.bays[0]!;
    };
    const nominal = await at(8, 6);
    const lag = named(nominal, 'Agitate').start - named(nominal, 'Spray').start;
    const { job, work } = await workOf({
      spray: 'speed: 8 km/h ± 10 %\n    rate: 0.35 L/m2 of mix',
      agitate: 'speed: 6 km/h ± 10 %',
    });
    const spread = spreadOf(job, work.bays[0]!)!;
    for (const [spray, broom] of [
      [7.4, 6.5],
      [8.7, 5.5],
      [7.25, 6.55],
      [8, 6.3],
    ] as const) {
      const bay = await at(spray, broom);
      const same = placedAt(bay, new Map([[named(bay, 'Agitate').id, named(bay, 'Spray').start + lag]]));
      const soak = exposureOf(same).exposure.soak!.least.seconds;
      expect(soak).toBeGreaterThanOrEqual(spread.leastSoak![0] - 1e-6);
      expect(soak).toBeLessThanOrEqual(spread.leastSoak![1] + 1e-6);
    }
  });

  it('no tolerance, no spread', async () => {
    const { job, work } = await workOf();
    expect(spreadOf(job, work.bays[0]!)).toBeUndefined();
  });
});

it('the results are as the contracts say', async () => {
  const { work } = await workOf({ work: 'bays: 2' });
  const tracks = trackResults(work.bays.map(({ activities }) => ({ work: 'North', activities })));
  expect(() => tracksContract.parse(tracks)).not.toThrow();
  expect(() => exposureContract.parse(exposureResults(work.bays.map(exposureOf)))).not.toThrow();
  expect(tracks[0]).toMatchObject({ work: 'North', bay: 1, step: 'Spray', does: 'apply', machine: 'Boom' });
});

describe('the whole pipeline against brute force', () => {
  const draft = fc.record({
    stations: fc.array(
      fc.tuple(fc.integer({ min: 20, max: 120 }), fc.integer({ min: -2, max: 13 }), fc.integer({ min: 3, max: 13 })),
      { minLength: 2, maxLength: 4 },
    ),
    bays: fc.integer({ min: 1, max: 3 }),
    spray: fc.integer({ min: 40, max: 120 }),
    broom: fc.integer({ min: 30, max: 110 }),
    tank: fc.integer({ min: 300, max: 4000 }),
    passRate: fc.constantFrom(0.12, 0.2, 0.4),
    advance: fc.constantFrom('half swept', 'half nominal', '1.7 m'),
    cycles: fc.integer({ min: 1, max: 2 }),
    back: fc.boolean(),
  });

  it('every cell has the clocks and counts that its points have', async () => {
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        let s = 100;
        const rows = of.stations.map(([step, left, right]) => {
          s += step;
          return `    ${s} ${left} ${right}`;
        });
        const { work } = await workOf({
          stations: rows.join('\n'),
          tank: `${of.tank} L`,
          spray: `speed: ${of.spray / 10} km/h\n    rate: 0.35 L/m2 of mix\n    pass-rate: ${of.passRate} L/m2`,
          agitate: `speed: ${of.broom / 10} km/h\n    advance: ${of.advance}\n    cycles: ${of.cycles}`,
          work: `bays: ${of.bays}${of.back ? '\n  order: towards threshold' : ''}`,
        });
        for (const bay of work.bays) {
          const { cells, area } = bay.exposure;
          const tracks = bay.activities.flatMap(tracksIn);
          const passes = flat({ area: bay.slabs, tracks });
          const raster = fillRaster(newRaster(area.s, area.t, 7.3, 0.71), bay.slabs, passes, 0.35);
          for (let row = 0; row < raster.rows; row++) {
            for (let column = 0; column < raster.columns; column++) {
              const at = row * raster.columns + column;
              if (!raster.inside[at]) continue;
              const [ps, pt] = [raster.sAt[column]!, raster.tAt[row]!];
              const cell = cells.find(
                each =>
                  each.s[0] <= ps &&
                  ps <= each.s[1] &&
                  each.t[0] - 1e-9 <= pt &&
                  pt <= each.t[1] + 1e-9 &&
                  nearEdge(each.t, pt),
              );
              if (!cell) continue;
              compared++;
              expect(cell.contacts).toBe(raster.contacts[at]);
              expect(cell.rinses).toBe(raster.rinses[at]);
              const share = (ps - cell.s[0]) / (cell.s[1] - cell.s[0]);
              const along = (of: readonly [number, number] | null): number =>
                of === null ? Number.NaN : of[0] + share * (of[1] - of[0]);
              near(along(cell.soak), raster.soak[at]!);
              near(along(cell.residence), raster.residence[at]!);
              near(along(cell.wetGap), raster.wetGap[at]!);
            }
          }
          if (bay.limits.soak !== undefined && bay.exposure.soak) {
            expect(bay.exposure.soak.least.seconds).toBeGreaterThan(bay.limits.soak - 1e-6);
          }
        }
      }),
      { numRuns: 25 },
    );
    expect(compared).toBeGreaterThan(1000);
  }, 120_000);
});

/** Well inside a cell: on an edge a point may belong to either side. */
function nearEdge(t: readonly [number, number], at: number): boolean {
  return at > t[0] + 1e-6 && at < t[1] - 1e-6;
}

function near(exact: number, raster: number): void {
  if (Number.isNaN(exact) && Number.isNaN(raster)) return;
  expect(Math.abs(exact - raster)).toBeLessThan(1e-5);
}

describe('the same job said otherwise', () => {
  const base: Draft = {
    stations: '    200 5 8\n    320 9 7\n    500 6 6',
    work: 'bays: 2\n  order: away from threshold',
  };
  const results = async (draft: Draft) => exposureResults((await workOf(draft)).work.bays.map(exposureOf));

  it('in US customary units', async () => {
    const first = await results(base);
    const feet = await jobOf(
      jobText(base)
        .replace('table chainage m, left m, right m', 'table chainage ft, left ft, right ft')
        .replace('    200 5 8\n    320 9 7\n    500 6 6', FEET)
        .replaceAll('8 km/h', '4.970969537898671 mph'),
    );
    const third = exposureResults(tracksOfJob(feet)[0]!.bays.map(exposureOf));
    third.forEach((bay, i) => {
      expect(bay.soak!.greatest.seconds).toBeCloseTo(first[i]!.soak!.greatest.seconds, 4);
      expect(bay.residence!.greatest.seconds).toBeCloseTo(first[i]!.residence!.greatest.seconds, 4);
      expect(bay.contacts).toMatchObject({ least: { count: first[i]!.contacts.least.count } });
    });
  });

  it('from the other end, left and right mirrored', async () => {
    const first = await results(base);
    const second = await results({
      stations: '    2100 6 6\n    2280 7 9\n    2400 8 5',
      end: '22',
      work: 'bays: 2\n  order: towards threshold',
    });
    second.forEach((bay, i) => {
      const other = first[i]!;
      expect(bay.soak!.least.seconds).toBeCloseTo(other.soak!.least.seconds, 5);
      expect(bay.soak!.greatest.seconds).toBeCloseTo(other.soak!.greatest.seconds, 5);
      expect(2600 - bay.soak!.greatest.s).toBeCloseTo(other.soak!.greatest.s, 5);
      expect(0 - bay.soak!.greatest.t).toBeCloseTo(other.soak!.greatest.t, 5);
      expect(bay.residence!.greatest.seconds).toBeCloseTo(other.residence!.greatest.seconds, 5);
    });
  });

  it('a deposit split in two', async () => {
    const whole = await results(base);
    const text = jobText(base)
      .replace(
        '    500 6 6\n  build-up: medium\n}',
        '  build-up: medium\n}\n\ndeposit Rest {\n  on: Main from "04"\n  stations: table chainage m, left m, right m\n    320 9 7\n    500 6 6\n  build-up: medium\n}',
      )
      .replace('removes: Zone', 'removes: Zone, Rest');
    const parts = exposureResults(tracksOfJob(await jobOf(text))[0]!.bays.map(exposureOf));
    expect(parts).toEqual(whole);
  });
});

const foot = (metres: number): string => (metres / 0.3048).toFixed(12);
const FEET = [
  [200, 5, 8],
  [320, 9, 7],
  [500, 6, 6],
]
  .map(row => `    ${row.map(foot).join(' ')}`)
  .join('\n');
