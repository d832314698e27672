/** Sprayer calibration: published examples S-1 to S-24, course and speed tables, and the forms with their constants. */
import { describe, expect, it, test } from 'vitest';
import {
  applicationRate,
  areaPerLoad,
  boomFlow,
  boomWidth,
  courseLength,
  courseSpeed,
  fanOverlap,
  fanWidth,
  flowAtPressure,
  flowPerNozzle,
  oneOver128Acre,
  passes,
  pressureForFlow,
  rateAtSpeed,
  rateErrorFromSpeedError,
  rateFromCourse,
  speedForRate,
  tankLoads,
} from '../../language/formulas/application.ts';
import {
  acre,
  degree,
  type Example,
  expectDigits,
  expectExample,
  fluidOunce,
  foot,
  gallon,
  gallonsPerAcre,
  gpm,
  hectare,
  inch,
  kmh,
  litre,
  litresPerHectare,
  litresPerMinute,
  minute,
  mph,
  pound,
  quart,
  title,
} from './customary.ts';

const meanTime = (21.6 + 19.1 + 18.4) / 3;

const examples: readonly Example[] = [
  {
    id: 'S-1',
    source: 'oklahoma-state-sprayer',
    what: '200 ft in 45 s is 3 mph',
    computed: () => courseSpeed(200 * foot, 45) / mph,
    printed: 3,
    within: 0.05,
    exact: 3.0303,
  },
  {
    id: 'S-2',
    source: 'oklahoma-state-sprayer',
    what: '200 ft in 27 s is 5 mph',
    computed: () => courseSpeed(200 * foot, 27) / mph,
    printed: 5,
    within: 0.06,
    exact: 5.05,
  },
  {
    id: 'S-3',
    source: 'albany-county-sprayer',
    what: '3.75 gpm at 5 mph over 222 in is 20 gal/ac',
    computed: () => applicationRate(3.75 * gpm, 5 * mph, 222 * inch) / gallonsPerAcre,
    printed: 20,
    within: 0.1,
    exact: 20.0676,
  },
  {
    id: 'S-4',
    source: 'albany-county-sprayer',
    what: '480 fl oz/min at 5 mph over 222 in is 20 gal/ac',
    computed: () => applicationRate((480 * fluidOunce) / minute, 5 * mph, 222 * inch) / gallonsPerAcre,
    printed: 20,
    within: 0.1,
    exact: 20.07,
  },
  {
    id: 'S-5',
    source: 'lsu-sprayer',
    what: '14 fl oz in 17 s over 102 ft at 40 in is 14 gal/ac',
    computed: () => applicationRate((14 * fluidOunce) / 17, courseSpeed(102 * foot, 17), 40 * inch) / gallonsPerAcre,
    printed: 14,
    within: 0.05,
  },
  {
    id: 'S-5 speed',
    source: 'lsu-sprayer',
    mark: 'derived',
    what: '102 ft in 17 s is 4.09 mph',
    computed: () => courseSpeed(102 * foot, 17) / mph,
    printed: 4.09,
    within: 0.005,
  },
  {
    id: 'S-6',
    source: 'ohio-state-fabe-520',
    what: '15 fl oz in the time of 1/128 ac is 15 gal/ac',
    computed: () =>
      rateFromCourse(15 * fluidOunce, courseLength(oneOver128Acre, 20 * inch), 20 * inch) / gallonsPerAcre,
    printed: 15,
    within: 0,
  },
  {
    id: 'S-7',
    source: 'ohio-state-b-817',
    what: '80 fl oz in the time of 1/128 ac is 80 gal/ac',
    computed: () =>
      rateFromCourse(80 * fluidOunce, courseLength(oneOver128Acre, 12 * inch), 12 * inch) / gallonsPerAcre,
    printed: 80,
    within: 0,
  },
  {
    id: 'S-8',
    source: 'one-128-acre-slides',
    what: '40 fl oz on 18.5 x 18.5 ft is 40 gal/ac',
    computed: () => rateFromCourse(40 * fluidOunce, 18.5 * foot, 18.5 * foot) / gallonsPerAcre,
    printed: 40,
    within: 0.4,
    exact: 39.8,
  },
  {
    id: 'S-9',
    source: 'one-128-acre-slides',
    what: '1 qt/ac at 40 gal/ac is 0.8 fl oz in each gallon',
    computed: () => ((quart / acre) * areaPerLoad(gallon, 40 * gallonsPerAcre)) / fluidOunce,
    printed: 0.8,
    within: 0,
  },
  {
    id: 'S-10',
    source: 'uf-band-sprayer',
    what: '26 fl oz over 300 ft in a 12 in band is 29.5 gal/ac',
    computed: () => rateFromCourse(26 * fluidOunce, 300 * foot, 12 * inch) / gallonsPerAcre,
    printed: 29.5,
    within: 0.05,
    exact: 29.494,
  },
  {
    id: 'S-11',
    source: 'uf-band-sprayer',
    what: '16 fl oz over 300 ft in a 15 in band is 14.5 gal/ac',
    computed: () => rateFromCourse(16 * fluidOunce, 300 * foot, 15 * inch) / gallonsPerAcre,
    printed: 14.5,
    within: 0.05,
    exact: 14.52,
  },
  {
    id: 'S-12',
    source: 'florida-exam-guide',
    what: '12 gal over 660 ft with a 10 ft swath is 79.2 gal/ac',
    computed: () => rateFromCourse(12 * gallon, 660 * foot, 10 * foot) / gallonsPerAcre,
    printed: 79.2,
    within: 0,
  },
  {
    id: 'S-13',
    source: 'alberta-606-1',
    what: '30 ac at 40 L/ac is 1,200 L',
    computed: () => (30 * acre * (40 * litre)) / acre / litre,
    printed: 1200,
    within: 0,
  },
  {
    id: 'S-14',
    source: 'alberta-606-1',
    what: '40 L/ac at 9 km/h and 0.5 m: a nozzle of 0.75 L/min within 5 %',
    computed: () => boomFlow((40 * litre) / acre, 9 * kmh, 0.5) / litresPerMinute,
    printed: 0.75,
    within: 0.75 * 0.05,
    exact: 0.74132,
  },
  {
    id: 'S-15',
    source: 'australian-training-page',
    what: '24 L/min at 200 m/min over 12 m is 100 L/ha',
    computed: () => applicationRate(24 * litresPerMinute, 200 / minute, 12) / litresPerHectare,
    printed: 100,
    within: 0,
  },
  {
    id: 'S-16 time',
    source: 'turf-sprayer-manual',
    what: 'times 21.6, 19.1, 18.4 s average 19.7 s',
    computed: () => (150 * foot) / courseSpeed(150 * foot, 21.6, 19.1, 18.4),
    printed: 19.7,
    within: 0.05,
    exact: Number(meanTime.toFixed(6)),
  },
  {
    id: 'S-16',
    source: 'turf-sprayer-manual',
    what: '150 ft in those times is 5.2 mph',
    computed: () => courseSpeed(150 * foot, 21.6, 19.1, 18.4) / mph,
    printed: 5.2,
    within: 0.05,
    exact: 5.19,
  },
  {
    id: 'S-17',
    source: 'turf-sprayer-manual',
    what: '45.7 m in 19.7 s is 8.4 km/h',
    computed: () => courseSpeed(45.7, 19.7) / kmh,
    printed: 8.4,
    within: 0.05,
    exact: 8.35,
  },
  {
    id: 'S-18',
    source: 'pesticide-safety-text',
    what: '3.5 ac at 15 gal/ac is 52.5 gal',
    computed: () => (3.5 * acre * 15 * gallonsPerAcre) / gallon,
    printed: 52.5,
    within: 0,
  },
  {
    id: 'S-19',
    source: 'pesticide-safety-text',
    what: '3.5 ac at 3 lb/ac is 10.5 lb',
    computed: () => (3.5 * acre * ((3 * pound) / acre)) / pound,
    printed: 10.5,
    within: 0,
  },
  {
    id: 'S-20',
    source: 'orchard-magazine',
    what: '4 gal on a 436 ft strip of a 10 ft boom is 40 gal/ac',
    computed: () => rateFromCourse(4 * gallon, 436 * foot, 10 * foot) / gallonsPerAcre,
    printed: 40,
    within: 0.08,
    exact: 39.96,
  },
  {
    id: 'S-21',
    source: 'retailer-rate-page',
    what: '1 gal on 1,000 sq ft is 43.56 gal/ac',
    computed: () => rateFromCourse(gallon, 1000 * foot, foot) / gallonsPerAcre,
    printed: 43.56,
    within: 0,
  },
  {
    id: 'S-22',
    source: 'tow-sprayer-manual',
    what: 'a 31 gal tank at 12 gal/ac covers 2.58 ac',
    computed: () => areaPerLoad(31 * gallon, 12 * gallonsPerAcre) / acre,
    printed: 2.58,
    within: 0.005,
    exact: 2.583,
  },
  {
    id: 'S-23',
    source: 'turf-supplier-sheet',
    what: 'a 200 gal tank at 20 gal/ac covers 10 ac',
    computed: () => areaPerLoad(200 * gallon, 20 * gallonsPerAcre) / acre,
    printed: 10,
    within: 0,
  },
  {
    id: 'S-23 course',
    source: 'turf-supplier-sheet',
    what: '20 in spacing takes a course of 204 ft',
    computed: () => courseLength(oneOver128Acre, 20 * inch) / foot,
    printed: 204,
    within: 0.5,
  },
  {
    id: 'S-24',
    source: 'grdc-spray-manual',
    what: 'a true spacing of 0.508 m against 0.500 m is 1.6 % too little',
    computed: () => (boomWidth(24, 0.508) / boomWidth(24, 0.5) - 1) * 100,
    printed: 1.6,
    within: 1e-9,
  },
];

