import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dimension,
  formatNumber,
  isSame,
  KINDS,
  type KindName,
  parseQuantity,
  parseUnit,
  quantityKind,
  type ShowOptions,
  type System,
  show,
  showBeside,
  showIn,
  showMagnitude,
} from '../../../language/units/index.ts';

const si = (text: string): number => parseQuantity(text)?.si ?? Number.NaN;

describe('values as an engineer writes them', () => {
  test.each<readonly [KindName, string, string, string]>([
    ['volume', '6912 L', '6 912 L', '1 826 gal'],
    ['volume', '0.3 L', '300 mL', '10.14 fl oz'],
    ['volume', '1234567 L', '1 234 567 L', '326 138 gal'],
    ['application rate', '0.35 L/m2', '0.35 L/m²', '0.00859 gal/ft²'],
    ['application rate', '0.01 gal/ft2', '0.407 L/m²', '0.01 gal/ft²'],
    ['speed', '11.3 km/h', '11.3 km/h', '7.02 mph'],
    ['speed', '7 mph', '11.3 km/h', '7 mph'],
    ['length', '2450 m', '2 450 m', '8 038 ft'],
    ['length', '0.05 m', '50 mm', '1.969 in'],
    ['length', '0 m', '0 m', '0 ft'],
    ['length', '-5.5 m', '-5.5 m', '-18.04 ft'],
    ['depth', '0.8 mm', '0.8 mm', '0.0315 in'],
    ['depth', '3 mil', '0.0762 mm', '3 mil'],
    ['area', '21600 m2', '21 600 m²', '232 500 ft²'],
    ['coverage', '105 ft2/gal', '2.58 m²/L', '105 ft²/gal'],
    ['flow', '250 L/min', '250 L/min', '66.04 gal/min'],
    ['pressure', '150 bar', '150 bar', '2 176 psi'],
    ['pressure', '50 psi', '3.447 bar', '50 psi'],
    ['pressure', '1.705 kPa', '1.705 kPa', '0.2473 psi'],
    ['temperature', '35 °C', '35 °C', '95 °F'],
    ['temperature', '-5 °C', '-5 °C', '23 °F'],
    ['temperature difference', '5 K', '5 K', '9 Δ°F'],
    ['power', '10 kW', '10 kW', '13.4 hp'],
    ['mass', '5 kg', '5 kg', '11.02 lb'],
    ['slope', '1.5 %', '1.5 %', '1.5 %'],
    ['angle', '30 deg', '30°', '30°'],
    ['rotation speed', '120 rpm', '120 rpm', '120 rpm'],
    ['area rate', '278 m2/h', '278 m²/h', '2 992 ft²/h'],
    ['evaporation rate', '0.9711 kg/m2/h', '0.971 kg/m²/h', '0.199 lb/ft²/h'],
    ['force', '60.319 N', '60.3 N', '13.6 lbf'],
    ['force', '20 kN', '20 kN', '4 496 lbf'],
    ['count', '12', '12', '12'],
    ['ratio', '0.25', '0.25', '0.25'],
  ])('%s %s', (kind, text, metric, us) => {
    expect(show(si(text), quantityKind(kind), 'metric')).toBe(metric);
    expect(show(si(text), quantityKind(kind), 'us')).toBe(us);
  });

  test.each([
    ['0 s', '0 s'],
    ['35 s', '35 s'],
    ['27.27 s', '27.3 s'],
    ['59.4 s', '59.4 s'],
    ['59.6 s', '1 min'],
    ['90 s', '1 min 30 s'],
    ['45 min', '45 min'],
    ['1863.7 s', '31 min 4 s'],
    ['3599.6 s', '1 h'],
    ['83 min', '1 h 23 min'],
    ['12.5 h', '12 h 30 min'],
    ['103.597 h', '103 h 36 min'],
    ['36 h', '36 h'],
    ['14 d', '14 d'],
    ['-48 s', '-48 s'],
    ['1200 h', '50 d'],
    ['1201 h', '1 201 h'],
  ])('time %s is %s', (text, expected) => {
    expect(show(si(text), KINDS.time, 'metric')).toBe(expected);
    expect(show(si(text), KINDS.time, 'us')).toBe(expected);
  });

  test('money in its currency, with cents while they count', () => {
    const shown = (text: string, system: System = 'metric') => {
      const quantity = parseQuantity(text);
      return quantity ? showMagnitude(quantity, system) : '';
    };
    expect(shown('1234.5 EUR')).toBe('1 234.50 EUR');
    expect(shown('80 USD')).toBe('80 USD');
    expect(shown('48210.4 €')).toBe('48 210 EUR');
    expect(shown('85 EUR/h')).toBe('85 EUR/h');
    expect(shown('2 USD/gal', 'us')).toBe('2 USD/gal');
    expect(shown('2 USD/gal')).toBe('0.5283 USD/L');
    expect(show(5, KINDS.money, 'metric')).toBe('5 ¤');
    expect(show(5, KINDS.money, 'metric', { currency: 'GBP' })).toBe('5 GBP');
  });

  test('in the author’s own unit', () => {
    const inUnit = (text: string, unit: string, options?: ShowOptions) => {
      const known = parseUnit(unit);
      return known && showIn(si(text), known, options);
    };
    expect(inUnit('0.35 L/m2', 'gal/1000 ft2')).toBe('8.59 gal/1000 ft²');
    expect(inUnit('0.35 L/m2', 'imp gal/ac')).toBe('311.6 imp gal/ac');
    expect(inUnit('5000 psi', 'MPa', { digits: 2 })).toBe('34 MPa');
    expect(inUnit('95 °F', '°C')).toBe('35 °C');
    expect(inUnit('10 ac', 'acUS')).toBe('10 ac (US survey)');
  });

  test('a value of no named kind in SI units', () => {
    expect(show(3, dimension({ length: 2, time: -2, mass: 1 }), 'metric')).toBe('0.003 kJ');
    expect(show(3, dimension({ length: 5, time: -1 }), 'metric')).toBe('3 m^5/s');
    expect(show(3, dimension({ 'money:EUR': 1, angle: -1 }), 'metric')).toBe('3 EUR/rev');
    expect(show(3, dimension({ time: -2 }), 'us')).toBe('3 1/s²');
    expect(show(3, dimension({}), 'us')).toBe('3');
  });

  test('typographic: no-break blanks and a true minus', () => {
    expect(show(si('6912 L'), KINDS.volume, 'metric', { typographic: true })).toBe('6\u202f912\u00a0L');
    expect(show(si('-5 °C'), KINDS.temperature, 'metric', { typographic: true })).toBe('\u22125\u00a0°C');
    expect(show(si('83 min'), KINDS.time, 'metric', { typographic: true })).toBe('1\u00a0h\u00a023\u00a0min');
  });
});

