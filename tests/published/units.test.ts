/**
 * Unit factors against published definitions and against two independent libraries.
 *
 * Sources and how well they are verified:
 * - Definitions of the units: an open units file that states them (hgrecco/pint, default_en.txt) [V2], recomputed with
 *   rational arithmetic [D].
 * - Seven-digit factors as in NIST SP 811, appendix B.8: from memory [M+]; a secondary page confirms only that the
 *   table is rounded to seven digits [V2].
 * - unitmath 0.8.8 and @lhncbc/ucum-lhc 7.1.10: run here. Where they are known to be wrong or coarse, that is said.
 * - Published errors, each with its page, as negative tests.
 */

import ucumLhc from '@lhncbc/ucum-lhc';
import unitmath from 'unitmath/es/UnitMath.js';
import { describe, expect, test } from 'vitest';
import {
  add,
  assign,
  fromSi,
  isProblem,
  parseQuantity,
  parseUnit,
  quantityKind,
  type Rational,
  rational,
  sub,
  toSi,
  type Unit,
} from '../../language/units/index.ts';
import { ATOMS } from '../../language/units/table.ts';

const { compare, div, mul, parseDecimal, pow, toNumber } = rational;

describe('definitions: open units file [V2], recomputed with rational arithmetic [D]', () => {
  // From, to, factor as printed. `exact` says that the printed decimal is the whole truth; otherwise it is cut or
  // rounded in its last digit.
  const rows: readonly (readonly [from: string, to: string, printed: string, exact: boolean])[] = [
    ['in', 'm', '0.0254', true],
    ['ft', 'm', '0.3048', true],
    ['yd', 'm', '0.9144', true],
    ['mi', 'm', '1609.344', true],
    ['NM', 'm', '1852', true],
    ['mph', 'm/s', '0.44704', true],
    ['mph', 'km/h', '1.609344', true],
    ['mph', 'ft/min', '88', true],
    ['kt', 'km/h', '1.852', true],
    ['kt', 'm/s', '0.514444', false],
    ['kt', 'mph', '1.150779448', false],
    ['ft2', 'm2', '0.09290304', true],
    ['yd2', 'm2', '0.83612736', true],
    ['ac', 'm2', '4046.8564224', true],
    ['ac', 'ft2', '43560', true],
    ['acUS', 'm2', '4046.872609874', false],
    ['ha', 'ac', '2.471053814671653', false],
    ['gal', 'L', '3.785411784', true],
    ['gal', 'in3', '231', true],
    ['impgal', 'L', '4.54609', true],
    ['impgal', 'gal', '1.2009499255', false],
    ['fl oz', 'mL', '29.5735295625', true],
    ['gal/min', 'L/min', '3.785411784', true],
    ['gal/min', 'm3/s', '0.0000630901964', true],
    ['gal/ac', 'L/ha', '9.35395622896', false],
    ['gal/1000 ft2', 'gal/ac', '43.56', true],
    ['gal/1000 ft2', 'L/m2', '0.0407458333', false],
    ['gal/ft2', 'L/m2', '40.745833333', false],
    ['gal/yd2', 'L/m2', '4.527314814', false],
    ['L/m2', 'gal/ac', '1069.0663667', false],
    ['L/m2', 'gal/ft2', '0.0245423867', false],
    ['ft2/gal', 'm2/L', '0.0245423867', false],
    ['psi', 'Pa', '6894.757293168', false],
    ['bar', 'kPa', '100', true],
    ['bar', 'psi', '14.5037737730', false],
    ['MPa', 'psi', '145.037737730', false],
    ['lbf', 'N', '4.4482216152605', true],
    ['hp', 'W', '745.69987158227', false],
    ['hp', 'ft*lbf/s', '550', true],
    ['metric hp', 'W', '735.49875', true],
    ['lb/ft2', 'kg/m2', '4.88242763638', false],
    ['inHg', 'kPa', '3.386388640', false],
    ['Δ°F', 'K', '0.5555555555', false],
    ['ac*in', 'gal', '27154.285714', false],
    ['ac*in', 'm3', '102.790153', false],
  ];
  test.each(rows)('1 %s is %s %s', (from, to, printed, exact) => {
    const factor = ratio(from, to);
    if (exact) expect(compare(factor, decimal(printed))).toBe(0);
    else expect(agreesToPrinted(factor, printed)).toBe(true);
  });

  test('the comparison would notice one unit in the last printed digit but one', () => {
    for (const [from, to, printed] of rows.filter(([, , , exact]) => !exact)) {
      const off = printed.replace(/(\d)(?=.$)/, d => String((Number(d) + 5) % 10));
      expect(agreesToPrinted(ratio(from, to), off), `${from} as ${off} ${to}`).toBe(false);
    }
  });

  test('1 L/m² is 1 mm of depth and 1 kg/m² of water', () => {
    expect(toSi('1', unitOf('L/m2'))).toBe(toSi('1', unitOf('mm')));
    // A fresh water of 1000 kg/m³ [D]
    expect(toSi('1', unitOf('L/m2')) * toSi('1000', unitOf('kg/m3'))).toBe(toSi('1', unitOf('kg/m2')));
  });

  test('°F to °C is (F − 32)/1.8, and 10 bar·L/min is 1/60 kW (P1 of the handbook, P-2: 40 L/min at 150 bar is 10 kW [V2])', () => {
    expect(fromSi(toSi('95', unitOf('°F')), unitOf('°C'))).toBeCloseTo(35, 12);
    expect(fromSi(toSi('-40', unitOf('°F')), unitOf('°C'))).toBeCloseTo(-40, 12);
    const watts = toSi('40', unitOf('L/min')) * toSi('150', unitOf('bar'));
    expect(fromSi(watts, unitOf('kW'))).toBeCloseTo(10, 12);
    expect(fromSi(watts, unitOf('hp'))).toBeCloseTo(13.41, 2);
  });

  test('the constants of sprayer calibration are exact: 5940, 495 and 8.25 [D]', () => {
    const gallonsPerAcre = (width: string): Rational =>
      div(unitOf('gal/min').factor, mul(unitOf('mph').factor, mul(unitOf(width).factor, unitOf('gal/ac').factor)));
    expect(compare(gallonsPerAcre('in'), decimal('5940'))).toBe(0);
    expect(compare(gallonsPerAcre('ft'), decimal('495'))).toBe(0);
    expect(compare(div(decimal('43560'), decimal('5280')), decimal('8.25'))).toBe(0);
  });

  test('UFGS: 1 mm ≈ 40 mil, 0.97 MPa ≈ 140 psi, 17.9 MPa ≈ 2,600 psi, 60 °C = 140 °F [V], to the digits printed', () => {
    expect(fromSi(toSi('1', unitOf('mm')), unitOf('mil'))).toBeCloseTo(39.37, 2);
    expect(convert('140', 'psi', 'MPa')).toBeCloseTo(0.97, 2);
    expect(convert('2600', 'psi', 'MPa')).toBeCloseTo(17.9, 1);
    expect(convert('140', '°F', '°C')).toBeCloseTo(60, 10);
  });

  test('ICAO Doc 9137-2: 278 m²/h [V2] is 2,992 ft²/h [D]', () => {
    expect(Math.round(convert('278', 'm2/h', 'ft2/h'))).toBe(2992);
  });
});

