import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  abs,
  add,
  assign,
  compare,
  div,
  fromSi,
  greatest,
  isProblem,
  type KindName,
  least,
  type Magnitude,
  magnitudeName,
  mul,
  negate,
  parseQuantity,
  parseUnit,
  plain,
  pow,
  quantityKind,
  radians,
  roundTo,
  sqrt,
  sub,
  toSi,
  type UnitProblem,
} from '../../../language/units/index.ts';
import { ATOMS } from '../../../language/units/table.ts';

function q(text: string): Magnitude {
  const read = parseQuantity(text);
  if (!read) throw new Error(`no quantity: ${text}`);
  return { si: read.si, dimension: read.dimension, tag: read.tag };
}

/** The value, counted in the unit; a problem's message instead if it is one. */
function inUnit(m: Magnitude | UnitProblem, unit: string): number | string {
  const known = parseUnit(unit);
  return isProblem(m) || !known ? (m as UnitProblem).message : fromSi(m.si, known);
}

function value(m: Magnitude | UnitProblem): Magnitude {
  if (isProblem(m)) throw new Error(m.message);
  return m;
}

function message(m: object): string {
  return isProblem(m) ? m.message : 'no problem';
}

const UNITS = ATOMS.map(atom => atom.symbol)
  .filter(symbol => parseUnit(symbol))
  .concat(['L/m2', 'gal/1000 ft2', 'kg/m2/h', 'm2', 'L/min', 'EUR/h', 'km/h']);
const anyMagnitude = fc
  .tuple(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), fc.constantFrom(...UNITS))
  .map(([x, unit]) => q(`${x.toFixed(6)} ${unit}`));

describe('sums', () => {
  test('of one kind in two units', () => {
    expect(inUnit(add(q('1 km'), q('500 m')), 'm')).toBe(1500);
    expect(inUnit(sub(q('1 h'), q('15 min')), 'min')).toBeCloseTo(45, 12);
    expect(inUnit(add(q('10 %'), plain(0.2)), '%')).toBeCloseTo(30, 12);
    expect(inUnit(add(q('0.3 L/m2'), q('0.0012 gal/ft2')), 'L/m2')).toBeCloseTo(0.348895, 9);
  });

  test.each([
    ['3 m', '2 s', 'a length cannot be added to a time'],
    ['3 m', '2', 'a length cannot be added to a plain number'],
    ['10 L', '5 %', 'a volume cannot be added to a plain number'],
    ['3 m2', '2 m3', 'an area cannot be added to a volume'],
    ['1 fl oz', '1 oz', 'a volume cannot be added to a mass'],
    ['0.3 L/m2', '2 mm', 'an application rate cannot be added to a length'],
    ['2 mm', '0.3 L/m2', 'a length cannot be added to an application rate'],
    ['5 EUR', '5 USD', 'a sum in EUR cannot be added to a sum in USD'],
    ['5 EUR/h', '5 USD/h', 'money per time in EUR cannot be added to money per time in USD'],
    ['20 °C', '5 °C', 'two temperatures have a difference but no sum; write the second as a difference, in K or Δ°F'],
    ['30 °', '3 rpm', 'an angle cannot be added to a rotation speed'],
  ])('%s + %s: %s', (a, b, expected) => {
    expect(message(add(q(a), q(b)))).toBe(expected);
  });

  test('are commutative and associative, or refused both ways', () => {
    fc.assert(
      fc.property(anyMagnitude, anyMagnitude, anyMagnitude, (a, b, c) => {
        const [left, right] = [add(a, b), add(b, a)];
        expect(isProblem(left)).toBe(isProblem(right));
        if (!isProblem(left) && !isProblem(right)) expect(left).toEqual(right);
        const same = { ...c, dimension: a.dimension, tag: a.tag };
        const back = a.tag === 'temperature' ? undefined : sub(value(add(a, same)), same);
        if (back) expect(value(back).si).toBeCloseTo(a.si, 3);
      }),
    );
  });
});