describe('published sprayer examples', () => {
  test.each(examples.map(example => [title(example), example] as const))('%s', (_, example) => expectExample(example));
});

/** Course lengths for 1/128 acre by nozzle spacing (in → ft): what is printed and what is exact. */
const courses: readonly [inches: number, printed: number, exact: number][] = [
  [10, 408, 408.4],
  [12, 340, 340.3],
  [14, 291, 291.7],
  [16, 255, 255.2],
  [18, 227, 226.9],
  [20, 204, 204.2],
  [22, 185, 185.6],
  [24, 170, 170.2],
  [26, 157, 157.1],
  [28, 146, 145.8],
  [30, 136, 136.1],
  [32, 127, 127.6],
  [34, 120, 120.1],
  [36, 113, 113.4],
  [38, 107, 107.5],
  [40, 102, 102.1],
];

describe(title({ id: '2.2', source: 'lsu-sprayer', what: '1/128 acre course lengths' }), () => {
  test.each(courses)('%i in: printed %i ft', (inches, printed, exact) => {
    const length = courseLength(oneOver128Acre, inches * inch) / foot;
    expect(Math.abs(length - printed)).toBeLessThan(1);
    expectDigits(length, exact);
  });

  const boomless: readonly [swath: number, printed: number, exact: number][] = [
    [30, 182, 181.5],
    [32, 171, 170.2],
    [34, 161, 160.1],
    [36, 152, 151.2],
    [38, 144, 143.3],
    [40, 137, 136.1],
    [42, 130, 129.6],
    [44, 124, 123.8],
  ];
  test.each(boomless)(
    `${title({ id: 'boomless', source: 'clemson-sprayer', what: '1/8 acre' })} %i ft swath: printed %i ft, rounded up`,
    (swath, printed, exact) => {
      const length = courseLength(acre / 8, swath * foot) / foot;
      expectDigits(length, exact);
      expect(Math.ceil(length - 1e-9)).toBe(printed);
    },
  );
});

