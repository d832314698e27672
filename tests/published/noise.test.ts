/** Noise: permitted exposure and dose. */
import { describe, expect, it, test } from 'vitest';
import { noiseDose, permittedExposure } from '../../language/formulas/noise.ts';
import { expectDigits, hour, title } from './customary.ts';

describe(title({ id: 'H4', source: 'osha-1910-95', what: 'hours at a level' }), () => {
  test.each([
    [80, 32],
    [85, 16],
    [87, 12.1],
    [90, 8],
    [92, 6.1],
    [95, 4],
    [100, 2],
    [105, 1],
    [110, 0.5],
  ])('%i dBA: %d h', (level, hours) => expectDigits(permittedExposure(level, 'osha') / hour, hours));

  it('a workday of 100 dBA for 1 h, 90 for 4 h, 95 for 3/4 h has a dose of 118.75 %', () => {
    const dose = noiseDose(
      [
        { level: 100, time: hour },
        { level: 90, time: 4 * hour },
        { level: 95, time: (3 / 4) * hour },
      ],
      'osha',
    );
    expect(dose * 100).toBeCloseTo(118.75, 9);
  });
  it('85 dBA for 5 h, 87 for 2 h, 80 for half an hour is 49.34 %', () => {
    const dose = noiseDose(
      [
        { level: 85, time: 5 * hour },
        { level: 87, time: 2 * hour },
        { level: 80, time: hour / 2 },
      ],
      'osha',
    );
    // The published sum uses the rounded 12.1 h.
    expect(Math.abs(dose * 100 - 49.34)).toBeLessThan(0.05);
  });
});

test(title({ id: 'H4', source: 'niosh-noise', what: '85 dBA for 8 h, half for each 3 dB' }), () => {
  expect(permittedExposure(85, 'niosh') / hour).toBe(8);
  expect(permittedExposure(88, 'niosh') / hour).toBe(4);
  expect(permittedExposure(100, 'niosh') / hour).toBe(0.25);
});