describe('temperatures are readings, differences are not', () => {
  test('the four sums', () => {
    expect(inUnit(add(q('20 °C'), q('5 K')), '°C')).toBeCloseTo(25, 10);
    expect(inUnit(add(q('5 Δ°F'), q('50 °F')), '°F')).toBeCloseTo(55, 10);
    expect(inUnit(sub(q('20 °C'), q('5 K')), '°C')).toBeCloseTo(15, 10);
    expect(value(sub(q('20 °C'), q('5 °C')))).toMatchObject({ tag: 'difference' });
    expect(inUnit(sub(q('95 °F'), q('30 °C')), 'K')).toBeCloseTo(5, 10);
    expect(inUnit(add(q('5 K'), q('9 Δ°F')), 'K')).toBeCloseTo(10, 12);
  });

  test.each<readonly [string, Magnitude | UnitProblem]>([
    ['difference − reading', sub(q('5 K'), q('20 °C'))],
    ['2 · reading', mul(plain(2), q('20 °C'))],
    ['reading / 2', div(q('20 °C'), plain(2))],
    ['reading²', pow(q('20 °C'), plain(2))],
    ['−reading', negate(q('20 °C'))],
    ['|reading|', abs(q('20 °C'))],
    ['reading rounded', roundTo('ceil', q('20 °C'), q('5 K'))],
    ['reading − length', sub(q('20 °C'), q('5 m'))],
  ])('refused: %s', (_, result) => {
    expect(isProblem(result)).toBe(true);
  });

  test('compare with each other across scales, but not with differences', () => {
    expect(compare(q('35 °C'), q('95 °F'))).toBe(0);
    expect(q('35 °C').si).toBe(q('95 °F').si);
    expect(compare(q('35 °C'), q('96 °F'))).toBe(-1);
    expect(message(compare(q('35 °C'), q('5 K')) as UnitProblem)).toContain('cannot be compared');
  });

  test('differences do everything', () => {
    expect(inUnit(mul(plain(2), q('9 Δ°F')), 'K')).toBeCloseTo(10, 12);
    expect(inUnit(negate(q('5 K')), 'K')).toBe(-5);
    expect(value(div(q('10 W'), q('5 K'))).tag).toBe('none');
    expect(value(mul(value(div(q('10 W'), q('5 K'))), q('5 K'))).si).toBeCloseTo(10, 12);
    expect(value(div(q('10 W'), value(div(q('10 W'), q('5 K'))))).tag).toBe('difference');
  });

  test('a sign is the literal’s', () => {
    const celsius = parseUnit('°C');
    expect(celsius && toSi('-5', celsius)).toBe(268.15);
    expect(q('-5 °C').si).toBe(268.15);
  });
});

describe('products', () => {
  test('the sprayer’s formula: rate · speed · width is a flow (handbook Z-1: 0.5 L/m² at 5 km/h on 6 m is 250 L/min) [D]', () => {
    const flow = mul(value(mul(q('0.5 L/m2'), q('5 km/h'))), q('6 m'));
    expect(inUnit(flow, 'L/min')).toBeCloseTo(250, 9);
    expect(magnitudeName(value(flow))).toBe('flow');
  });

  test('and back: flow / (speed · width) may be a rate', () => {
    const rate = div(q('250 L/min'), value(mul(q('5 km/h'), q('6 m'))));
    expect(value(rate).tag).toBe('none');
    expect(inUnit(assign(quantityKind('application rate'), value(rate)), 'L/m2')).toBeCloseTo(0.5, 12);
    expect(value(add(value(rate), q('0.1 L/m2'))).tag).toBe('rate');
  });

  test('a volume on an area may be a rate or, as in the sand patch test, a depth', () => {
    const film = value(div(q('25 mL'), q('0.03 m2')));
    expect(isProblem(assign(quantityKind('application rate'), film))).toBe(false);
    expect(isProblem(assign(quantityKind('depth'), film))).toBe(false);
  });

  test('a factor keeps what a rate and a length are', () => {
    expect(value(mul(plain(2), q('0.3 L/m2'))).tag).toBe('rate');
    expect(value(mul(q('0.3 L/m2'), plain(2))).tag).toBe('rate');
    expect(value(div(q('3 mm'), plain(2))).tag).toBe('length');
    expect(value(negate(q('0.3 L/m2'))).tag).toBe('rate');
    expect(value(pow(q('3 m'), plain(1))).tag).toBe('length');
    expect(message(sub(value(mul(plain(2), q('0.3 L/m2'))), q('1 mm')))).toContain('cannot be subtracted from');
  });

  test('multiplication is commutative, and division undoes it', () => {
    fc.assert(
      fc.property(anyMagnitude, anyMagnitude, (a, b) => {
        const [left, right] = [mul(a, b), mul(b, a)];
        expect(left).toEqual(right);
        if (isProblem(left) || b.si === 0) return;
        const back = div(left, b);
        if (isProblem(back)) return;
        expect(back.dimension.key).toBe(a.dimension.key);
        expect(Math.abs(back.si - a.si)).toBeLessThanOrEqual(1e-9 * Math.abs(a.si) + 1e-300);
      }),
    );
  });

  test('powers and roots', () => {
    expect(inUnit(pow(q('3 m'), plain(2)), 'm2')).toBeCloseTo(9, 12);
    expect(inUnit(sqrt(q('9 m2')), 'm')).toBeCloseTo(3, 12);
    // The root of a pressure has half exponents; the ratio of two is a number again.
    const ratio = div(value(sqrt(q('4 bar'))), value(sqrt(q('1 bar'))));
    expect(value(ratio)).toEqual(plain(2));
    expect(message(pow(q('3 m'), q('2 m')))).toBe('an exponent is a plain number, not a length');
    expect(message(pow(q('3 m'), plain(0.3)))).toBe('a length cannot be raised to this power');
    expect(message(sqrt(q('-9 m2')))).toContain('not a number');
    expect(message(pow(q('0 m'), plain(-1)))).toBe('zero has no negative power');
    expect(value(pow(plain(2), plain(0.3))).si).toBe(2 ** 0.3);
  });

  test('angles: half the sine of 30° (handbook B-1: 2.4 m at 30° sweeps 2.07846 m) [D]', () => {
    expect(2.4 * Math.cos(radians(q('30 deg').si))).toBeCloseTo(2.07846, 5);
    expect(radians(q('1 rad').si)).toBeCloseTo(1, 15);
    expect(inUnit(mul(q('120 rpm'), q('30 s')), 'rev')).toBeCloseTo(60, 10);
  });
});