/** Seconds over a course by speed: printed whole (unevenly rounded, so within 1 s), and exact to 0.1 s. */
const seconds: readonly [mph: number, feet: number, printed: number, exact: number][] = [
  [1, 100, 68, 68.2],
  [1, 200, 136, 136.4],
  [1, 300, 205, 204.5],
  [2, 100, 34, 34.1],
  [2, 200, 68, 68.2],
  [2, 300, 102, 102.3],
  [3, 100, 23, 22.7],
  [3, 200, 45, 45.5],
  [3, 300, 68, 68.2],
  [4, 100, 17, 17],
  [4, 200, 34, 34.1],
  [4, 300, 51, 51.1],
  [5, 100, 14, 13.6],
  [5, 200, 28, 27.3],
  [5, 300, 41, 40.9],
  [6, 100, 11, 11.4],
  [6, 200, 23, 22.7],
  [6, 300, 34, 34.1],
  [7, 100, 9.5, 9.7],
  [7, 200, 19, 19.5],
  [7, 300, 29, 29.2],
];

describe(title({ id: '2.3', source: 'tow-sprayer-manual', what: 'seconds over a course' }), () => {
  test.each(seconds)('%i mph over %i ft: printed %d s', (speed, feet, printed, exact) => {
    // One second, or half of the last digit, of the time changes the speed by that share.
    expect(Math.abs(courseSpeed(feet * foot, printed) / mph - speed)).toBeLessThan(speed / printed);
    expect(Math.abs(courseSpeed(feet * foot, exact) / mph - speed)).toBeLessThan((0.0501 * speed) / exact);
  });
});