describe('seven-digit factors as remembered of NIST SP 811 (from memory, not published here) [M+]', () => {
  test.each([
    ['mph', 'm/s', '4.4704E-01'],
    ['kt', 'm/s', '5.144444E-01'],
    ['yd2', 'm2', '8.361274E-01'],
    ['acUS', 'm2', '4.046873E+03'],
    ['gal', 'm3', '3.785412E-03'],
    ['gal/min', 'm3/s', '6.309020E-05'],
    ['psi', 'Pa', '6.894757E+03'],
    ['hp', 'W', '7.456999E+02'],
  ])('1 %s in %s', (from, to, remembered) => {
    expect(toNumber(ratio(from, to)).toPrecision(7)).toBe(Number(remembered).toPrecision(7));
  });
});

describe('unitmath 0.8.8 agrees on every unit that both have', () => {
  const names: Readonly<Record<string, string>> = {
    m: 'm',
    km: 'km',
    cm: 'cm',
    mm: 'mm',
    µm: 'um',
    in: 'in',
    ft: 'ft',
    yd: 'yd',
    mi: 'mi',
    mil: 'mil',
    ha: 'hectare',
    ac: 'acre',
    L: 'L',
    mL: 'mL',
    gal: 'gal',
    qt: 'qt',
    pt: 'pt',
    'fl oz': 'floz',
    s: 's',
    ms: 'ms',
    min: 'min',
    h: 'h',
    d: 'day',
    wk: 'week',
    Hz: 'Hz',
    kg: 'kg',
    g: 'g',
    mg: 'mg',
    t: 't',
    lb: 'lb',
    oz: 'oz',
    ton: 'ton',
    N: 'N',
    kN: 'kN',
    lbf: 'lbf',
    Pa: 'Pa',
    hPa: 'hPa',
    kPa: 'kPa',
    MPa: 'MPa',
    bar: 'bar',
    mbar: 'mbar',
    psi: 'psi',
    mmHg: 'mmHg',
    J: 'J',
    kJ: 'kJ',
    MJ: 'MJ',
    Wh: 'Wh',
    kWh: 'kWh',
    W: 'W',
    kW: 'kW',
    MW: 'MW',
    hp: 'hp',
    '°': 'deg',
    rad: 'rad',
    rev: 'cycle',
    K: 'K',
    'Δ°F': 'degR',
    mph: 'mi / h',
    psf: 'lbf / ft^2',
    rpm: 'cycle / min',
    'km/h': 'km / h',
    'L/m2': 'L / m^2',
    'gal/ft2': 'gal / ft^2',
    'gal/ac': 'gal / acre',
    'L/ha': 'L / hectare',
    'gal/min': 'gal / min',
    'lb/ft3': 'lb / ft^3',
    'lb/ft2/h': 'lb / ft^2 h',
    'kg/m2/h': 'kg / m^2 h',
    'ft/min': 'ft / min',
  };
  test.each(Object.entries(names))('%s', (ours, theirs) => {
    const unit = unitOf(ours);
    expect(relativeError(inRadians(unit), unitmath(`1 ${theirs}`).toSI().getValue())).toBeLessThan(1e-14);
  });

  test('readings of temperature', () => {
    for (const f of ['-40', '0', '32', '95', '140']) {
      expect(convert(f, '°F', '°C')).toBeCloseTo(unitmath(`${f} degF`).to('degC').getValue(), 10);
    }
  });

  test('its known gaps and errors: no knot, no imperial gallon, `kt` is a kilotonne, 20 °C + 5 °C is 298.15 °C', () => {
    expect([unitmath.exists('knot'), unitmath.exists('impgal')]).toEqual([false, false]);
    expect(unitmath('1 kt').to('kg').getValue()).toBeCloseTo(1e6, 6);
    expect(unitmath('20 degC').add(unitmath('5 degC')).to('degC').getValue()).toBeCloseTo(298.15, 9);
    expect(isProblem(add(quantity('20 °C'), quantity('5 °C')))).toBe(true);
  });
});

