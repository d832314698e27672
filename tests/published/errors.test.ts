/**
 * Published errors as negative tests: the wrong figure that is in print, the right one, and how the error arose.
 * Our formulas must give the right one and must not give the printed one.
 */
import { describe, expect, it, test } from 'vitest';
import {
  applicationRate,
  boomWidth,
  courseLength,
  courseSpeed,
  oneOver128Acre,
  rateFromCourse,
} from '../../language/formulas/application.ts';
import {
  type DryingWeather,
  menzelEvaporation,
  menzelEvaporationUs,
  saturationVapourPressure,
  unoEvaporation,
  unoEvaporationUs,
} from '../../language/formulas/evaporation.ts';
import { hydraulicPower, pressureClass, shaftPower } from '../../language/formulas/jets.ts';
import { shuttleTravelTime } from '../../language/formulas/water.ts';
import type { Mark, SourceId } from '../../language/sources/sources.ts';
import {
  bar,
  expectDigits,
  fluidOunce,
  foot,
  gallon,
  gallonsPerAcre,
  gpm,
  hour,
  inch,
  kmh,
  litre,
  litresPerMinute,
  mile,
  minute,
  mph,
  psi,
  title,
} from './customary.ts';

interface Misprint {
  readonly id: string;
  readonly source: SourceId;
  readonly mark?: Mark;
  readonly what: string;
  readonly computed: () => number;
  readonly printed: number;
  readonly correct: number;
}

const misprints: readonly Misprint[] = [
  {
    id: 'X1',
    source: 'cornell-sprayer',
    what: 'mph = ft/s x 60/80 makes 88 ft in 12 s 5.5 mph; it is 5 (60/88)',
    computed: () => courseSpeed(88 * foot, 12) / mph,
    printed: (88 / 12) * (60 / 80),
    correct: 5,
  },
  {
    id: 'X2',
    source: 'oklahoma-state-sprayer',
    what: '101 fl oz/min, 18 in, 3 mph is 86.8 gal/ac, not 88',
    computed: () => applicationRate((101 * fluidOunce) / minute, 3 * mph, 18 * inch) / gallonsPerAcre,
    printed: 88,
    correct: 86.8,
  },
  {
    id: 'X3',
    source: 'florida-exam-guide',
    what: '0.15 gpm, 48 in, 5 mph is 3.71 gal/ac, not 327',
    computed: () => applicationRate(0.15 * gpm, 5 * mph, 48 * inch) / gallonsPerAcre,
    printed: 327,
    correct: 3.71,
  },
  {
    id: 'X4',
    source: 'alberta-606-1',
    what: '7 km/h over 800 m is 411 s (6:51), not 408 (6:48)',
    computed: () => 800 / courseSpeed(7000, hour),
    printed: 6 * 60 + 48,
    correct: 411,
  },
  {
    id: 'X5',
    source: 'clemson-sprayer',
    what: 'spacing 120 in takes a course of 34 ft, not 204 (which is for 20 in)',
    computed: () => courseLength(oneOver128Acre, 120 * inch) / foot,
    printed: 204,
    correct: 34,
  },
  {
    id: 'X6',
    source: 'one-128-acre-slides',
    what: '1/128 acre is 340.31 sq ft, not 18.5 x 18.5 = 342.25',
    computed: () => oneOver128Acre / foot ** 2,
    printed: 18.5 ** 2,
    correct: 340.31,
  },
  {
    id: 'X7',
    source: 'seed-dealer-page',
    what: '32 fl oz on 163 ft at 20 in is 40.1 gal/ac, not 20',
    computed: () => rateFromCourse(32 * fluidOunce, 163 * foot, 20 * inch) / gallonsPerAcre,
    printed: 20,
    correct: 40.1,
  },
  {
    id: 'X8',
    source: 'ufgs-02763a-weather',
    what: '105 sq ft/gal is 2.577 m2/L, not 2.9',
    computed: () => litre / rateFromCourse(gallon, 105 * foot, foot),
    printed: 2.9,
    correct: 2.577,
  },
  {
    id: 'X10',
    source: 'motor-page',
    what: 'kW = bar L/min / 600, not / 500: 150 bar at 40 L/min is 10 kW',
    computed: () => hydraulicPower(40 * litresPerMinute, 150 * bar) / 1000,
    printed: (150 * 40) / 500,
    correct: 10,
  },
  {
    id: 'X14',
    source: 'tow-sprayer-manual',
    what: '200 ft at 5 mph is 27.3 s, not 28',
    computed: () => (200 * foot) / courseSpeed(5 * mile, hour),
    printed: 28,
    correct: 27.3,
  },
  {
    id: 'X15',
    source: 'grdc-spray-manual',
    what: 'a spacing of 0.508 m taken for 0.5 m is 1.6 % out, not 0',
    computed: () => (boomWidth(36, 0.508) / boomWidth(36, 0.5) - 1) * 100,
    printed: 0,
    correct: 1.6,
  },
];