describe(title({ id: '2.3', source: 'alberta-606-1', what: 'minutes over 800 m' }), () => {
  test.each([
    [8, 6, 0],
    [9, 5, 20],
    [10, 4, 48],
    [11, 4, 22],
    [12, 4, 0],
  ])('%i km/h is printed %i:%i', (speed, minutes, rest) => {
    const printed = minutes * 60 + rest;
    expect(Math.abs(courseSpeed(800, printed) / kmh - speed)).toBeLessThan(speed / printed);
  });
});

describe('the customary forms are the same formulas', () => {
  const published: readonly [string, () => number, number][] = [
    [
      title({ id: 'F1', source: 'sprayer-manual-metric', what: 'Q = R v w / 600 (L/min, L/ha, km/h, m)' }),
      () => boomFlow(200 * litresPerHectare, 8 * kmh, 12) / litresPerMinute,
      (200 * 8 * 12) / 600,
    ],
    [
      title({ id: 'F2', source: 'sprayer-manual-metric', what: 'R = 600 Q / (v w)' }),
      () => applicationRate(32 * litresPerMinute, 8 * kmh, 12) / litresPerHectare,
      (600 * 32) / (8 * 12),
    ],
    [
      title({ id: 'F3', source: 'uf-ifas-wg013', what: 'GPA = 5940 GPM / (MPH W), W in inches' }),
      () => applicationRate(0.4 * gpm, 5 * mph, 20 * inch) / gallonsPerAcre,
      (5940 * 0.4) / (5 * 20),
    ],
    [
      title({ id: 'F4', source: 'mesa-county-sprayer', what: 'GPA = 495 GPM / (MPH W), W in feet' }),
      () => applicationRate(9 * gpm, 4 * mph, 30 * foot) / gallonsPerAcre,
      (495 * 9) / (4 * 30),
    ],
    [
      title({ id: 'F5', source: 'albany-county-sprayer', what: 'GPA = 46.40625 oz/min / (MPH W); printed 46.4' }),
      () => applicationRate((50 * fluidOunce) / minute, 5 * mph, 20 * inch) / gallonsPerAcre,
      (46.40625 * 50) / (5 * 20),
    ],
    [
      title({ id: 'F6', source: 'oklahoma-state-sprayer', what: 'MPH = ft 60 / (s 88)' }),
      () => courseSpeed(300 * foot, 41) / mph,
      (300 * 60) / (41 * 88),
    ],
    [
      title({ id: 'F7', source: 'sprayer-manual-metric', what: 'km/h = 360 / s over 100 m' }),
      () => courseSpeed(100, 45) / kmh,
      360 / 45,
    ],
    [
      title({ id: 'F9', source: 'ohio-state-fabe-520', what: 'course in ft = 4083.75 / W, W in inches' }),
      () => courseLength(oneOver128Acre, 22 * inch) / foot,
      4083.75 / 22,
    ],
    [
      title({ id: 'F10', source: 'florida-exam-guide', what: 'GPA = gallons in 660 ft times 66 / swath' }),
      () => rateFromCourse(7 * gallon, 660 * foot, 12 * foot) / gallonsPerAcre,
      (7 * 66) / 12,
    ],
  ];
  test.each(published)('%s', (_, computed, expected) => {
    expect(computed() / expected).toBeCloseTo(1, 12);
  });

  it(title({ id: 'F8', source: 'sprayer-maker-page', what: 'twice the flow takes four times the pressure' }), () => {
    expect(pressureForFlow(3e5, 1, 2)).toBeCloseTo(12e5, 6);
    expect(flowAtPressure(1, 3e5, 12e5)).toBeCloseTo(2, 12);
  });
  it(title({ id: 'F11', source: 'pesticide-safety-text', what: 'loads are whole, the last one partial' }), () => {
    expect(tankLoads(10_800, 4_000)).toEqual({ count: 3, last: 2_800 });
  });
  it(title({ id: 'F12', source: 'mechanics', what: '10 % slow is 11.1 % over, 10 % fast 9.1 % under' }), () => {
    expectDigits(rateErrorFromSpeedError(-0.1) * 100, 11.1);
    expectDigits(rateErrorFromSpeedError(0.1) * 100, -9.1);
  });
  it(
    title({ id: 'F14', source: 'boom-spacing-guide', what: '20 in spacing and a 40 in pattern is 100 % overlap' }),
    () => {
      expect(fanOverlap(40 * inch, 20 * inch)).toBeCloseTo(1, 12);
      // An 80 degree fan 20 in up is 33.6 in wide: 68 %, less than the guide's round figure.
      expectDigits(fanWidth(20 * inch, 80 * degree) / inch, 33.56);
    },
  );
});

