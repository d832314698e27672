/** Brooms: swept width, passes, contacts, bristle contact. */
import { describe, expect, it, test } from 'vitest';
import { passes } from '../../language/formulas/application.ts';
import {
  contactPatternFit,
  contactPatterns,
  contactTime,
  halfBroomAdvance,
  interiorContacts,
  overlapShare,
  strikes,
  sweptWidth,
  tipSpeed,
} from '../../language/formulas/brooms.ts';
import { degree, expectDigits, inch, kmh, minute, title } from './customary.ts';

describe(title({ id: 'B1', source: 'geometry', what: 'swept width of a 2.4 m broom' }), () => {
  test.each([
    [15, 2.318],
    [20, 2.255],
    [25, 2.175],
    [30, 2.078],
    [35, 1.966],
    [40, 1.839],
    [45, 1.697],
  ])('%i degrees: %d m', (angle, width) => expectDigits(sweptWidth(2.4, angle * degree), width));
});

it(title({ id: 'B2', source: 'geometry', what: '24 m in widths of 2.078 m with 0.3 m overlap: 14 passes' }), () => {
  expect(passes(24, sweptWidth(2.4, 30 * degree), 0.3)).toBe(14);
});

it(title({ id: 'B2', source: 'geometry', what: 'half the nominal width at 30 degrees leaves 42 % overlap' }), () => {
  const swept = sweptWidth(2.4, 30 * degree);
  const advance = halfBroomAdvance(2.4, 30 * degree, 'nominal');
  expectDigits(overlapShare(swept, advance), 0.42);
  const contacts = interiorContacts(swept, advance);
  expect(contacts).toMatchObject({ least: 1, most: 2 });
  // Over a quarter of the interior has a single contact.
  expectDigits(contacts?.shareAtLeast ?? 0, 0.268);
  const half = halfBroomAdvance(2.4, 30 * degree, 'swept');
  expect(interiorContacts(swept, half)).toEqual({ least: 2, most: 2, shareAtLeast: 1 });
});

describe('bristle contact', () => {
  it(title({ id: 'B3', source: 'broom-pattern-guide', what: 'a main broom shows a strip of 2 to 4 in' }), () => {
    expect(contactPatternFit(1.9 * inch, 'main broom')).toBe('too light');
    expect(contactPatternFit(2 * inch, 'main broom')).toBe('right');
    expect(contactPatternFit(4 * inch, 'main broom')).toBe('right');
    expect(contactPatternFit(4.1 * inch, 'main broom')).toBe('too heavy');
  });
  it(title({ id: 'B4', source: 'walk-sweeper-guide', what: 'walk and ride sweepers 5 to 11 cm' }), () => {
    expect(contactPatterns['walk or ride sweeper']).toMatchObject({ from: 0.05, to: 0.11 });
    expect(contactPatternFit(0.105, 'walk or ride sweeper')).toBe('right');
    expect(contactPatternFit(0.105, 'main broom')).toBe('too heavy');
  });
  it(title({ id: 'B9', source: 'geometry', what: '75 mm at 5 km/h is 0.054 s; 0.91 m at 300 rpm is 14.3 m/s' }), () => {
    expectDigits(contactTime(0.075, 5 * kmh), 0.054);
    expectDigits(tipSpeed(0.91, 300 / minute), 14.3);
  });
  it(title({ id: 'B10', source: 'geometry', what: 'strikes are passes, rows, revolutions and contact time' }), () => {
    expect(strikes(4, 12, 300 / minute, 0.075, 5 * kmh)).toBeCloseTo(4 * 12 * 5 * 0.054, 9);
  });
});
