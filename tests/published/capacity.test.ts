/** Field capacity: the twelve published examples, the published production rate, and the forms with their constants. */
import { describe, expect, it, test } from 'vitest';
import { courseSpeed } from '../../language/formulas/application.ts';
import { fieldCapacity, pathEfficiency, productionTime } from '../../language/formulas/capacity.ts';
import {
  acresPerHour,
  type Example,
  expectDigits,
  expectExample,
  foot,
  hectare,
  hour,
  inch,
  kmh,
  mph,
  title,
} from './customary.ts';

const iowa: readonly [id: string, width: number, speed: number, efficiency: number, printed: number, exact: number][] =
  [
    ['C-1', 40 * foot, 6, 0.7, 20.4, 20.364],
    ['C-2', 50 * foot, 6, 0.7, 25.5, 25.455],
    ['C-3', 10 * foot, 5, 0.63, 3.8, 3.818],
    ['C-4', 15 * foot, 5, 0.63, 5.7, 5.727],
    ['C-5', 15 * foot, 6, 0.63, 6.9, 6.873],
    ['C-6', 20 * foot, 6, 0.63, 9.2, 9.164],
    ['C-7', 30 * foot, 6, 0.6, 13.1, 13.091],
    ['C-8', 7 * 16 * inch, 5, 0.85, 4.8, 4.808],
    ['C-9', 8 * 16 * inch, 5, 0.85, 5.5, 5.495],
    ['C-10', 8 * 18 * inch, 5, 0.85, 6.2, 6.182],
    ['C-11', 10 * 18 * inch, 5, 0.83, 7.5, 7.545],
    ['C-12', 12 * 18 * inch, 5, 0.83, 9.1, 9.055],
  ];

const examples: readonly Example[] = [
  ...iowa.map(([id, width, speed, efficiency, printed, exact]): Example => {
    return {
      id,
      source: 'iowa-pm-696',
      what: `${(width / foot).toFixed(2)} ft at ${speed} mph, ${efficiency}: ${printed} ac/h`,
      computed: () => fieldCapacity(speed * mph, width, efficiency) / acresPerHour,
      printed,
      within: 0.05,
      exact,
    };
  }),
  {
    id: 'speed',
    source: 'field-efficiency-definition',
    what: 'stakes 88 ft apart in 12 s is 5 mph',
    computed: () => courseSpeed(88 * foot, 12) / mph,
    printed: 5,
    within: 1e-9,
  },
  {
    id: 'G-1',
    source: 'icao-9137-2-removal',
    what: '900 x 24 m at 278 m2/h, 2 of 8 h refilling: about 100 h',
    computed: () => productionTime(900 * 24, 278 / hour, 2 / 8) / hour,
    printed: 100,
    within: 5,
    exact: 103.597,
  },
];

describe('published field capacities and production rates', () => {
  test.each(examples.map(example => [title(example), example] as const))('%s', (_, example) => expectExample(example));
});

describe('the forms with constants are the same formula', () => {
  it(title({ id: 'C1', source: 'asae-ep496', what: 'C = S W E / 10 (km/h, m, ha/h)' }), () => {
    expect(fieldCapacity(6 * kmh, 2.4, 0.8) / (hectare / hour)).toBeCloseTo((6 * 2.4 * 0.8) / 10, 12);
  });
  it(title({ id: 'C2', source: 'asae-ep496', what: 'C = S W E / 8.25 (mph, ft, ac/h)' }), () => {
    expect(fieldCapacity(6 * mph, 40 * foot, 0.7) / acresPerHour).toBeCloseTo((6 * 40 * 0.7) / 8.25, 10);
  });
  it(title({ id: 'C5', source: 'mechanics', what: 'C = 1000 S W E (km/h, m, m2/h)' }), () => {
    expect(fieldCapacity(6 * kmh, 2.4, 0.8) * hour).toBeCloseTo(1000 * 6 * 2.4 * 0.8, 8);
  });
});

it(
  title({ id: 'Z', source: 'geometry', what: 'broom of the integrated example: efficiency 0.7964, 0.9932 ha/h' }),
  () => {
    const swept = 2.4 * Math.cos(Math.PI / 6);
    const path = {
      area: 21_600,
      width: swept,
      speed: 6 * kmh,
      straightLength: 14 * 900,
      turnTime: 449.2 / (6 * kmh),
      serviceTime: 0,
    };
    const efficiency = pathEfficiency(path);
    expectDigits(efficiency, 0.7964);
    expectDigits(fieldCapacity(path.speed, swept, efficiency) / (hectare / hour), 0.9932);
  },
);
