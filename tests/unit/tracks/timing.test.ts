import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptWidth } from '../../../language/tracks/lanes.ts';
import { circuitPattern, oneWayPattern, rinsePattern, sprayPattern } from '../../../language/tracks/patterns.ts';
import type { Mover, Run, Tank } from '../../../language/tracks/timing.ts';
import { timeConvoy, timeRun } from '../../../language/tracks/timing.ts';
import type { Leg } from '../../../language/tracks/track.ts';
import { headingOf, lengthOf } from '../../../language/tracks/track.ts';
import { turnLength } from '../../../language/tracks/turns.ts';

const kmh = 1 / 3.6;
const bay = [0, 900] as const;

/** Everything a machine did, in order of time. */
function movements(run: Run) {
  return [...run.passes, ...run.turns, ...run.trips].sort((a, b) => a.start - b.start || a.end - b.end);
}

/** One thing ends where and when the next begins; waits are the only holes in time. */
function expectContinuous(run: Run): void {
  const all = movements(run);
  for (let i = 1; i < all.length; i++) {
    expect(all[i]!.from.s).toBeCloseTo(all[i - 1]!.to.s, 6);
    expect(all[i]!.from.t).toBeCloseTo(all[i - 1]!.to.t, 6);
    expect(all[i]!.start).toBeGreaterThanOrEqual(all[i - 1]!.end - 1e-6);
  }
}

describe('example Z (handbook 8.3, all [D]: invented inputs, exact outputs)', () => {
  const { legs } = sprayPattern({ bay, across: [-12, 12], width: 6, overlap: 0 });
  const tank: Tank = {
    kind: 'empties',
    capacity: 4000,
    perArea: 0.5,
    trip: { seconds: 0 },
    service: 0,
    goes: 'when empty',
  };

  it('4 spray passes, 2,592 s at work, with 3 turns of 60 s 46.2 min', () => {
    const { run } = timeRun(legs, { speed: 5 * kmh, turning: { time: 60 } });
    expect(run.passes).toHaveLength(4);
    expect(run.passes.reduce((sum, pass) => sum + pass.end - pass.start, 0)).toBeCloseTo(2592, 6);
    expect(run.turns).toHaveLength(3);
    expect((run.end - run.start) / 60).toBeCloseTo(46.2, 6);
  });

  it('10,800 L in 3 loads of 4,000 L when the tank is emptied on the way; 250 L/min for 43.2 min', () => {
    const { run } = timeRun(legs, { speed: 5 * kmh, turning: { time: 60 }, tank });
    expect(run.used).toBeCloseTo(10_800, 6);
    expect(run.loads).toBe(3);
    expect(run.left).toBeCloseTo(1200, 6);
    expect(run.used / (run.passes.reduce((sum, pass) => sum + pass.end - pass.start, 0) / 60)).toBeCloseTo(250, 9);
    // A load lasts 8,000 m², 1,333.3 m of swath: inside the second and the third pass.
    expect(run.ranOut.map(({ leg, s }) => [leg, Math.round(s * 1000) / 1000])).toEqual([
      [1, 466.667],
      [2, 866.667],
    ]);
  });

  it('a tank that is filled before a pass it cannot finish needs 4 loads, not 3', () => {
    const { run } = timeRun(legs, {
      speed: 5 * kmh,
      turning: { time: 60 },
      tank: { ...tank, goes: 'before a pass' },
    });
    expect(run.loads).toBe(4);
    expect(run.ranOut).toEqual([]);
    expect(run.trips.map(trip => trip.amount)).toEqual([2700, 2700, 2700]);
  });

  it('broom: 12,600 m straight, 13 turns of 449.2 m, 130.5 min', () => {
    const swept = sweptWidth(2.4, Math.PI / 6);
    const pattern = circuitPattern({ bay, edge: 12, swept: [swept], advance: swept - 0.3, runs: 1 });
    const { run } = timeRun(pattern.members[0]!, { speed: 6 * kmh, turning: { radius: 7, speed: 6 * kmh } });
    expect(run.distance.working).toBeCloseTo(12_600, 6);
    expect(run.turns).toHaveLength(13);
    expect(run.distance.turning).toBeCloseTo(449.2, 1);
    expect((run.end - run.start) / 60).toBeCloseTo(130.5, 1);
    const semicircles = timeRun(pattern.members[0]!, {
      speed: 6 * kmh,
      turning: { radius: 0, speed: 6 * kmh, style: { wide: 'semicircle' } },
    }).run;
    expect(semicircles.distance.turning).toBeCloseTo(254.2, 1);
  });
});