describe('no sum, no number', () => {
  test('division by zero', () => {
    expect(message(div(q('3 m'), q('0 s')))).toBe('the divisor is zero');
  });
  test('too large', () => {
    expect(isProblem(mul(plain(1e300), plain(1e300)))).toBe(true);
    expect(isProblem(add(plain(Number.POSITIVE_INFINITY), plain(1)))).toBe(true);
    expect(isProblem(assign(quantityKind('number'), plain(Number.NaN)))).toBe(true);
  });
  test('nothing throws and nothing becomes NaN, whatever goes in', () => {
    const wild = fc.record({
      si: fc.double(),
      dimension: anyMagnitude.map(m => m.dimension),
      tag: fc.constantFrom('none', 'temperature', 'difference', 'rate', 'length') as fc.Arbitrary<Magnitude['tag']>,
    });
    fc.assert(
      fc.property(wild, wild, fc.constantFrom(add, sub, mul, div, pow), (a, b, operation) => {
        const result = operation(a, b);
        if (!isProblem(result)) expect(Number.isFinite(result.si)).toBe(true);
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(wild, wild, (a, b) => {
        for (const result of [least([a, b]), greatest([a, b]), abs(a), negate(a), sqrt(a), roundTo('ceil', a, b)]) {
          expect(typeof magnitudeName(isProblem(result) ? a : result)).toBe('string');
        }
        const order = compare(a, b);
        if (typeof order === 'number') expect([-1, 0, 1]).toContain(order);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('comparing', () => {
  test('is the same in both systems to 1e-9', () => {
    expect(compare(q('0.35 L/m2'), q('0.00858983536149 gal/ft2'))).toBe(0);
    expect(compare(q('0.35 L/m2'), q('0.008589836 gal/ft2'))).toBe(-1);
    expect(compare(q('1 L/m2'), q('0.9999999 L/m2'))).toBe(1);
  });
  test('refuses what has no order', () => {
    expect(message(compare(q('1 m'), q('1 s')) as UnitProblem)).toBe('a length cannot be compared with a time');
    expect(message(compare(q('1 mm'), q('1 L/m2')) as UnitProblem)).toContain('cannot be compared with');
    expect(message(compare(q('1 EUR'), q('1 GBP')) as UnitProblem)).toBe(
      'a sum in EUR cannot be compared with a sum in GBP',
    );
  });
  test('least and greatest', () => {
    expect(inUnit(least([q('3 m'), q('2 m'), q('200 cm')]), 'm')).toBe(2);
    expect(inUnit(greatest([q('35 °C'), q('100 °F')]), '°F')).toBeCloseTo(100, 9);
    expect(message(least([]))).toBe('there is nothing to choose from');
    expect(isProblem(greatest([q('3 m'), q('2 s')]))).toBe(true);
  });
});

describe('rounding to steps', () => {
  test.each([
    ['ceil', '4.2', '1', 5],
    ['floor', '4.8', '1', 4],
    ['round', '4.5', '1', 5],
    ['ceil', '-4.2', '1', -4],
  ] as const)('%s(%s, %s)', (how, a, step, expected) => {
    expect(value(roundTo(how, q(a), q(step))).si).toBe(expected);
  });
  test('what binary fractions do does not add a load or lose a lane', () => {
    expect(inUnit(roundTo('floor', q('0.3 m'), q('0.1 m')), 'm')).toBeCloseTo(0.3, 12);
    expect(value(roundTo('ceil', plain(0.1 * 3 * 10), plain(1))).si).toBe(3);
    expect(value(roundTo('ceil', plain(3.00001), plain(1))).si).toBe(4);
    expect(value(roundTo('ceil', plain(1e-17), plain(1))).si).toBe(0);
  });
  test('needs a step of its own kind, above zero', () => {
    expect(message(roundTo('ceil', q('4.2 m'), plain(1)))).toContain('name a step of its own kind');
    expect(isProblem(roundTo('ceil', q('4.2 m'), q('0 m')))).toBe(true);
  });
});

describe('what belongs where', () => {
  test.each<readonly [KindName, string]>([
    ['length', '3 ft'],
    ['depth', '12 mil'],
    ['application rate', '8 gal/1000 ft2'],
    ['application rate', '3000 L/ha'],
    ['temperature', '95 °F'],
    ['temperature difference', '5 Δ°F'],
    ['evaporation rate', '0.2 lb/ft2/h'],
    ['money', '5 CHF'],
    ['money per time', '85 USD/h'],
    ['share', '0.2'],
    ['share', '20 %'],
    ['slope', '1.5 %'],
    ['count', '3'],
    ['coverage', '105 ft2/gal'],
    ['revolutions', '3 rev'],
    ['rotation speed', '120 rpm'],
    ['area rate', '0.7 ac/h'],
    ['power', '90 metric hp'],
  ])('a %s: %s', (kind, text) => {
    const taken = value(assign(quantityKind(kind), q(text)));
    expect(taken.si).toBe(q(text).si);
    expect(taken.tag).toBe(quantityKind(kind).tag);
  });

  test.each<readonly [KindName, string, string]>([
    ['length', '3', 'a plain number stands where a length belongs; write it in m, mm, ft or in'],
    ['length', '0', 'a plain number stands where a length belongs; write it in m, mm, ft or in'],
    ['length', '3 s', 'a time stands where a length belongs; write it in m, mm, ft or in'],
    [
      'application rate',
      '0.35 L',
      'a volume stands where an application rate belongs; write it in L/m2, L/ha, gal/ft2 or gal/1000 ft2',
    ],
    [
      'application rate',
      '0.35 mm',
      'a length is not an application rate; write the volume on an area, as in L/m2 or gal/ft2',
    ],
    ['depth', '0.35 L/m2', 'an application rate is not a length; write a length, as in mm or in'],
    ['temperature', '5 K', 'a temperature difference stands where a temperature belongs; write it in °C or °F'],
    [
      'temperature difference',
      '5 °C',
      'a temperature stands where a temperature difference belongs; write it in K or Δ°F',
    ],
    ['count', '3 m', 'a length stands where a count belongs'],
    ['money', '5 EUR/h', 'money per time in EUR stands where money belongs; write it in EUR, GBP or USD'],
    ['number', '5 EUR', 'a sum in EUR stands where a number belongs'],
    ['rotation speed', '3 Hz', 'a frequency stands where a rotation speed belongs; write it in rpm or rev/s'],
  ])('no %s: %s', (kind, text, expected) => {
    expect(message(assign(quantityKind(kind), q(text)))).toBe(expected);
  });

  test('an exchange rate is no number and no money', () => {
    const exchange = value(div(q('92 EUR'), q('100 USD')));
    expect(isProblem(assign(quantityKind('number'), exchange))).toBe(true);
    expect(isProblem(assign(quantityKind('money'), exchange))).toBe(true);
    expect(value(mul(q('50 USD'), exchange)).dimension.key).toBe('money:EUR:1');
  });

  test('evaporation of water is taken as depth an hour too: 1 mm/h is 1 kg/m²/h', () => {
    const taken = value(assign(quantityKind('evaporation rate'), q('0.7 mm/h')));
    expect(taken.si).toBeCloseTo(q('0.7 kg/m2/h').si, 15);
    expect(taken.dimension.key).toBe(q('1 kg/m2/h').dimension.key);
  });
});