describe('Z: the integrated example of a 900 x 24 m zone (derived)', () => {
  const zone = { length: 900, width: 24, rate: 0.5e-3, speed: 5 * kmh, boom: 6 };
  const area = zone.length * zone.width;
  const flow = boomFlow(zone.rate, zone.speed, zone.boom);

  it('area, product and flow', () => {
    expect(area).toBe(21_600);
    expectDigits(area / acre, 5.33748);
    expectDigits(area / foot ** 2, 232500.5);
    expectDigits((area * zone.rate) / gallon, 2853.06);
    expectDigits(zone.rate / gallonsPerAcre, 534.53);
    expectDigits((zone.rate * 1000 * foot ** 2) / gallon, 12.271);
    expect(flow / litresPerMinute).toBeCloseTo(250, 10);
    expectDigits(flow / gpm, 66.043);
    expectDigits(flowPerNozzle(flow, 12) / litresPerMinute, 20.83);
  });
  it('spray passes, time and loads', () => {
    const count = passes(zone.width, zone.boom, 0);
    expect(count).toBe(4);
    const time = (count * zone.length) / zone.speed;
    expect(time).toBeCloseTo(2592, 9);
    expect(flow * time).toBeCloseTo(area * zone.rate, 12);
    expect(tankLoads(area * zone.rate, 4).count).toBe(3);
    expect(areaPerLoad(4, zone.rate)).toBeCloseTo(8000, 9);
  });
  it('speed off by 10 %, and 6 km/h at the same rate', () => {
    expectDigits(rateAtSpeed(zone.rate, 1, 0.9) * 1000, 0.5556);
    expectDigits(rateAtSpeed(zone.rate, 1, 1.1) * 1000, 0.4545);
    const faster = boomFlow(zone.rate, 6 * kmh, zone.boom);
    expect(pressureForFlow(3e5, flow, faster) / 1e5).toBeCloseTo(4.32, 10);
    expect(speedForRate(faster, zone.rate, zone.boom) / kmh).toBeCloseTo(6, 12);
  });
  it('a hectare for scale', () => {
    expect(area / hectare).toBe(2.16);
  });
});