describe('published errors', () => {
  test.each(misprints.map(each => [title(each), each] as const))('%s', (_, { computed, printed, correct }) => {
    const value = computed();
    expectDigits(value, correct);
    // Off by more than the correct figure's own rounding could explain.
    expect(Math.abs(value / printed - 1)).toBeGreaterThan(0.004);
  });

  it(
    title({ id: 'X3', source: 'florida-exam-guide', mark: 'derived', what: 'arose from a speed not multiplied by 88' }),
    () => {
      const right = applicationRate(0.15 * gpm, 5 * mph, 48 * inch) / gallonsPerAcre;
      expectDigits(right * 88, 327);
    },
  );
  it(title({ id: 'X9', source: 'chemical-method-slides', what: '50 psi is 3.447 bar, not 4' }), () => {
    expectDigits((50 * psi) / bar, 3.447);
  });
  it(title({ id: 'X9', source: 'chemical-method-slides', what: '20,000 psi is no low pressure' }), () => {
    expect(pressureClass(20_000 * psi, 'sspc-nace-water-jetting')?.name).toBe('high-pressure water jetting');
    expect(pressureClass(5_001 * psi, 'sspc-nace-water-jetting')?.name).not.toContain('low');
  });
  it(title({ id: 'X10', source: 'motor-page', mark: 'derived', what: '500 hides an efficiency of 83 %' }), () => {
    const printed = (150 * 40) / 500;
    expect(shaftPower(40 * litresPerMinute, 150 * bar, 5 / 6) / 1000).toBeCloseTo(printed, 9);
  });
});

describe('evaporation: coefficients of two unit systems mixed', () => {
  const weather: DryingWeather = { surfaceTemperature: 30, airTemperature: 30, humidity: 0.5, wind: 20 * kmh };
  const perSquareFootHour = (rate: number) => (rate * 1000 * hour * foot ** 2) / 0.45359237;
  const deficit = saturationVapourPressure(30) * (1 - 0.5);

  it(
    title({ id: 'X11', source: 'public-code', what: '0.44 (psi) with 0.06 (per km/h) taken per mph is a third low' }),
    () => {
      const mixed = 0.44 * (deficit / psi) * (0.253 + (0.06 * weather.wind) / mph);
      const right = perSquareFootHour(menzelEvaporationUs(weather));
      expect(mixed / right).toBeLessThan(0.72);
      // The right one agrees with the SI form.
      expect(right / perSquareFootHour(menzelEvaporation(weather))).toBeCloseTo(1, 1);
    },
  );
  it(
    title({ id: 'X11', source: 'public-code', what: 'and vapour pressure in mmHg makes it tens of times too high' }),
    () => {
      const millimetresOfMercury = deficit / 133.322;
      const mixed = 0.44 * millimetresOfMercury * (0.253 + (0.06 * weather.wind) / mph);
      expect(mixed / perSquareFootHour(menzelEvaporationUs(weather))).toBeGreaterThan(30);
    },
  );
  it(
    title({ id: 'X12', source: 'uno-si', what: '0.958 against 1.000 kg/m2/h: rounded constants, not weather' }),
    () => {
      expectDigits(unoEvaporation(weather) * 1000 * hour, 0.958);
      expect(Math.abs(unoEvaporationUs(weather) * 1000 * hour - 1.0)).toBeLessThan(0.0005);
    },
  );
});

describe('ambiguities that have to be named', () => {
  it(title({ id: 'X16', source: 'shuttle-formula', what: 'distance one way or the round trip' }), () => {
    // The same road, 1 mile there and 1 mile back: read as the round trip it saves one start and stop.
    const round = shuttleTravelTime(2 * mile, 'round trip');
    const oneWay = shuttleTravelTime(mile, 'one way');
    expect((oneWay - round) / minute).toBeCloseTo(0.65, 12);
  });
  it(
    title({ id: 'X17', source: 'sspc-nace-2002-2012', what: 'ultra-high begins at 25,000 or 30,000 psi by edition' }),
    () => {
      expect(pressureClass(28_000 * psi, 'sspc-nace-water-jetting')?.name).toBe('ultra-high-pressure water jetting');
      expect(pressureClass(28_000 * psi, 'sspc-nace-2002-2012')?.name).toBe('high-pressure water jetting');
    },
  );
});
