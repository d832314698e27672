/** Properties that hold whatever the numbers: identities, inverse pairs, monotone directions, totality. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as application from '../../../language/formulas/application.ts';
import * as brooms from '../../../language/formulas/brooms.ts';
import * as capacity from '../../../language/formulas/capacity.ts';
import { ceilForgiving, floorForgiving } from '../../../language/formulas/counting.ts';
import * as evaporation from '../../../language/formulas/evaporation.ts';
import * as jets from '../../../language/formulas/jets.ts';
import * as noise from '../../../language/formulas/noise.ts';
import * as sun from '../../../language/formulas/sun.ts';
import * as texture from '../../../language/formulas/texture.ts';
import * as water from '../../../language/formulas/water.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const rate = between(1e-5, 1e-2);
const speed = between(0.2, 15);
const width = between(0.5, 30);
const pressure = between(1e4, 3e8);

function expectSame(a: number, b: number, relative = 1e-9) {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(Math.abs(a), Math.abs(b), 1e-300));
}

describe('spraying', () => {
  it('flow times time is rate times area', () => {
    fc.assert(
      fc.property(rate, speed, width, between(1, 4000), (r, v, w, length) => {
        expectSame(application.boomFlow(r, v, w) * (length / v), r * (length * w));
      }),
    );
  });
  it('rate, flow and speed undo each other', () => {
    fc.assert(
      fc.property(rate, speed, width, (r, v, w) => {
        const flow = application.boomFlow(r, v, w);
        expectSame(application.applicationRate(flow, v, w), r);
        expectSame(application.speedForRate(flow, r, w), v);
      }),
    );
  });
  it('an error of speed gives the error of rate that the rate itself shows', () => {
    fc.assert(
      fc.property(rate, speed, between(-0.5, 0.5), (r, v, error) => {
        const actual = application.rateAtSpeed(r, v, v * (1 + error));
        expect(actual / r - 1).toBeCloseTo(application.rateErrorFromSpeedError(error), 9);
      }),
    );
  });
  it('loads carry the volume: all but the last are full, the last is not empty', () => {
    fc.assert(
      fc.property(between(0.1, 100), between(0.5, 20), (volume, tank) => {
        const { count, last } = application.tankLoads(volume, tank);
        expectSame((count - 1) * tank + last, volume);
        expect(last).toBeGreaterThan(0);
        expect(last).toBeLessThanOrEqual(tank * (1 + 1e-8) + 1e-8 * volume);
      }),
    );
  });
  it('exact multiples need no extra load, coat or pass', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), between(0.01, 50), (n, unit) => {
        expect(application.tankLoads(n * unit, unit).count).toBe(n);
        expect(application.coats(n * unit, unit)).toBe(n);
        expect(application.passes(n * unit, unit, 0)).toBe(n);
      }),
    );
    expect(application.coats(1.1, 0.1)).toBe(11);
  });
  it('passes cover the width and one fewer does not', () => {
    fc.assert(
      fc.property(between(1, 80), between(1, 12), between(0, 0.9), (w, swath, share) => {
        const overlap = share * swath;
        const count = application.passes(w, swath, overlap);
        const covered = (n: number) => n * application.advance(swath, overlap) + overlap;
        expect(covered(count)).toBeGreaterThanOrEqual(w * (1 - 1e-6));
        if (count > 1) expect(covered(count - 1)).toBeLessThan(w);
      }),
    );
    expect(application.passes(24, 2, 2)).toBe(Number.POSITIVE_INFINITY);
    expect(application.passes(0, 2, 1)).toBe(0);
  });
  it('parts and shares undo each other, and 1 to 4 is a fifth', () => {
    expect(application.shareFromParts(1, 4)).toBe(0.2);
    fc.assert(
      fc.property(between(0.01, 1), between(0.1, 100), (share, mix) => {
        expectSame(application.shareFromParts(1, application.waterPartsFromShare(share)), share);
        const volumes = application.mixVolumes(mix, share);
        expectSame(volumes.product + volumes.water, mix);
        expectSame(application.mixRate(volumes.product, share), mix);
      }),
    );
    expect(application.mixRelativeDensity(1.2, 0.25)).toBeCloseTo(1.05, 12);
  });
  it('deviations from the mean add up to nothing', () => {
    fc.assert(
      fc.property(fc.array(between(0.1, 10), { minLength: 1, maxLength: 40 }), flows => {
        const sum = application.deviationsFromMean(flows).reduce((total, each) => total + each, 0);
        expect(Math.abs(sum)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('nozzle calibration', () => {
  const points = fc.array(fc.tuple(between(0.02, 1), between(0.02, 1)), { minLength: 1, maxLength: 8 }).map(steps => {
    let [pressure, flow] = [1e5, 1e-5];
    return steps.map(([dp, dq]) => {
      pressure += dp * 1e5;
      flow += dq * 1e-5;
      return { pressure, flow };
    });
  });

  it('meets every point, whatever their order, and calls them inside', () => {
    fc.assert(
      fc.property(points, fc.boolean(), (given, turned) => {
        const order = turned ? given.toReversed() : given;
        for (const point of given) {
          const flow = application.calibratedFlow(order, point.pressure)!;
          expect(flow.range).toBe('inside');
          expectSame(flow.value, point.flow);
          expectSame(application.calibratedPressure(order, point.flow)!.value, point.pressure);
        }
      }),
    );
  });
  it('flow and pressure undo each other, inside and outside the points', () => {
    fc.assert(
      fc.property(points, between(2e4, 2e6), (given, p) => {
        const flow = application.calibratedFlow(given, p)!;
        const back = application.calibratedPressure(given, flow.value)!;
        expectSame(back.value, p, 1e-7);
      }),
    );
  });
  it('rises with pressure and says where the points end', () => {
    fc.assert(
      fc.property(points, between(2e4, 2e6), between(1.001, 2), (given, p, factor) => {
        expect(application.calibratedFlow(given, p * factor)!.value).toBeGreaterThan(
          application.calibratedFlow(given, p)!.value,
        );
        const first = given[0]!.pressure;
        const last = given.at(-1)!.pressure;
        expect(application.calibratedFlow(given, first / factor)!.range).toBe('below');
        expect(application.calibratedFlow(given, last * factor)!.range).toBe('above');
      }),
    );
  });
  it('is the root law where the points are', () => {
    const rooted = [1e5, 2e5, 4e5].map(p => ({ pressure: p, flow: 1e-6 * Math.sqrt(p) }));
    fc.assert(
      fc.property(between(1e4, 1e6), p =>
        expectSame(application.calibratedFlow(rooted, p)!.value, 1e-6 * Math.sqrt(p)),
      ),
    );
  });
  it('refuses points that are no calibration', () => {
    const fault = application.calibrationFault;
    expect(fault([])).toBe('no points');
    expect(fault([{ pressure: 0, flow: 1 }])).toBe('not positive');
    expect(fault([{ pressure: Number.NaN, flow: 1 }])).toBe('not positive');
    expect(
      fault([
        { pressure: 1, flow: 2 },
        { pressure: 2, flow: 2 },
      ]),
    ).toBe('not increasing');
    expect(
      fault([
        { pressure: 1, flow: 2 },
        { pressure: 1, flow: 3 },
      ]),
    ).toBe('not increasing');
    expect(application.calibratedFlow([], 1e5)).toBeUndefined();
    expect(application.calibratedFlow([{ pressure: 1e5, flow: 1 }], -1)).toBeUndefined();
    expect(application.calibratedPressure([{ pressure: 1e5, flow: 1 }], Number.NaN)).toBeUndefined();
  });
  it('a denser mix flows less, and the correction undoes itself', () => {
    fc.assert(
      fc.property(between(1e-6, 1e-3), between(0.8, 1.4), (flow, density) => {
        const mix = application.flowOfMix(flow, density);
        expect(mix < flow).toBe(density > 1);
        expectSame(application.equivalentWaterFlow(mix, density), flow);
        // The orifice equation with the mix's density says the same.
        expectSame(
          mix / flow,
          jets.nozzleFlow(0.004, 3e5, 0.9, density * 1000) / jets.nozzleFlow(0.004, 3e5, 0.9),
          1e-9,
        );
      }),
    );
  });
});

describe('jets', () => {
  const bore = between(5e-4, 0.05);
  const discharge = between(0.6, 1);

  it('flow, pressure and bore undo each other', () => {
    fc.assert(
      fc.property(bore, pressure, discharge, (d, p, cd) => {
        const flow = jets.nozzleFlow(d, p, cd);
        expectSame(jets.nozzlePressure(d, flow, cd), p);
        expectSame(jets.nozzleDiameter(flow, p, cd), d);
      }),
    );
  });
  it('power is half the force times the speed of the jet', () => {
    fc.assert(
      fc.property(between(1e-5, 0.1), pressure, (flow, p) => {
        expectSame(jets.hydraulicPower(flow, p), (jets.jetForce(flow, p) * jets.jetSpeed(p)) / 2);
        expect(jets.shaftPower(flow, p, 0.8)).toBeGreaterThan(jets.hydraulicPower(flow, p));
      }),
    );
  });
  it('the head is the height from which water falls to the speed of the jet', () => {
    fc.assert(
      fc.property(pressure, p => {
        expectSame(jets.jetSpeed(p), Math.sqrt(2 * jets.standardGravity * jets.pressureHead(p)));
      }),
    );
  });
  it('every pressure has a class in every edition, and classes rise with pressure', () => {
    fc.assert(
      fc.property(
        between(0, 4e8),
        between(0, 4e8),
        fc.constantFrom<jets.PressureClassEdition[]>('sspc-nace-water-jetting', 'sspc-nace-2002-2012', 'wjta-practice'),
        (a, b, edition) => {
          const rank = (p: number) => {
            const found = jets.pressureClass(p, edition);
            return jets.pressureClasses[edition].findIndex(({ name }) => name === found?.name);
          };
          expect(rank(a)).toBeGreaterThanOrEqual(0);
          expect(rank(Math.max(a, b))).toBeGreaterThanOrEqual(rank(Math.min(a, b)));
        },
      ),
    );
  });
});

describe('capacity', () => {
  it('capacity times the time of the path is the area', () => {
    fc.assert(
      fc.property(
        width,
        speed,
        between(100, 1e5),
        between(0, 2000),
        between(0, 2000),
        (w, v, straight, turn, serve) => {
          const path = {
            area: 0.8 * straight * w,
            width: w,
            speed: v,
            straightLength: straight,
            turnTime: turn,
            serviceTime: serve,
          };
          const efficiency = capacity.pathEfficiency(path);
          expect(efficiency).toBeLessThanOrEqual(0.8 + 1e-9);
          expectSame(capacity.fieldCapacity(v, w, efficiency) * capacity.pathTime(path), path.area);
        },
      ),
    );
  });
  it('refilling lengthens the work', () => {
    fc.assert(
      fc.property(between(1, 1e5), between(0.01, 10), between(0, 0.9), (area, r, share) => {
        expectSame(capacity.productionTime(area, r, share) * (1 - share), area / r);
      }),
    );
  });
});

describe('brooms', () => {
  it('interior contacts average the swept width over the advance', () => {
    fc.assert(
      fc.property(between(0.3, 4), between(0.1, 4), (swept, advance) => {
        const contacts = brooms.interiorContacts(swept, advance)!;
        const mean = contacts.least * contacts.shareAtLeast + contacts.most * (1 - contacts.shareAtLeast);
        expect(Math.abs(mean - swept / advance)).toBeLessThan(1e-6);
      }),
    );
  });
  it('half the swept width is two contacts everywhere inside, at any angle', () => {
    fc.assert(
      fc.property(between(0.5, 5), between(0, 1.2), (broom, angle) => {
        const swept = brooms.sweptWidth(broom, angle);
        const advance = brooms.halfBroomAdvance(broom, angle, 'swept');
        expect(brooms.interiorContacts(swept, advance)).toEqual({ least: 2, most: 2, shareAtLeast: 1 });
        expect(brooms.overlapShare(swept, advance)).toBeCloseTo(0.5, 12);
        expect(brooms.halfBroomAdvance(broom, angle, 'nominal')).toBeGreaterThanOrEqual(advance);
      }),
    );
    expect(brooms.interiorContacts(0, 1)).toBeUndefined();
    expect(brooms.interiorContacts(1, 0)).toBeUndefined();
  });
});

describe('evaporation and water', () => {
  const weather = fc.record({
    surfaceTemperature: between(1, 60),
    airTemperature: between(1, 40),
    humidity: between(0.05, 0.95),
    wind: between(0, 12),
  });

  it('rises with surface temperature, falls with humidity, in every equation', () => {
    const equations = [
      evaporation.menzelEvaporation,
      evaporation.menzelEvaporationUs,
      evaporation.unoEvaporation,
      evaporation.unoEvaporationExact,
      evaporation.unoEvaporationUs,
    ];
    fc.assert(
      fc.property(weather, fc.constantFrom(...equations), (at, equation) => {
        expect(equation({ ...at, surfaceTemperature: at.surfaceTemperature + 1 })).toBeGreaterThan(equation(at));
        expect(equation({ ...at, humidity: at.humidity + 0.04 })).toBeLessThan(equation(at));
      }),
    );
  });
  it('the band holds its middle, and twice the film lasts twice as long', () => {
    fc.assert(
      fc.property(between(1e-4, 5e-3), weather, (depth, at) => {
        const life = evaporation.filmLife(depth, evaporation.menzelEvaporation(at));
        expect(life.least).toBeLessThanOrEqual(life.nominal);
        expect(life.nominal).toBeLessThanOrEqual(life.greatest);
        const twice = evaporation.filmLife(2 * depth, evaporation.menzelEvaporation(at));
        if (Number.isFinite(life.nominal)) expectSame(twice.nominal, 2 * life.nominal);
      }),
    );
  });
  it('the dew point saturates, and lies at or under the air', () => {
    fc.assert(
      fc.property(between(-30, 60), between(0.02, 1), (air, humidity) => {
        const dew = evaporation.dewPoint(air, humidity);
        expectSame(evaporation.saturationVapourPressure(dew), humidity * evaporation.saturationVapourPressure(air));
        expect(dew).toBeLessThanOrEqual(air + 1e-9);
      }),
    );
  });
  it('water that is applied is collected, evaporated, retained or tracked off', () => {
    fc.assert(
      fc.property(between(0, 1), between(0, 1), between(0, 1), (evaporated, retained, trackedOff) => {
        const applied = 3;
        const collected = water.runoffToCollect({ applied, evaporated, retained, trackedOff });
        expectSame(collected + evaporated + retained + trackedOff, applied);
        expect(water.recoveredShare(collected, applied)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('the rest', () => {
  it('sand patch depth and diameter undo each other', () => {
    fc.assert(
      fc.property(between(2.5e-4, 5e-3), depth => {
        const diameter = texture.sandPatchDiameter(texture.sandPatchVolume, depth);
        expectSame(texture.sandPatchDepth(texture.sandPatchVolume, [diameter]), depth);
      }),
    );
  });
  it('a stay at the permitted time is the whole dose', () => {
    fc.assert(
      fc.property(between(70, 125), fc.constantFrom<noise.NoiseBasis[]>('osha', 'niosh'), (level, basis) => {
        expectSame(noise.noiseDose([{ level, time: noise.permittedExposure(level, basis) }], basis), 1);
      }),
    );
  });
  it('the times of the sun are in order, and daylight agrees with them', () => {
    fc.assert(
      fc.property(
        between(-65, 65),
        between(-180, 180),
        fc.integer({ min: 0, max: 365 }),
        (latitude, longitude, days) => {
          const noon = Date.UTC(2031, 0, 1, 12) + days * 86_400_000;
          const times = sun.sunTimes(noon, latitude, longitude)!;
          const order = [
            times.astronomicalDawn,
            times.nauticalDawn,
            times.civilDawn,
            times.sunrise,
            times.noon,
            times.sunset,
            times.civilDusk,
            times.nauticalDusk,
            times.astronomicalDusk,
          ].filter(time => time !== undefined);
          expect(order).toEqual(order.toSorted((a, b) => a - b));
          expect(sun.daylightAt(times.noon, latitude, longitude)).toBe('day');
        },
      ),
      { numRuns: 50 },
    );
  });
  it('whole numbers survive their rounding, and nothing is lost by it', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e6, max: 1e6 }), between(1e-6, 1 - 1e-6), (n, rest) => {
        expect(ceilForgiving(n)).toBe(n);
        expect(floorForgiving(n)).toBe(n);
        if (Math.abs(n) < 100) expect(ceilForgiving(n + rest)).toBe(n + 1);
        if (Math.abs(n) < 100) expect(floorForgiving(n + rest)).toBe(n);
      }),
    );
    expect(ceilForgiving(Number.NaN)).toBeNaN();
    expect(ceilForgiving(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });
});
