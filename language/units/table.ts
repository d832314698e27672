/**
 * The units, each defined by exact fractions.
 *
 * Definitions: the international yard and pound (1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg), the US gallon of
 * 231 in³, the imperial gallon of 4.54609 L, the standard acceleration 9.80665 m/s². Handbook section 7 lists them;
 * tests/published/units.test.ts holds each factor against its printed digits.
 *
 * One unit has one canonical symbol; every other spelling that engineers use is in `also`.
 */

import {
  AREA,
  dimension,
  ENERGY,
  FORCE,
  LENGTH,
  MASS,
  NUMBER,
  POWER,
  PRESSURE,
  SPEED,
  TIME,
  VOLUME,
} from './dimensions.ts';
import { div, mul, ONE, parseDecimal, pow, type Rational, rational } from './rational.ts';
import type { Dimension, Unit } from './types.ts';

/** A unit that is no product of others. */
export interface Atom {
  readonly symbol: string;
  /** Other spellings. Case counts: `mPa` is not `MPa`. */
  readonly also: readonly string[];
  readonly factor: Rational;
  /** Kelvins to add after the factor, for the two temperature scales. */
  readonly offset?: Rational;
  readonly exact: boolean;
  readonly dimension: Dimension;
  readonly system: Unit['system'];
  readonly ucum: string;
  /** How it is shown where that differs from the symbol. */
  readonly shown?: string;
}

/** A unit to a power, as the scanner hands it on. */
export interface Factor {
  readonly atom: Atom;
  readonly power: number;
}

const ANGLE = dimension({ angle: 1 });
const TEMPERATURE = dimension({ temperature: 1 });
const ROTATION = dimension({ angle: 1, time: -1 });
const FREQUENCY = dimension({ time: -1 });

const exactly = (decimal: string): Rational => parseDecimal(decimal) ?? ONE;
const times = (...factors: Rational[]): Rational => factors.reduce(mul, ONE);

const inch = exactly('0.0254');
const foot = exactly('0.3048');
const yard = exactly('0.9144');
const mile = exactly('1609.344');
const squareFoot = pow(foot, 2);
const pound = exactly('0.45359237');
const gravity = exactly('9.80665');
const poundForce = mul(pound, gravity);
const gallon = times(exactly('231'), pow(inch, 3));
const imperialGallon = exactly('0.00454609');
const hour = exactly('3600');
/** 39.37 in to the metre, exactly; the US survey foot was retired at the end of 2022 but old drawings keep it. */
const surveyFoot = rational(1200, 3937);
/** Conventional density of mercury at 0 °C, kg/m³, as in the conventional millimetre of mercury. */
const mercury = exactly('13595.1');
/** 1/2π to 50 digits: a radian in turns is irrational. */
const radian = exactly('0.15915494309189533576888376337251436203445964574046');

/** Three-letter codes of ISO 4217 for currencies in use; funds, metals and test codes are left out. */
const CURRENCIES = (
  'AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CLP CNY COP ' +
  'CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR ' +
  'IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU ' +
  'MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG ' +
  'SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST ' +
  'XAF XCD XCG XOF XPF YER ZAR ZMW ZWG'
).split(' ');

/** Signs that stand for a currency. `$` is the US dollar; other dollars are written by their code. */
const CURRENCY_SIGNS: Readonly<Record<string, readonly string[]>> = { EUR: ['€'], USD: ['$'], GBP: ['£'], JPY: ['¥'] };

type More = { also?: string; offset?: Rational; exact?: boolean; shown?: string };

function unit(
  symbol: string,
  factor: Rational,
  dim: Dimension,
  system: Unit['system'],
  ucum: string,
  more: More = {},
): Atom {
  const { also = '', exact = true, ...rest } = more;
  return { symbol, factor, dimension: dim, system, ucum, exact, also: also === '' ? [] : also.split('|'), ...rest };
}

