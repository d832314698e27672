import { describe, expect, it } from 'vitest';
import { computed, type Explained, input } from '../../../language/explain/explain.ts';
import { explainData, explainText, originText, sourceText } from '../../../language/explain/render.ts';
import type { Given } from '../../../language/vocabulary/given.ts';

const given = (value: number, line: number, more: Partial<Given<number>> = {}): Given<number> => ({
  value,
  text: '',
  place: { file: 'job', start: line, end: line },
  origin: { by: 'own line' },
  literal: true,
  ...more,
});
const where = ({ file, start }: { file: string; start: number }): string => `${file}.broom:${start}`;

const rate = input('North.Spray.rate', 'rate', 'r', 'application rate', given(0.35e-3, 14));
const speed = input(
  'North.Spray.speed',
  'speed',
  'v',
  'speed',
  given(7 * 0.44704, 15, {
    unit: 'mph',
    origin: { by: 'argument', parameter: 'speed', place: { file: 'job', start: 3, end: 3 } },
  }),
);
const width = input(
  'Boom.width',
  'width',
  'b',
  'length',
  given(6, 20, { origin: { by: 'default', source: 'common-practice' } }),
);
const flow = computed({
  path: 'North.Spray.flow',
  label: 'flow of the boom',
  symbol: 'Q',
  kind: 'flow',
  formula: 'Q = r · v · b',
  inputs: [rate, speed, width],
  compute: (r, v, b) => r! * v! * b!,
  source: 'sprayer-manual-metric',
});

describe('an explanation as text', () => {
  it('has value, formula, formula with numbers, inputs with place and origin, and the source with its mark', () => {
    expect(explainText(flow, 'metric', { where })).toBe(
      [
        'North.Spray.flow = 394.3 L/min',
        '  flow of the boom',
        '    Q = r · v · b',
        '      = 0.35 L/m² · 11.3 km/h · 6 m',
        '  source: Sprayer manuals, metric flow formula: published, but read second hand (a reprint, a',
        '    mirror or a quotation)',
        '  r: North.Spray.rate = 0.35 L/m²  [job.broom:14]',
        '  v: North.Spray.speed = 11.3 km/h (written 7 mph)  [job.broom:15, argument speed]',
        '  b: Boom.width = 6 m  [job.broom:20, default]',
        '    source: common practice, no source',
      ].join('\n'),
    );
  });

  it('shows numbers in the other system', () => {
    expect(explainText(flow, 'us')).toContain('= 104.2 gal/min');
    expect(explainText(flow, 'us')).toContain('· 7 mph ·');
  });

  it('explains what two inputs share once', () => {
    const twice = computed({
      path: 'North.both',
      label: 'both',
      symbol: 'S',
      kind: 'flow',
      formula: 'S = Q₁ + Q₂',
      inputs: [
        { ...flow, symbol: 'Q₁' },
        { ...flow, symbol: 'Q₂' },
      ],
      compute: (a, b) => a! + b!,
      source: 'definition',
    });
    const text = explainText(twice, 'metric');
    expect(text.match(/Boom\.width/g)).toHaveLength(1);
    expect(text).toContain('Q₂: North.Spray.flow = 394.3 L/min  (see above)');
  });

  it('puts the cells of a row of a table on one line, and names a table seen before', () => {
    const cell = (n: number, what: string, symbol: string, value: number): Explained =>
      input(`Zone.stations.${n}.${what}`, what, symbol, 'length', given(value, 30 + n));
    const rows = [
      cell(1, 'chainage', 's₁', 150),
      cell(1, 'width', 'w₁', 18),
      cell(2, 'chainage', 's₂', 300),
      cell(2, 'width', 'w₂', 22),
    ];
    const of = (path: string, inputs: readonly Explained[]): Explained =>
      computed({
        path,
        label: path,
        symbol: 'A',
        kind: 'area',
        formula: 'A = Σ s · w',
        inputs,
        compute: () => 3000,
        source: 'geometry',
      });
    const text = explainText(of('Two', [of('One', rows), ...rows]), 'metric', { where });
    expect(text).toContain('    Zone.stations.2: s₂ = 300 m, w₂ = 22 m  [job.broom:32]');
    expect(text.split('\n').at(-1)).toBe('  Zone.stations  (see above)');
  });

  it('stays within the columns, save for paths that are longer', () => {
    const long = { ...flow, note: 'a note of many words that has to be broken '.repeat(5).trim() };
    for (const columns of [60, 80, 100]) {
      for (const line of explainText(long, 'metric', { columns }).split('\n'))
        expect(line.length).toBeLessThanOrEqual(columns);
    }
  });

  it('shows what tolerances leave', () => {
    const wide = input('a.speed', 'speed', 'v', 'speed', given(10 / 3.6, 1, { interval: [9 / 3.6, 11 / 3.6] }));
    expect(explainText(wide, 'metric')).toContain('10 km/h (9 km/h to 11 km/h)');
  });

  it('fills nothing in where two inputs share a symbol or the formula is in words', () => {
    const inputs = [rate, { ...speed, symbol: 'r' }];
    const base = {
      path: 'x',
      label: 'x',
      symbol: 'X',
      kind: 'number',
      compute: () => 1,
      source: 'definition',
    } as const;
    expect(explainData(computed({ ...base, formula: 'X = r + r', inputs }), 'metric').filled).toBeUndefined();
    expect(
      explainData(computed({ ...base, formula: 'X = rows of r', inputs: [rate] }), 'metric').filled,
    ).toBeUndefined();
    expect(explainData(computed({ ...base, formula: 'X = max(0, r)', inputs: [rate] }), 'metric').filled).toBe(
      'max(0, 0.35 L/m²)',
    );
  });
});

describe('sources and origins', () => {
  it('carries the mark of the one fact where it differs', () => {
    expect(sourceText({ source: 'faa-12c-friction-levels', mark: 'published, second hand' })).toContain(
      'read second hand',
    );
    expect(sourceText({ source: 'faa-12c-friction-levels' })).toContain('from memory');
    expect(sourceText({ source: 'the author' })).toBe('the author');
  });

  it('names where a value came from', () => {
    expect(originText({ by: 'inherited', from: 'Base' })).toBe('inherited from Base');
    expect(originText({ by: 'parameter default', parameter: 'soak' })).toBe('default of the parameter soak');
    expect(originText({ by: 'own line' })).toBeUndefined();
  });
});
