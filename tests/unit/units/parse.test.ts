import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { matchUnit, parseUnit, rational, unitStartChars } from '../../../language/units/index.ts';
import { ATOMS, WORDS } from '../../../language/units/table.ts';

/** What the lexer takes for a unit after the number at the start of `text`, blanks skipped. */
function lexed(text: string): string {
  const offset = /^[0-9.]+[ \t]*/.exec(text)?.[0].length ?? 0;
  return text.slice(offset, offset + matchUnit(text, offset));
}

describe('in the lexer, after a number', () => {
  test.each([
    ['11.3 km/h', 'km/h'],
    ['7 mph', 'mph'],
    ['0.35 L/m2', 'L/m2'],
    ['0.35 L/m²', 'L/m²'],
    ['0.35 L/m^2', 'L/m^2'],
    ['0.35L/m2', 'L/m2'],
    ['0.01 gal/ft2', 'gal/ft2'],
    ['8 gal/1000 ft2', 'gal/1000 ft2'],
    ['8 gal/1,000 sq ft', 'gal/1,000 sq ft'],
    ['8 gal/1000ft²', 'gal/1000ft²'],
    ['40 L/100 m2', 'L/100 m2'],
    ['5 %', '%'],
    ['5%', '%'],
    ['1.5 % of', '%'],
    ['20 °C', '°C'],
    ['68 °F', '°F'],
    ['20 degC', 'degC'],
    ['20 deg C', 'deg C'],
    ['5 Δ°C', 'Δ°C'],
    ['30°', '°'],
    ['5 µm', 'µm'],
    ['5 \u03bcm', '\u03bcm'],
    ['2 m^2', 'm^2'],
    ['2 m2', 'm2'],
    ['2 m³', 'm³'],
    ['9.81 m/s2', 'm/s2'],
    ['10 N·m', 'N·m'],
    ['10 N*m', 'N*m'],
    ['10 N⋅m', 'N⋅m'],
    ['0.7 kg/m2/h', 'kg/m2/h'],
    ['200 sq ft', 'sq ft'],
    ['200 sq  ft', 'sq  ft'],
    ['200 sq\u00a0ft', 'sq\u00a0ft'],
    ['3 cu yd', 'cu yd'],
    ['12 fl oz', 'fl oz'],
    ['12 fl oz/1000 ft2', 'fl oz/1000 ft2'],
    ['3 imp gal', 'imp gal'],
    ['3 imp gal/ac', 'imp gal/ac'],
    ['29.92 in Hg', 'in Hg'],
    ['90 kW', 'kW'],
    ['90 metric hp', 'metric hp'],
    ['20 gpm', 'gpm'],
    ['85 EUR/h', 'EUR/h'],
    ['85 €/h', '€/h'],
    ['12 €', '€'],
    ['12 m,', 'm'],
    ['12 m)', 'm'],
    ['12 m}', 'm'],
    ['12 m// a comment', 'm'],
    ['12 m/* a comment */', 'm'],
    ['12 m\n', 'm'],
    ['12 m', 'm'],
    ['35 min }', 'min'],
    ['0.35 L/m2 of mix', 'L/m2'],
    ['5 to 35 °C', ''],
    // A divisor that is no unit is an expression.
    ['0.5 L/width', 'L'],
    ['0.5 L / m2', 'L'],
    ['0.5 L /m2', 'L'],
    ['0.5 L/ m2', 'L'],
    ['10 L/minutely', 'L'],
    ['10 L/m-x', 'L'],
    ['10 L/m_x', 'L'],
    ['10 L/m2x', 'L'],
    ['10 m/h.rate', 'm'],
    ['10 m/min(2 h, 3 h)', 'm'],
    ['10 m*width', 'm'],
    ['5 %*width', '%'],
    ['4 gal/1000', 'gal'],
    ['4 gal/1000 widths', 'gal'],
    ['4 gal/1000 m', 'gal'],
    ['2 m ^ 2', 'm'],
    ['2 m^20', 'm'],
    ['2 m^-1', 'm'],
    ['2 m^2.5', 'm'],
    ['1 m - 2 m', 'm'],
    ['1 m-', 'm'],
    // Words that only begin like a unit, or are none.
    ['3 because', ''],
    ['3 metrex', ''],
    ['3 mix', ''],
    ['3 m-x', ''],
    ['3 m-2', ''],
    ['3 h-2', ''],
    ['3 m_', ''],
    ['3 m5', ''],
    ['3 m23', ''],
    ['3 m²²', ''],
    ['3 mé', ''],
    ['3 min(', ''],
    ['3 L.x', ''],
    ['3 parts', ''],
    ['3 coats', ''],
    ['3 of', ''],
    ['3 to', ''],
    ['3 and', ''],
    ['3 or', ''],
    ['3 until', ''],
    ['3 part product', ''],
    ['3 sq', ''],
    ['3 sq.ft', ''],
    ['3 fl', ''],
    ['3 imp', ''],
    ['3 sq\nft', ''],
    ['3 MPH/', 'MPH'],
    ['3 Mpa', ''],
    ['3 /m', ''],
    ['3 1000 ft2', ''],
    ['3 ', ''],
    ['3', ''],
  ])('%j is %j', (text, expected) => {
    expect(lexed(text)).toBe(expected);
  });

  test('a name after every unit atom undoes the match, with every joint a name can have', () => {
    for (const { symbol } of ATOMS.filter(atom => /^[A-Za-z]+$/.test(atom.symbol))) {
      for (const tail of ['x9_', '_', '9', '-x', '-9', '.x', '(', 'é']) {
        expect(matchUnit(symbol + tail, 0), symbol + tail).toBe(0);
      }
      for (const tail of ['', ' x', ',', ')', ' - 1', '}', '\n', ';', '/x9_', '*x9_', ' (', '.']) {
        expect(matchUnit(symbol + tail, 0), symbol + tail).toBe(symbol.length);
      }
    }
  });

  test('what it matches can be read, and starts with one of the characters hinted', () => {
    const starts = new Set(unitStartChars());
    const pieces = fc.constantFrom(...WORDS.keys(), '/', '*', '·', ' ', '2', '²', '^', '-', '1000 ', '(', 'x', '.');
    fc.assert(
      fc.property(
        fc.array(pieces, { maxLength: 8 }).map(p => p.join('')),
        text => {
          const length = matchUnit(text, 0);
          expect(length).toBeLessThanOrEqual(text.length);
          if (length === 0) return;
          expect(parseUnit(text.slice(0, length)), text.slice(0, length)).toBeDefined();
          expect(starts.has(text.charCodeAt(0))).toBe(true);
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('no digit and no blank starts a unit', () => {
    for (const code of unitStartChars()) expect(String.fromCharCode(code)).not.toMatch(/[\s0-9]/);
  });

  test('hostile text costs nothing', () => {
    for (const text of [
      'm*'.repeat(500_000),
      'm'.repeat(1_000_000),
      'sq '.repeat(300_000),
      `gal/1000${' '.repeat(1e6)}`,
    ]) {
      expect(matchUnit(text, 0)).toBeLessThan(100);
      expect(parseUnit(text)).toBeUndefined();
    }
  });
});

describe('as text', () => {
  test.each([
    ['L/m²', 'L/m2'],
    ['L/m^2', 'L/m2'],
    ['l/m2', 'L/m2'],
    ['litres/sq m', 'L/m2'],
    ['sq ft', 'ft2'],
    ['sqft', 'ft2'],
    ['cu yd', 'yd3'],
    ['degC', '°C'],
    ['degF', '°F'],
    ['deg C', '°C'],
    ['℃', '°C'],
    ['kph', 'km/h'],
    ['km/hr', 'km/h'],
    ['mi/h', 'mph'],
    ['gpm', 'gal/min'],
    ['gal/1,000 sq ft', 'gal/1000 ft2'],
    ['floz', 'fl oz'],
    ['imp gal', 'impgal'],
    ['UK gallons', 'impgal'],
    ['hrs', 'h'],
    ['sec', 's'],
    ['lbf/in2', 'psi'],
    ['N/m2', 'Pa'],
    ['revs/min', 'rpm'],
    ['kW·h', 'kWh'],
    ['€/h', 'EUR/h'],
    ['$', 'USD'],
    ['PS', 'metric hp'],
    ['tons', 'ton'],
    ['tonnes', 't'],
    ['m·m', 'm2'],
    ['m*m*m', 'm3'],
    ['m2*m2', 'm2*m2'],
    ['m/s*kg', 'm*kg/s'],
    ['survey acres', 'acUS'],
    ['  m  ', 'm'],
    ['percent', '%'],
  ])('%j is %j', (text, symbol) => {
    expect(parseUnit(text)?.symbol).toBe(symbol);
  });

  test.each([
    '',
    ' ',
    'x',
    'm3m',
    'm /s',
    'L//m2',
    '/m2',
    'm2/',
    '1000 ft2',
    'm4',
    'km-h',
    'kg m',
    '5 m',
    'Mpa',
    'psig',
    '%2',
    '°C2',
  ])('is none: %j', text => {
    expect(parseUnit(text)).toBeUndefined();
  });

  test('every canonical symbol reads as itself, and no spelling means two things', () => {
    for (const [word, factors] of WORDS) {
      const unit = parseUnit(word);
      if (/^\d/.test(word)) continue; // `1000 ft2` stands after a `/` only
      expect(unit, word).toBeDefined();
      expect(parseUnit(unit?.symbol ?? '')?.symbol, word).toBe(unit?.symbol);
      if (factors.length === 1) expect(unit?.parts, word).toHaveLength(1);
    }
    const spellings = ATOMS.flatMap(atom => [atom.symbol, ...atom.also]);
    expect(new Set(spellings).size).toBe(spellings.length);
  });

  test('symbol, shown form and factor of any compound survive reading it again', () => {
    const word = fc.constantFrom(...[...WORDS.keys()].filter(w => !/^\d/.test(w)));
    const compound = fc
      .tuple(word, fc.array(fc.tuple(fc.constantFrom('/', '*', '·'), word), { maxLength: 3 }))
      .map(([first, rest]) => first + rest.map(([sign, w]) => sign + w).join(''));
    fc.assert(
      fc.property(compound, text => {
        const unit = parseUnit(text);
        if (!unit) return;
        const again = parseUnit(unit.symbol);
        expect(again, unit.symbol).toEqual(unit);
      }),
      { numRuns: 3000 },
    );
  });

  test('tags: readings and differences of temperature, rates and lengths', () => {
    const tag = (text: string) => parseUnit(text)?.tag;
    expect(['°C', '°F'].map(tag)).toEqual(['temperature', 'temperature']);
    expect(['K', 'Δ°C', 'Δ°F'].map(tag)).toEqual(['difference', 'difference', 'difference']);
    expect(['L/m2', 'gal/ft2', 'gal/1000 ft2', 'gal/ac', 'm3/ha', 'fl oz/yd2', 'ft3/ac'].map(tag)).toEqual(
      Array(7).fill('rate'),
    );
    expect(['mm', 'in', 'mil', 'm', 'NM'].map(tag)).toEqual(Array(5).fill('length'));
    expect(['m2/m', 'km/h', 'kg/m2', 'm2', 'W/°C', '%'].map(tag)).toEqual(Array(6).fill('none'));
  });

  test('a scale in a compound counts differences', () => {
    expect(parseUnit('W/°F')?.offset).toBeUndefined();
    expect(parseUnit('W/°F')?.factor).toEqual(rational.rational(9, 5));
    expect(parseUnit('°F')?.offset).toEqual(rational.rational(45967, 180));
  });

  test('systems', () => {
    const system = (text: string) => parseUnit(text)?.system;
    expect(['L/m2', 'km/h', 'ha/h', 'bar'].map(system)).toEqual(Array(4).fill('metric'));
    expect(['gal/ft2', 'mph', 'ac/h', 'psi', '°F'].map(system)).toEqual(Array(5).fill('us'));
    expect(['impgal', 'impgal/ac', 'impgal/min'].map(system)).toEqual(Array(3).fill('imperial'));
    expect(['%', 'min', '°', 'rpm', 'EUR/h', 'kt', 'gal/m2'].map(system)).toEqual(Array(7).fill('both'));
  });

  test('only the radian is not exact', () => {
    expect(ATOMS.filter(atom => !atom.exact).map(atom => atom.symbol)).toEqual(['rad']);
    expect(parseUnit('rad/s')?.exact).toBe(false);
    expect(rational.toNumber(parseUnit('rad')?.factor ?? rational.ZERO)).toBe(1 / (2 * Math.PI));
  });
});