const tankArb = fc.option(
  fc.record({
    kind: fc.constantFrom('empties' as const, 'fills' as const),
    capacity: fc.double({ min: 300, max: 8000, noNaN: true }),
    perArea: fc.double({ min: 0.1, max: 1, noNaN: true }),
    trip: fc.oneof(
      fc.record({ seconds: fc.double({ min: 0, max: 600, noNaN: true }) }),
      fc.record({ point: fc.constant({ s: 1200, t: 60 }), speed: fc.double({ min: 2, max: 8, noNaN: true }) }),
    ),
    service: fc.double({ min: 0, max: 600, noNaN: true }),
    goes: fc.constantFrom('before a pass' as const, 'when empty' as const),
  }),
  { nil: undefined },
);

const moverArb = fc
  .record({
    speed: fc.double({ min: 0.5, max: 6, noNaN: true }),
    radius: fc.double({ min: 0, max: 12, noNaN: true }),
    turnSpeed: fc.double({ min: 0.5, max: 4, noNaN: true }),
    fixed: fc.double({ min: 0, max: 30, noNaN: true }),
    headway: fc.double({ min: 0, max: 90, noNaN: true }),
    tank: tankArb,
  })
  .map(
    ({ speed, radius, turnSpeed, fixed, headway, tank }): Mover => ({
      speed,
      turning: { radius, speed: turnSpeed, fixed },
      headway,
      ...(tank && { tank }),
    }),
  );

const legsArb = fc
  .record({
    length: fc.double({ min: 40, max: 900, noNaN: true }),
    half: fc.double({ min: 3, max: 20, noNaN: true }),
    width: fc.double({ min: 2, max: 9, noNaN: true }),
    kind: fc.constantFrom('spray', 'circuits', 'rinse', 'one way'),
  })
  .map(({ length, half, width, kind }): readonly Leg[] => {
    const range = [0, length] as const;
    const across = [-half, half] as const;
    if (kind === 'spray') return sprayPattern({ bay: range, across, width, overlap: 0.3 }).legs;
    if (kind === 'one way') return oneWayPattern({ bay: range, across, width, overlap: 0.3 }).legs;
    if (kind === 'rinse')
      return rinsePattern({ bay: range, edge: half, widths: [width], advance: width / 2 }).members[0]!;
    return circuitPattern({ bay: range, edge: half, swept: [width], advance: width / 2 }).members[0]!;
  });