/** Every atom. Spellings in `also` are separated by `|` and may hold one blank. */
export const ATOMS: readonly Atom[] = [
  // Length
  unit('m', ONE, LENGTH, 'metric', 'm', { also: 'metre|metres|meter|meters' }),
  unit('km', exactly('1000'), LENGTH, 'metric', 'km', { also: 'kilometre|kilometres|kilometer|kilometers' }),
  unit('cm', exactly('0.01'), LENGTH, 'metric', 'cm', { also: 'centimetre|centimetres|centimeter|centimeters' }),
  unit('mm', exactly('0.001'), LENGTH, 'metric', 'mm', { also: 'millimetre|millimetres|millimeter|millimeters' }),
  // U+00B5 is canonical; keyboards and word processors also give the Greek letter U+03BC.
  unit('\u00b5m', exactly('0.000001'), LENGTH, 'metric', 'um', { also: '\u03bcm|um|micron|microns' }),
  unit('in', inch, LENGTH, 'us', '[in_i]', { also: 'inch|inches' }),
  unit('ft', foot, LENGTH, 'us', '[ft_i]', { also: 'foot|feet' }),
  unit('yd', yard, LENGTH, 'us', '[yd_i]', { also: 'yds|yard|yards' }),
  unit('mi', mile, LENGTH, 'us', '[mi_i]', { also: 'mile|miles' }),
  unit('mil', mul(inch, exactly('0.001')), LENGTH, 'us', '[mil_i]', { also: 'mils|thou' }),
  unit('NM', exactly('1852'), LENGTH, 'both', '[nmi_i]', { also: 'nmi' }),
  unit('ftUS', surveyFoot, LENGTH, 'us', '[ft_us]', {
    also: 'survey ft|survey foot|survey feet',
    shown: 'ft (US survey)',
  }),

  // Area
  unit('ha', exactly('10000'), AREA, 'metric', 'har', { also: 'hectare|hectares' }),
  // No single code of UCUM is the international acre; its [acr_us] is the survey acre, 4 ppm larger.
  unit('ac', times(exactly('43560'), squareFoot), AREA, 'us', '(43560.[ft_i]2)', { also: 'acre|acres' }),
  unit('acUS', times(exactly('43560'), pow(surveyFoot, 2)), AREA, 'us', '[acr_us]', {
    also: 'survey ac|survey acre|survey acres',
    shown: 'ac (US survey)',
  }),
  // Turf and spraying trades state rates per thousand square feet. Only after a `/`: see the scanner.
  unit('1000 ft2', times(exactly('1000'), squareFoot), AREA, 'us', '(1000.[ft_i]2)', { shown: '1000 ft²' }),
  unit('100 m2', exactly('100'), AREA, 'metric', '(100.m2)', { shown: '100 m²' }),
  unit('1000 m2', exactly('1000'), AREA, 'metric', '(1000.m2)', { shown: '1000 m²' }),

  // Volume
  unit('L', exactly('0.001'), VOLUME, 'metric', 'L', { also: 'l|\u2113|litre|litres|liter|liters' }),
  unit('mL', exactly('0.000001'), VOLUME, 'metric', 'mL', { also: 'ml|millilitre|millilitres|milliliter|milliliters' }),
  unit('gal', gallon, VOLUME, 'us', '[gal_us]', { also: 'gals|gallon|gallons|US gal|US gallon|US gallons' }),
  unit('qt', div(gallon, exactly('4')), VOLUME, 'us', '[qt_us]', { also: 'quart|quarts' }),
  unit('pt', div(gallon, exactly('8')), VOLUME, 'us', '[pt_us]', { also: 'pint|pints' }),
  unit('fl oz', div(gallon, exactly('128')), VOLUME, 'us', '[foz_us]', { also: 'floz|fluid ounce|fluid ounces' }),
  unit('impgal', imperialGallon, VOLUME, 'imperial', '[gal_br]', {
    also: 'imp gal|imperial gallon|imperial gallons|UK gal|UK gallon|UK gallons',
    shown: 'imp gal',
  }),

  // Time
  unit('s', ONE, TIME, 'both', 's', { also: 'sec|secs|second|seconds' }),
  unit('ms', exactly('0.001'), TIME, 'both', 'ms', { also: 'millisecond|milliseconds' }),
  unit('min', exactly('60'), TIME, 'both', 'min', { also: 'mins|minute|minutes' }),
  unit('h', hour, TIME, 'both', 'h', { also: 'hr|hrs|hour|hours' }),
  unit('d', exactly('86400'), TIME, 'both', 'd', { also: 'day|days' }),
  unit('wk', exactly('604800'), TIME, 'both', 'wk', { also: 'wks|week|weeks' }),
  unit('Hz', ONE, FREQUENCY, 'both', 'Hz'),

  // Speed
  unit('mph', div(mile, hour), SPEED, 'us', '[mi_i]/h', { also: 'MPH' }),
  unit('kt', div(exactly('1852'), hour), SPEED, 'both', '[kn_i]', { also: 'kts|kn|knot|knots' }),

  // Mass
  unit('kg', ONE, MASS, 'metric', 'kg', { also: 'kilogram|kilograms' }),
  unit('g', exactly('0.001'), MASS, 'metric', 'g', { also: 'gram|grams' }),
  unit('mg', exactly('0.000001'), MASS, 'metric', 'mg', { also: 'milligram|milligrams' }),
  unit('t', exactly('1000'), MASS, 'metric', 't', { also: 'tonne|tonnes' }),
  unit('lb', pound, MASS, 'us', '[lb_av]', { also: 'lbs|pound|pounds' }),
  unit('oz', div(pound, exactly('16')), MASS, 'us', '[oz_av]', { also: 'ounce|ounces' }),
  unit('ton', times(exactly('2000'), pound), MASS, 'us', '[ston_av]', {
    also: 'tons|short ton|short tons|US ton|US tons',
  }),

  // Force
  unit('N', ONE, FORCE, 'metric', 'N', { also: 'newton|newtons' }),
  unit('kN', exactly('1000'), FORCE, 'metric', 'kN'),
  unit('lbf', poundForce, FORCE, 'us', '[lbf_av]'),

  // Pressure
  unit('Pa', ONE, PRESSURE, 'metric', 'Pa'),
  unit('hPa', exactly('100'), PRESSURE, 'metric', 'hPa'),
  unit('kPa', exactly('1000'), PRESSURE, 'metric', 'kPa'),
  unit('MPa', exactly('1000000'), PRESSURE, 'metric', 'MPa'),
  unit('bar', exactly('100000'), PRESSURE, 'metric', 'bar', { also: 'bars' }),
  unit('mbar', exactly('100'), PRESSURE, 'metric', 'mbar', { also: 'millibar|millibars' }),
  unit('psi', div(poundForce, pow(inch, 2)), PRESSURE, 'us', '[psi]', { also: 'PSI' }),
  unit('psf', div(poundForce, squareFoot), PRESSURE, 'us', '[lbf_av]/[ft_i]2'),
  // UCUM rounds mercury to 133.322 kPa a metre, 3e-6 below the conventional value used here.
  unit('mmHg', times(exactly('0.001'), mercury, gravity), PRESSURE, 'both', 'mm[Hg]', { also: 'mm Hg' }),
  unit('inHg', times(inch, mercury, gravity), PRESSURE, 'us', "[in_i'Hg]", { also: 'in Hg' }),

  // Energy and power
  unit('J', ONE, ENERGY, 'metric', 'J', { also: 'joule|joules' }),
  unit('kJ', exactly('1000'), ENERGY, 'metric', 'kJ'),
  unit('MJ', exactly('1000000'), ENERGY, 'metric', 'MJ'),
  unit('Wh', hour, ENERGY, 'metric', 'W.h'),
  unit('kWh', times(exactly('1000'), hour), ENERGY, 'metric', 'kW.h'),
  unit('W', ONE, POWER, 'metric', 'W', { also: 'watt|watts' }),
  unit('kW', exactly('1000'), POWER, 'metric', 'kW', { also: 'kilowatt|kilowatts' }),
  unit('MW', exactly('1000000'), POWER, 'metric', 'MW'),
  unit('hp', times(exactly('550'), foot, poundForce), POWER, 'us', '[HP]', { also: 'HP|horsepower' }),
  unit('metric hp', times(exactly('75'), gravity), POWER, 'metric', '(75.kgf.m/s)', { also: 'metric horsepower|PS' }),

  // Angle. The base is the full turn, in which a degree is exact.
  unit('\u00b0', rational(1, 360), ANGLE, 'both', 'deg', { also: 'deg|degs|degree|degrees' }),
  unit('rad', radian, ANGLE, 'both', 'rad', { exact: false, also: 'radian|radians' }),
  unit('rev', ONE, ANGLE, 'both', 'circ', { also: 'revs|revolution|revolutions|turn|turns' }),
  unit('rpm', rational(1, 60), ROTATION, 'both', 'circ/min', { also: 'RPM' }),

  // Temperature. °C and °F are readings; K and the two with Δ are differences. Readings in kelvin are not of the trade.
  unit('\u00b0C', ONE, TEMPERATURE, 'metric', 'Cel', {
    offset: exactly('273.15'),
    also: 'degC|deg C|degrees C|\u2103',
  }),
  unit('\u00b0F', rational(5, 9), TEMPERATURE, 'us', '[degF]', {
    offset: rational(45967, 180),
    also: 'degF|deg F|degrees F|\u2109',
  }),
  unit('K', ONE, TEMPERATURE, 'metric', 'K', { also: 'kelvin|kelvins' }),
  unit('\u0394\u00b0C', ONE, TEMPERATURE, 'metric', 'K', { also: '\u2206\u00b0C|\u0394degC|\u2206degC|deltadegC' }),
  unit('\u0394\u00b0F', rational(5, 9), TEMPERATURE, 'us', '[degR]', {
    also: '\u2206\u00b0F|\u0394degF|\u2206degF|deltadegF',
  }),

  // Shares and counts
  unit('%', exactly('0.01'), NUMBER, 'both', '%', { also: 'pct|percent' }),
  unit('\u2030', exactly('0.001'), NUMBER, 'both', '[ppth]'),
  unit('ppm', exactly('0.000001'), NUMBER, 'both', '[ppm]'),
  unit('ea', ONE, NUMBER, 'both', '{each}'),

  // Money: each currency is a base of its own. `¤` stands for a currency that is not said.
  unit('\u00a4', ONE, dimension({ money: 1 }), 'both', '{money}'),
  ...CURRENCIES.map(code =>
    unit(code, ONE, dimension({ [`money:${code}`]: 1 }), 'both', `{${code}}`, {
      also: (CURRENCY_SIGNS[code] ?? []).join('|'),
    }),
  ),
];