describe('UCUM (@lhncbc/ucum-lhc 7.1.10) agrees on every unit, by the code that we publish', () => {
  const ucum = ucumLhc.UcumLhcUtils.getInstance();
  const compounds = [
    'L/m2',
    'gal/ft2',
    'gal/1000 ft2',
    'L/100 m2',
    'gal/ac',
    'gal/yd2',
    'impgal/ac',
    'L/ha',
    'gal/min',
    'm3/h',
    'km/h',
    'ft/min',
    'lb/ft2/h',
    'kg/m2/h',
    'mm/h',
    'ha/h',
    'ac/h',
    'lb/ft3',
    'lb/gal',
    'g/cm3',
    'm2/L',
    'ft2/gal',
    'ft*lbf',
    'ac*in',
    'ft3/min',
    'kW/metric hp',
    'rev/s',
    'oz/yd2',
    'm/s2',
    'J/kg/°C',
    'm2/rpm',
  ]; // prettier-ignore
  const coarse = new Set(['mmHg', 'inHg']);
  const scales = new Set(['°C', '°F']);
  const isMoney = (unit: Unit) => unit.dimension.key.includes('money');
  const units = [...ATOMS.map(({ symbol }) => symbol).filter(s => parseUnit(s)), ...compounds].map(unitOf);

  test('all codes are valid', () => {
    const bad = units.filter(({ ucum: code }) => ucum.validateUnitString(code).status !== 'valid');
    expect(bad.map(unit => [unit.symbol, unit.ucum])).toEqual([]);
  });

  const shared = units.filter(unit => !isMoney(unit) && !coarse.has(unit.symbol) && !scales.has(unit.symbol));
  test.each(shared.map(unit => [unit.symbol, unit] as const))('%s', (_, unit) => {
    const base = unit.dimension.powers.map(([name, power]) => `${BASES[name] ?? ''}${power}`).join('.') || '1';
    const { status, toVal } = ucum.convertUnitTo(unit.ucum, 1, base);
    expect(status).toBe('succeeded');
    expect(relativeError(toNumber(unit.factor), toVal ?? Number.NaN)).toBeLessThan(1e-14);
  });

  test('readings of temperature', () => {
    for (const c of [-30, 0, 35, 60]) {
      expect(convert(`${c}`, '°C', '°F')).toBeCloseTo(ucum.convertUnitTo('Cel', c, '[degF]').toVal ?? Number.NaN, 9);
    }
  });

  test('its mercury is cut to 133.322 kPa a metre, 2.9e-6 below the conventional 133.322387415', () => {
    for (const symbol of coarse) {
      const theirs = ucum.convertUnitTo(unitOf(symbol).ucum, 1, 'Pa').toVal ?? Number.NaN;
      expect(toSi('1', unitOf(symbol)) / theirs - 1).toBeCloseTo(2.906e-6, 9);
    }
    expect(unitOf('mmHg').factor).toEqual(decimal('133.322387415'));
  });

  test('it has the survey acre only, so the international one is given as 43560 square feet', () => {
    expect(unitOf('ac').ucum).toBe('43560.[ft_i]2');
    const survey = ucum.convertUnitTo('[acr_us]', 1, 'm2').toVal ?? 0;
    expect(survey / toSi('1', unitOf('ac')) - 1).toBeCloseTo(4e-6, 8);
  });

  test('a code stays one divisor in a compound', () => {
    expect(unitOf('L/mph').ucum).toBe('L/([mi_i]/h)');
    expect(unitOf('gal/ac').ucum).toBe('[gal_us]/(43560.[ft_i]2)');
  });
});

