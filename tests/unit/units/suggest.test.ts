import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  KINDS,
  kindNamed,
  kindOf,
  likelyUnits,
  parseUnit,
  quantityKind,
  suggestUnits,
} from '../../../language/units/index.ts';
import { belongsTo } from '../../../language/units/suggest.ts';

describe('did you mean', () => {
  test.each([
    ['kpa', 'kPa'],
    ['Mpa', 'MPa'],
    ['KM/H', 'km/h'],
    ['metrs', 'm'],
    ['galon', 'gal'],
    ['gallns/acre', 'gal/ac'],
    ['l/M2', 'L/m2'],
    ['minuts', 'min'],
    ['Psi', 'psi'],
    ['degc', '°C'],
    ['fl-oz', 'fl oz'],
    ['gmp', 'gal/min'],
    ['hecatre', 'ha'],
    ['eur', 'EUR'],
  ])('%s: %s', (word, first) => {
    expect(suggestUnits(word)[0]).toBe(first);
  });

  test('nothing where nothing is near', () => {
    expect(suggestUnits('because')).toEqual([]);
    expect(suggestUnits('x'.repeat(100_000))).toEqual([]);
    expect(suggestUnits('')).toEqual([]);
  });

  test('of the kind wanted, and its likely units if no word is near', () => {
    expect(suggestUnits('M', quantityKind('length'))).toEqual(['m']);
    expect(suggestUnits('quux', quantityKind('pressure'))).toEqual(['bar', 'kPa', 'MPa']);
    for (const kind of Object.values(KINDS)) {
      for (const symbol of suggestUnits('lb/fft2', kind)) {
        const unit = parseUnit(symbol);
        expect(unit && belongsTo(unit, kind), `${symbol} as ${kind.name}`).toBe(true);
      }
    }
  });

  test('suggestions are canonical units, whatever the word', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[a-zA-Z]{1,5}[/*·]?[a-zA-Z]{0,4}[23]?$/)), word => {
        for (const symbol of suggestUnits(word)) expect(parseUnit(symbol)?.symbol).toBe(symbol);
      }),
      { numRuns: 300 },
    );
  });
});

describe('kinds', () => {
  test('every likely unit is a canonical unit of its kind', () => {
    for (const kind of Object.values(KINDS)) {
      for (const symbol of [...likelyUnits(kind, 'metric'), ...likelyUnits(kind, 'us')]) {
        const unit = parseUnit(symbol);
        expect(unit?.symbol, `${kind.name}: ${symbol}`).toBe(symbol);
        expect(unit && belongsTo(unit, kind), `${kind.name}: ${symbol}`).toBe(true);
      }
    }
  });

  test('each has units in both systems, all of one dimension and tag, or is a plain number', () => {
    for (const kind of Object.values(KINDS)) {
      if (!kind.metric || !kind.us) {
        expect(kind.dimension.key, kind.name).toBe('');
        continue;
      }
      for (const { unit } of [...kind.shown.metric, ...kind.shown.us]) {
        expect([unit.dimension.key, unit.tag], kind.name).toEqual([kind.dimension.key, kind.tag]);
      }
      const bounds = kind.shown.metric.map(step => step.below);
      expect(bounds, kind.name).toEqual([...bounds].sort((a, b) => a - b));
      expect(bounds.at(-1)).toBe(Number.POSITIVE_INFINITY);
    }
  });

  test('their names are found, others are not', () => {
    expect(kindNamed('application rate')).toBe(KINDS['application rate']);
    expect(kindNamed('toString')).toBeUndefined();
    expect(kindNamed('rate')).toBeUndefined();
    for (const [name, kind] of Object.entries(KINDS)) expect(kind.name).toBe(name);
  });

  test('a dimension with its tag finds the kind it is shown as', () => {
    const kind = (text: string) => {
      const unit = parseUnit(text);
      return unit && kindOf(unit)?.name;
    };
    expect(kind('mm')).toBe('length');
    expect(kind('L/m2')).toBe('application rate');
    expect(kind('°F')).toBe('temperature');
    expect(kind('K')).toBe('temperature difference');
    expect(kind('USD/h')).toBe('money per time');
    expect(kind('%')).toBe('number');
    expect(kind('rev')).toBe('angle');
    expect(kind('m2*m2')).toBeUndefined();
  });
});