describe('any run of one machine', () => {
  it('is continuous in place and time, covers its legs exactly, and adds up', () => {
    fc.assert(
      fc.property(legsArb, moverArb, fc.double({ min: -1000, max: 1000, noNaN: true }), (legs, mover, start) => {
        const { run, problem } = timeRun(legs, mover, start);
        expect(problem).toBeUndefined();
        expectContinuous(run);
        expect(run.start).toBeCloseTo(start, 12);
        const worked = run.passes.reduce((sum, pass) => sum + lengthOf(pass), 0);
        expect(worked).toBeCloseTo(
          legs.reduce((sum, leg) => sum + lengthOf(leg), 0),
          4,
        );
        for (const pass of run.passes) {
          expect(pass.end - pass.start).toBeCloseTo(lengthOf(pass) / mover.speed, 6);
        }
        // A machine alone never waits: its time is all work, turns and trips.
        const busy = movements(run).reduce((sum, part) => sum + part.end - part.start, 0);
        expect(busy).toBeCloseTo(run.end - run.start, 4);
      }),
      { numRuns: 300 },
    );
  });

  it('turns have the length of the geometry', () => {
    fc.assert(
      fc.property(legsArb, moverArb, (legs, mover) => {
        const { run } = timeRun(legs, { speed: mover.speed, turning: mover.turning });
        const turning = mover.turning as { radius: number; speed: number; fixed: number };
        for (const turn of run.turns) {
          const length = turnLength(turn.to.t - turn.from.t, turning.radius) + Math.abs(turn.to.s - turn.from.s);
          expect(turn.length).toBeCloseTo(length, 9);
          expect(turn.end - turn.start).toBeCloseTo(length / turning.speed + turning.fixed, 6);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('tanks: the same loads as letting the liquid run out decimetre by decimetre', () => {
    fc.assert(
      fc.property(
        legsArb,
        moverArb.filter(mover => mover.tank !== undefined),
        (legs, mover) => {
          const tank = mover.tank!;
          const { run } = timeRun(legs, mover);
          let level = tank.capacity;
          let loads = 1;
          let dry = 0;
          for (const leg of legs) {
            const need = tank.perArea * (leg.band[1] - leg.band[0]) * lengthOf(leg);
            const early = tank.goes === 'before a pass' && need > level + 1e-9 * tank.capacity && level < tank.capacity;
            if (early) {
              level = tank.capacity;
              loads++;
            }
            const steps = Math.ceil(lengthOf(leg) * 10);
            for (let i = 0; i < steps; i++) {
              const sip = need / steps;
              if (level < sip * (1 - 1e-6)) {
                // Refilled in the middle of a decimetre: the rest of it comes from the new load.
                // A tank that ends with the leg is filled before the next one: not inside a pass.
                if (i > 0 || level > 1e-4 * sip) dry++;
                level += tank.capacity;
                loads++;
              }
              level -= sip;
            }
          }
          expect(Math.abs(run.loads - loads)).toBeLessThanOrEqual(nearlyEmpty(level, tank) ? 1 : 0);
          expect(Math.abs(run.ranOut.length - dry)).toBeLessThanOrEqual(nearlyEmpty(level, tank) ? 1 : 0);
          expect(run.used + run.left).toBeCloseTo(run.loads * tank.capacity - unused(run, tank), 3);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('lanes that do not end at the same chainage are joined by driving on', () => {
    const lane = (a: number, b: number, t: number): Leg => ({
      from: { s: a, t },
      to: { s: b, t },
      band: [t - 1, t + 1],
    });
    const { run } = timeRun([lane(0, 100, 0), lane(112, 0, 20)], { speed: 2, turning: { radius: 5, speed: 4 } });
    expect(run.turns[0]!.length).toBeCloseTo(12 + 5 * Math.PI + 10, 9);
    expect(run.distance.turning).toBeCloseTo(12 + 5 * Math.PI + 10, 9);
    expect(run.passes[1]!.start).toBeCloseTo(50 + (22 + 5 * Math.PI) / 4, 9);
    const flat = timeRun([lane(0, 100, 0), lane(112, 0, 20)], { speed: 2, turning: { time: 30 } }).run;
    expect(flat.passes[1]!.start).toBeCloseTo(50 + 30 + 6, 9);
  });

  it('one-way work comes back empty between its passes', () => {
    const { legs } = oneWayPattern({ bay, across: [-4, 4], width: 4, overlap: 0 });
    const { run } = timeRun(legs, { speed: 3, returnSpeed: 6, turning: { radius: 6, speed: 2 } });
    expect(run.passes.every(pass => headingOf(pass) === -1)).toBe(true);
    expect(run.trips).toHaveLength(1);
    expect(run.trips[0]).toMatchObject({ why: 'return', amount: 0 });
    expect(run.trips[0]!.end - run.trips[0]!.start).toBeCloseTo(150, 9);
    expect(run.turns).toHaveLength(2);
    expectContinuous(run);
  });
});

/** What was left in the tank at each visit. */
function unused(run: Run, tank: Tank): number {
  return run.trips.filter(trip => trip.why !== 'return').reduce((sum, trip) => sum + tank.capacity - trip.amount, 0);
}

function nearlyEmpty(level: number, tank: Tank): boolean {
  return level < 1e-3 * tank.capacity || level > tank.capacity * (1 - 1e-3);
}

describe('convoys', () => {
  it('keep their headway at both ends of every pass, whoever turns longer or goes to fill', () => {
    fc.assert(
      fc.property(
        fc.array(moverArb, { minLength: 2, maxLength: 4 }),
        fc.double({ min: 50, max: 500, noNaN: true }),
        fc.constantFrom('same lane' as const, 'next lane' as const),
        (movers, length, followers) => {
          const pattern = circuitPattern({
            bay: [0, length],
            edge: 8,
            swept: movers.map(() => 2.5),
            advance: 1.25,
            followers,
          });
          const { runs, problem } = timeConvoy(pattern.members, movers, 100);
          expect(problem).toBeUndefined();
          runs.forEach(expectContinuous);
          for (let j = 1; j < runs.length; j++) {
            const [ahead, behind] = [runs[j - 1]!.passes, runs[j]!.passes];
            expect(behind).toHaveLength(ahead.length);
            const headway = movers[j]!.headway!;
            let closest = Number.POSITIVE_INFINITY;
            behind.forEach((pass, i) => {
              const atStart = pass.start - ahead[i]!.start;
              const atEnd = pass.end - ahead[i]!.end;
              closest = Math.min(closest, atStart, atEnd);
              expect(Math.min(atStart, atEnd)).toBeGreaterThanOrEqual(headway - 1e-6);
            });
            // No more than asked, at the closer end.
            expect(closest).toBeCloseTo(headway, 4);
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  it('refuse what cannot be timed', () => {
    const { legs } = sprayPattern({ bay, across: [-6, 6], width: 6, overlap: 0 });
    expect(timeRun(legs, { speed: 0, turning: { time: 0 } }).problem).toMatchObject({ kind: 'no speed' });
    expect(timeRun(legs, { speed: Number.NaN, turning: { time: 0 } }).problem).toMatchObject({ kind: 'no speed' });
    const cup: Tank = { kind: 'empties', capacity: 0.2, perArea: 1, trip: { seconds: 1 }, service: 1 };
    expect(timeRun(legs, { speed: 1, turning: { time: 0 }, tank: cup }).problem).toMatchObject({
      kind: 'too many loads',
    });
    expect(timeRun([], { speed: 1, turning: { time: 0 }, tank: cup }, 7).run).toMatchObject({
      loads: 0,
      start: 7,
      end: 7,
    });
  });
});