/** Words that mean a product of other units. */
const SHORTHANDS: readonly (readonly [words: string, ...factors: (readonly [string, number])[]])[] = [
  ['sq m|sqm|square metre|square metres|square meter|square meters', ['m', 2]],
  ['sq km', ['km', 2]],
  ['sq cm', ['cm', 2]],
  ['sq mm', ['mm', 2]],
  ['sq in|sqin|square inch|square inches', ['in', 2]],
  ['sq ft|sqft|square foot|square feet', ['ft', 2]],
  ['sq yd|sqyd|square yard|square yards', ['yd', 2]],
  ['sq mi|square mile|square miles', ['mi', 2]],
  ['cu m|cubic metre|cubic metres|cubic meter|cubic meters', ['m', 3]],
  ['cu cm|cc', ['cm', 3]],
  ['cu in|cubic inch|cubic inches', ['in', 3]],
  ['cu ft|cubic foot|cubic feet', ['ft', 3]],
  ['cu yd|cubic yard|cubic yards', ['yd', 3]],
  ['kph|kmh|KPH', ['km', 1], ['h', -1]],
  ['fps', ['ft', 1], ['s', -1]],
  ['fpm', ['ft', 1], ['min', -1]],
  ['gpm|GPM', ['gal', 1], ['min', -1]],
  ['gph|GPH', ['gal', 1], ['h', -1]],
  ['lpm|LPM', ['L', 1], ['min', -1]],
  ['cfm|CFM', ['ft', 3], ['min', -1]],
  ['gpa|GPA', ['gal', 1], ['ac', -1]],
  ['ft lbf', ['ft', 1], ['lbf', 1]],
];