describe('published errors, not reproduced', () => {
  test('X8, UFGS 02763A [V]: 105 ft²/gal is 2.577 m²/L, not the printed 2.9', () => {
    expect(convert('105', 'ft2/gal', 'm2/L')).toBeCloseTo(2.577, 3);
    expect(Math.abs(convert('105', 'ft2/gal', 'm2/L') - 2.9)).toBeGreaterThan(0.3);
  });
  test('X9, slides on the chemical method [V2]: 50 psi is 3.447 bar, not 4', () => {
    expect(convert('50', 'psi', 'bar')).toBeCloseTo(3.447, 3);
  });
  test('X13, an engineering site [V2]: 1 gal/min is 6.30902e-5 m³/s, not 6.30888e-5', () => {
    expect(toSi('1', unitOf('gal/min')).toPrecision(6)).toBe('0.0000630902');
    expect(relativeError(toSi('1', unitOf('gpm')), 6.30888e-5)).toBeGreaterThan(2e-5);
  });
  test('X1, a university sprayer page [V]: ft/s to mph is 60/88, not 60/80', () => {
    expect(compare(ratio('ft/s', 'mph'), div(decimal('60'), decimal('88')))).toBe(0);
  });
  test('X4 [V]: 800 m at 7 km/h take 6 min 51 s, not 6:48', () => {
    const seconds = toSi('800', unitOf('m')) / toSi('7', unitOf('km/h'));
    expect(Math.round(seconds)).toBe(6 * 60 + 51);
  });
  test('X10, a motor page [V2]: kW is bar · L/min / 600, not 500', () => {
    expect(
      compare(div(mul(unitOf('bar').factor, unitOf('L/min').factor), unitOf('kW').factor), rational.rational(1, 600)),
    ).toBe(0);
  });
  test('X14, an equipment table [V2]: 200 ft at 5 mph take 27.3 s, not 28', () => {
    expect(toSi('200', unitOf('ft')) / toSi('5', unitOf('mph'))).toBeCloseTo(27.3, 1);
  });
  test('X6 [V2]: a square of 18.5 ft is 0.57 % more than 1/128 acre', () => {
    const square = pow(mul(decimal('18.5'), unitOf('ft').factor), 2);
    const share = toNumber(div(square, div(unitOf('ac').factor, decimal('128'))));
    expect(share).toBeCloseTo(1.0057, 4);
  });
});