describe('numbers', () => {
  test.each<readonly [number, number, string]>([
    [0, 4, '0'],
    [-0, 4, '0'],
    [1234.56, 4, '1 235'],
    [12345.6, 2, '12 346'],
    [0.30000000000000004, 4, '0.3'],
    [99.996, 4, '100'],
    [0.000123456, 3, '0.000123'],
    [-0.00004, 1, '-0.00004'],
    [1e-12, 3, '1e-12'],
    [1.5e20, 3, '1.5e+20'],
    [999_999_999_999_999, 3, '999 999 999 999 999'],
    [Number.NaN, 3, 'not a number'],
    [Number.POSITIVE_INFINITY, 3, 'infinite'],
  ])('%d to %i digits is %s', (value, digits, expected) => {
    expect(formatNumber(value, digits)).toBe(expected);
  });

  test('are within half a unit of the last digit shown', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: -1e14, max: 1e14 }), fc.integer({ min: 1, max: 9 }), (x, digits) => {
        const back = Number(formatNumber(x, digits).replaceAll(' ', ''));
        const lastPlace = Math.floor(Math.log10(Math.abs(x) || 1)) - digits + 1;
        const halfUnit = 0.5 * 10 ** Math.min(0, Math.max(-20, lastPlace));
        expect(Math.abs(back - x)).toBeLessThanOrEqual(halfUnit * 1.000001 + 1e-15 * Math.abs(x));
      }),
    );
  });
});

describe('beside its limit', () => {
  test('rounding never contradicts the verdict', () => {
    expect(showBeside(si('90.4 min'), si('90 min'), KINDS.time, 'metric')).toEqual(['1 h 30 min 24 s', '1 h 30 min']);
    expect(showBeside(5400.4, 5400, KINDS.time, 'metric')).toEqual(['1 h 30 min 0.4 s', '1 h 30 min']);
    expect(showBeside(si('11.2999 km/h'), si('11.3 km/h'), KINDS.speed, 'metric')).toEqual([
      '11.2999 km/h',
      '11.3 km/h',
    ]);
    expect(showBeside(si('95 °F'), si('35 °C'), KINDS.temperature, 'metric')).toEqual(['35 °C', '35 °C']);
    expect(showBeside(si('12 m'), si('20 m'), KINDS.length, 'metric')).toEqual(['12 m', '20 m']);
  });

  test('two texts are equal exactly when the values are', () => {
    const kinds = Object.values(KINDS).filter(kind => !kind.name.startsWith('money'));
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.double({ noNaN: true, min: 1e-3, max: 1e5 }),
        fc.double({ noNaN: true, min: -7, max: 0 }),
        fc.constantFrom<System>('metric', 'us'),
        (kind, x, exponent, system) => {
          const y = x * (1 + 10 ** exponent);
          const [a, b] = showBeside(x, y, kind, system);
          expect(a === b).toBe(isSame(x, y));
        },
      ),
      { numRuns: 2000 },
    );
  });
});

test('any value of any kind is shown, in both systems', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(KINDS)),
      fc.double(),
      fc.constantFrom<System>('metric', 'us'),
      (kind, x, system) => {
        const text = show(x, kind, system);
        expect(text).not.toMatch(/undefined|NaN|^-0( |$)/);
        expect(text.length).toBeLessThan(60);
      },
    ),
    { numRuns: 3000 },
  );
});