/** Products that have a unit of their own, so that one unit has one symbol. */
export const SAME_AS: ReadonlyMap<string, string> = new Map([
  ['mi/h', 'mph'],
  ['NM/h', 'kt'],
  ['rev/min', 'rpm'],
  ['N/m2', 'Pa'],
  ['lbf/in2', 'psi'],
  ['lbf/ft2', 'psf'],
  ['W*h', 'Wh'],
  ['kW*h', 'kWh'],
  ['J/s', 'W'],
]);

const BY_SYMBOL: ReadonlyMap<string, Atom> = new Map(ATOMS.map(atom => [atom.symbol, atom]));

/** The atom with this canonical symbol. */
export function atomOf(symbol: string): Atom | undefined {
  return BY_SYMBOL.get(symbol);
}

/** Every spelling that can stand as one word (or two with a blank), with what it means. */
export const WORDS: ReadonlyMap<string, readonly Factor[]> = new Map([
  ...ATOMS.flatMap(atom =>
    [atom.symbol, ...atom.also].map((word): [string, readonly Factor[]] => [word, [{ atom, power: 1 }]]),
  ),
  ...SHORTHANDS.flatMap(([words, ...factors]) =>
    words
      .split('|')
      .map((word): [string, readonly Factor[]] => [
        word,
        factors.flatMap(([symbol, power]) => (BY_SYMBOL.has(symbol) ? [{ atom: BY_SYMBOL.get(symbol)!, power }] : [])),
      ]),
  ),
]);
