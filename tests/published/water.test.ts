/** Water on the pavement and in tanks. */
import { describe, expect, it, test } from 'vitest';
import { boomFlow } from '../../language/formulas/application.ts';
import {
  crossfallDrop,
  peakRunoff,
  rainFilmDepth,
  rainFilmDepthUs,
  runoffToCollect,
  shuttleDelivery,
  shuttleTravelTime,
  shuttleUsableShare,
  tankTime,
  textureStorage,
  waterVolume,
} from '../../language/formulas/water.ts';
import {
  acre,
  type Example,
  expectDigits,
  expectExample,
  gallon,
  gpm,
  hectare,
  hour,
  inch,
  kmh,
  litre,
  litresPerMinute,
  mile,
  millimetre,
  minute,
  mph,
  title,
} from './customary.ts';

const examples: readonly Example[] = [
  {
    id: 'W1',
    source: 'gallaway-1971',
    what: 'texture 0.8 mm, 22.5 m, 50 mm/h, 1.5 %: 2.44 mm',
    computed: () => rainFilmDepth(0.8e-3, 22.5, (50 * millimetre) / hour, 0.015) / millimetre,
    printed: 2.44,
    within: 0.005,
  },
  {
    id: 'W2',
    source: 'definition',
    what: '10 mm on 2.16 ha is 216 m3',
    computed: () => waterVolume(10 * millimetre, 2.16 * hectare),
    printed: 216,
    within: 1e-9,
  },
  {
    id: 'W3',
    source: 'rational-method',
    what: '0.9, 50 mm/h, 2.16 ha: 0.27 m3/s',
    computed: () => peakRunoff(0.9, (50 * millimetre) / hour, 2.16 * hectare),
    printed: 0.27,
    within: 1e-9,
  },
  {
    id: 'W4',
    source: 'acre-inch',
    what: 'an acre-inch is 27,154 gal',
    computed: () => waterVolume(inch, acre) / gallon,
    printed: 27_154,
    within: 0.5,
    exact: 27154.29,
  },
  {
    id: 'T1',
    source: 'shuttle-formula',
    what: 'T = 0.65 + 1.7 D: 2 miles take 4.05 min',
    computed: () => shuttleTravelTime(2 * mile, 'round trip') / minute,
    printed: 4.05,
    within: 1e-9,
  },
  {
    id: 'T3',
    source: 'shuttle-formula',
    what: '3,000 gal with 300 left, 12 min: 225 gpm',
    computed: () =>
      shuttleDelivery({
        usable: shuttleUsableShare * 3000 * gallon,
        fillTime: 3 * minute,
        dumpTime: 4 * minute,
        travelTime: 5 * minute,
      }) / gpm,
    printed: 225,
    within: 1e-9,
  },
  {
    id: 'T8',
    source: 'definition',
    what: '65 gal a lane-mile on 3 lanes at 45 mph is 146.25 gpm',
    computed: () => boomFlow(((65 * gallon) / mile) * 3, 45 * mph, 1) / gpm,
    printed: 146.25,
    within: 1e-9,
  },
  {
    id: 'T9 flow',
    source: 'mechanics',
    what: '2.5 L/m2 over 6 m at 8 km/h needs 2,000 L/min',
    computed: () => boomFlow(2.5e-3, 8 * kmh, 6) / litresPerMinute,
    printed: 2000,
    within: 1e-9,
  },
  {
    id: 'T9 time',
    source: 'mechanics',
    what: '15,000 L last 7.5 min',
    computed: () => tankTime(15_000 * litre, boomFlow(2.5e-3, 8 * kmh, 6)) / minute,
    printed: 7.5,
    within: 1e-9,
  },
  {
    id: 'T9 fill',
    source: 'mechanics',
    what: 'and fill in 3.96 min at 1,000 gpm',
    computed: () => tankTime(15_000 * litre, 1000 * gpm) / minute,
    printed: 3.96,
    within: 0.005,
  },
  {
    id: '4.2 fall',
    source: 'geometry',
    what: '22.5 m at 1.5 % falls 0.34 m',
    computed: () => crossfallDrop(22.5, 0.015),
    printed: 0.34,
    within: 0.005,
  },
  {
    id: '4.2 storage',
    source: 'geometry',
    what: 'texture of 0.8 mm holds 0.8 L/m2',
    computed: () => textureStorage(0.8 * millimetre, 1) / litre,
    printed: 0.8,
    within: 1e-12,
  },
];

describe('water on the pavement and in tanks', () => {
  test.each(examples.map(example => [title(example), example] as const))('%s', (_, example) => expectExample(example));

  it(title({ id: 'W1', source: 'gallaway-1971', what: 'metric and US forms agree to 0.2 %' }), () => {
    const args = [0.8e-3, 22.5, (50 * millimetre) / hour, 0.015] as const;
    // The film above the texture is a difference, so compare what is fitted: film and texture together.
    const ratio = (rainFilmDepthUs(...args) + args[0]) / (rainFilmDepth(...args) + args[0]);
    expect(Math.abs(ratio - 1)).toBeLessThan(0.002);
  });
  it('water that is applied goes somewhere (derived)', () => {
    expect(runoffToCollect({ applied: 100, evaporated: 10, retained: 25, trackedOff: 5 })).toBe(60);
    expect(runoffToCollect({ applied: 1, evaporated: 10, retained: 0, trackedOff: 0 })).toBe(0);
  });
  it(title({ id: 'T1', source: 'shuttle-formula', mark: 'derived', what: '1.7 is 60/35 rounded' }), () => {
    expectDigits(60 / 35, 1.714);
    const perMile = (shuttleTravelTime(2 * mile, 'round trip') - shuttleTravelTime(mile, 'round trip')) / minute;
    expect(Math.abs(perMile - 60 / 35)).toBeLessThan(0.015);
  });
});