describe('traps of the handbook, section 7', () => {
  test('US and imperial gallon differ by 20 %', () => {
    expect(toNumber(ratio('impgal', 'gal')) - 1).toBeCloseTo(0.2, 2);
    expect(unitOf('gal').symbol).not.toBe(unitOf('imp gal').symbol);
  });
  test('5 °F above the dew point is 2.8 K, not −15 °C', () => {
    expect(convert('5', 'Δ°F', 'K')).toBeCloseTo(2.8, 1);
    expect(convert('5', '°F', '°C')).toBeCloseTo(-15, 10);
    const dewPoint = quantity('10 °C');
    const limit = add(dewPoint, quantity('5 Δ°F'));
    expect(isProblem(limit) ? limit : fromSi(limit.si, unitOf('°C'))).toBeCloseTo(12.78, 2);
    expect(isProblem(assign(quantityKind('temperature difference'), quantity('5 °F')))).toBe(true);
    expect(sub(quantity('59 °F'), quantity('10 °C'))).toMatchObject({ tag: 'difference' });
  });
  test('mechanical, metric and electrical horsepower are three', () => {
    expect(toSi('1', unitOf('hp'))).toBeCloseTo(745.7, 2);
    expect(toSi('1', unitOf('metric hp'))).toBe(735.49875);
    // An electrical horsepower is 746 W; it has no unit here, so that nobody takes one for another.
    expect(parseUnit('electric hp')).toBeUndefined();
  });
  test('gauge and absolute pressure are not told apart by a unit: psig and psia are refused', () => {
    expect([parseUnit('psig'), parseUnit('psia'), parseUnit('barg')]).toEqual([undefined, undefined, undefined]);
  });
  test('dilution: one part in 1 + 4 parts is 20 %, and 25 % is another thing', () => {
    const [part, whole] = [quantity('1 L'), quantity('5 L')];
    expect(part.si / whole.si).toBeCloseTo(quantity('20 %').si, 15);
    expect(quantity('25 %').si).not.toBe(part.si / whole.si);
  });
  test('fluid ounce and ounce: a volume and a mass', () => {
    expect(isProblem(add(quantity('1 fl oz'), quantity('1 oz')))).toBe(true);
  });
});

const BASES: Readonly<Record<string, string>> = { length: 'm', mass: 'kg', time: 's', temperature: 'K', angle: 'circ' };

function unitOf(text: string): Unit {
  const unit = parseUnit(text);
  if (!unit) throw new Error(`no unit: ${text}`);
  return unit;
}

function quantity(text: string) {
  const read = parseQuantity(text);
  if (!read) throw new Error(`no quantity: ${text}`);
  return read;
}

function decimal(text: string): Rational {
  const value = parseDecimal(text);
  if (!value) throw new Error(`no decimal: ${text}`);
  return value;
}

function ratio(from: string, to: string): Rational {
  return div(unitOf(from).factor, unitOf(to).factor);
}

function convert(literal: string, from: string, to: string): number {
  return fromSi(toSi(literal, unitOf(from)), unitOf(to));
}

/** Cut or rounded in the last printed digit: off by less than one unit of it. */
function agreesToPrinted(value: Rational, printed: string): boolean {
  const decimals = printed.split('.')[1]?.length ?? 0;
  const off = mul(rational.sub(value, decimal(printed)), pow(decimal('10'), decimals));
  return compare(off, rational.ONE) < 0 && compare(off, rational.rational(-1)) > 0;
}

/** Our angles count turns; others count radians. */
function inRadians(unit: Unit): number {
  const turns = unit.dimension.powers.find(([base]) => base === 'angle')?.[1] ?? 0;
  return toNumber(unit.factor) * (2 * Math.PI) ** turns;
}

function relativeError(a: number, b: number): number {
  return Math.abs(a - b) / Math.abs(b);
}
