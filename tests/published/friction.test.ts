/** Friction: levels by device, rules over lengths, frequency, growth; worked examples 7.1 to 7.4. */
import { describe, expect, it, test } from 'vitest';
import { classify, grade } from '../../language/friction/classify.ts';
import { frequencyTable, intervalText, maintenanceFrequency, nextDue } from '../../language/friction/frequency.ts';
import { frictionAfter, frictionPerLanding, landingsUntil, rubberPerLanding } from '../../language/friction/growth.ts';
import { findFrictionLevels, frictionLevels } from '../../language/friction/levels.ts';
import { rubberClass } from '../../language/friction/rubber-classes.ts';
import {
  compareSurveys,
  evaluateFaaSegments,
  evaluateRollingMean,
  evaluateSurvey,
  evaluateTransportCanada,
  type FrictionReading,
  leastRollingMean,
} from '../../language/friction/survey.ts';
import { citation } from '../../language/sources/sources.ts';
import { expectDigits, foot, kmh, mph, title } from './customary.ts';

/** Readings of equal length from chainage 0. */
function run(length: number, ...values: number[]): FrictionReading[] {
  return values.map((value, i) => ({ from: i * length, to: (i + 1) * length, value }));
}

const feet500 = 500 * foot;
const bv11 = findFrictionLevels('FAA', 'Skiddometer BV-11', 40 * mph)!;

describe('levels', () => {
  test.each(frictionLevels.map(row => [`${row.basis} ${row.device} ${row.printedSpeed}`, row] as const))(
    '%s: minimum < maintenance < design, and the mark is told',
    (_, row) => {
      expect(row.minimum).toBeLessThan(row.maintenance);
      expect(row.maintenance).toBeLessThan(row.design);
      if (row.mark === 'from memory') expect(citation(row)).toContain('from memory');
      else expect(citation(row)).toContain('second hand');
    },
  );
  it('each level at the higher speed is below that at the lower one (derived: true of every published row)', () => {
    for (const slow of frictionLevels.filter(row => /^(40|65)/.test(row.printedSpeed) && row.basis !== 'CAP 683')) {
      const fast = findFrictionLevels(slow.basis, slow.device, slow.basis === 'FAA' ? 60 * mph : 95 * kmh)!;
      expect(fast.minimum).toBeLessThan(slow.minimum);
      expect(fast.maintenance).toBeLessThan(slow.maintenance);
      expect(fast.design).toBeLessThan(slow.design);
    }
  });

  const secondHand: readonly (readonly [string, 'FAA' | 'ICAO', number, number, number, number])[] = [
    ['FAA 40 mph', 'FAA', 40 * mph, 0.5, 0.6, 0.82],
    ['FAA 60 mph', 'FAA', 60 * mph, 0.34, 0.47, 0.74],
    ['ICAO 65 km/h', 'ICAO', 65 * kmh, 0.5, 0.6, 0.82],
    ['ICAO 95 km/h', 'ICAO', 95 * kmh, 0.34, 0.47, 0.74],
  ];
  test.each(secondHand)(
    `${title({ id: '1.1', source: 'faa-12c-friction-levels', mark: 'published, second hand', what: 'Skiddometer' })} %s`,
    (_, basis, speed, minimum, maintenance, design) => {
      const row = findFrictionLevels(basis, 'Skiddometer BV-11', speed);
      expect(row).toMatchObject({ minimum, maintenance, design, mark: 'published, second hand' });
    },
  );

  const remembered: readonly (readonly [Parameters<typeof classify>[1], number, number, number])[] = [
    ['Mu Meter', 0.42, 0.52, 0.72],
    ['GripTester', 0.43, 0.53, 0.74],
    ['Tatra', 0.48, 0.57, 0.76],
    ['RUNAR', 0.45, 0.52, 0.69],
  ];
  test.each(remembered)(
    `${title({ id: '1.1', source: 'faa-12c-friction-levels', what: '40 mph' })} %s`,
    (device, minimum, maintenance, design) => {
      const row = findFrictionLevels('FAA', device, 40 * mph);
      expect(row).toMatchObject({ minimum, maintenance, design, mark: 'from memory' });
    },
  );
  it('from memory: the design level of the Runway Friction Tester at the higher speed differs, and says so', () => {
    const faa = findFrictionLevels('FAA', 'Runway Friction Tester', 60 * mph)!;
    const icao = findFrictionLevels('ICAO', 'Runway Friction Tester', 95 * kmh)!;
    expect([faa.design, icao.design]).toEqual([0.72, 0.74]);
    expect(faa.note).toContain('disagree');
    expect(icao.note).toContain('disagree');
  });
  it(title({ id: '2.2', source: 'caa-cap-683', what: 'levels and water depths' }), () => {
    expect(findFrictionLevels('CAP 683', 'GripTester', 65 * kmh)).toMatchObject({
      design: 0.8,
      maintenance: 0.63,
      minimum: 0.55,
      waterDepth: 0.25e-3,
      mark: 'from memory',
    });
  });
  it(title({ id: '2.1', source: 'icao-annex-14-friction', what: 'no row is lent to another device or speed' }), () => {
    expect(findFrictionLevels('FAA', 'Skiddometer BV-11', 65 * kmh)).toBe(bv11);
    expect(findFrictionLevels('FAA', 'Skiddometer BV-11', 50 * mph)).toBeUndefined();
    expect(classify('CAP 683', 'Skiddometer BV-11', 65 * kmh, 0.9)).toBeUndefined();
    expect(classify('FAA', 'Skiddometer BV-11', 40 * mph, Number.NaN)).toBeUndefined();
  });
  it(
    title({
      id: '2.1',
      source: 'icao-annex-14-friction',
      what: 'values are absolute: equal passes, a hair below does not',
    }),
    () => {
      expect(grade(bv11, 0.5)).toBe('below maintenance');
      expect(grade(bv11, 0.4999)).toBe('below minimum');
      expect(grade(bv11, 0.6)).toBe('at or above maintenance');
      expect(grade(bv11, 0.82)).toBe('at or above design');
    },
  );
  it('the bands of winter braking action are no part of it: 0.40 is not good', () => {
    expect(classify('FAA', 'Skiddometer BV-11', 40 * mph, 0.4)?.grade).toBe('below minimum');
    expect(classify('ICAO', 'Surface Friction Tester', 65 * kmh, 0.4)?.grade).toBe('below minimum');
  });
  it(title({ id: '7.4', source: 'faa-tc-tn12-7', what: 'grooved runs 0.72 dry and 0.70 in light rain' }), () => {
    for (const value of [0.72, 0.7]) {
      const judged = classify('FAA', 'Runway Friction Tester', 40 * mph, value);
      expect(judged?.grade).toBe('at or above maintenance');
      expect(judged?.levels.mark).toBe('from memory');
    }
  });
});

describe('FAA segments of 500 ft', () => {
  const rules = (...values: number[]) =>
    evaluateFaaSegments(run(feet500, ...values), bv11).map(({ rule, from, to }) => {
      return `${Math.round(from / feet500)}-${Math.round(to / feet500) - 1} ${rule}`;
    });

  it(title({ id: '7.1', source: 'faa-12c-survey-rules', mark: 'derived', what: 'a survey of 17 segments' }), () => {
    const survey = [
      0.71, 0.66, 0.52, 0.48, 0.51, 0.63, 0.72, 0.75, 0.76, 0.77, 0.74, 0.7, 0.66, 0.58, 0.59, 0.64, 0.68,
    ];
    expect(rules(...survey)).toEqual([
      '2-4 below maintenance, 1,000 ft or more',
      '3-3 below minimum, 500 ft',
      '13-14 below maintenance, 1,000 ft or more',
    ]);
    const findings = evaluateFaaSegments(run(feet500, ...survey), bv11);
    expect(findings.map(({ action }) => action)).toEqual([
      'corrective action',
      'immediate corrective action',
      'corrective action',
    ]);
    expectDigits(findings[0]!.mean, 0.503);
  });
  it(title({ id: '7.1', source: 'faa-12c-survey-rules', what: 'a lone dip of 500 ft is monitored' }), () => {
    expect(rules(0.7, 0.58, 0.71)).toEqual(['1-1 below maintenance, short']);
  });
  it(title({ id: '7.1', source: 'faa-12c-survey-rules', mark: 'derived', what: 'equal to the level passes' }), () => {
    expect(rules(0.6, 0.6)).toEqual([]);
  });
  it(
    title({ id: '7.1', source: 'tool-policy', what: 'below minimum between sound neighbours goes to an engineer' }),
    () => {
      expect(rules(0.7, 0.48, 0.71)).toEqual(['1-1 below minimum, neighbours sound']);
      expect(rules(0.48)).toEqual(['0-0 below minimum, neighbours sound']);
    },
  );
  it('the end of a survey has one neighbour, which decides (tool policy)', () => {
    expect(rules(0.45, 0.55, 0.7)).toContain('0-0 below minimum, 500 ft');
  });
  it(
    title({ id: 'RM4', source: 'faa-12c-survey-rules', what: 'a new grooved surface reaches the design level' }),
    () => {
      const findings = evaluateFaaSegments(run(feet500, 0.82, 0.81, 0.83), bv11, true);
      expect(findings).toMatchObject([{ rule: 'new surface below design', action: 'reject surface', from: feet500 }]);
    },
  );
  it('readings of 10 m are averaged over 500 ft first', () => {
    const bins = run(10, ...Array.from({ length: 61 }, (_, i) => (i < 16 ? 0.5 : 0.7)));
    // The second segment begins in the low bins: 7.6 m of 0.5, the rest of 0.7.
    const [first, second] = evaluateFaaSegments(bins, { ...bv11, maintenance: 0.695 });
    expect(first?.mean).toBeCloseTo((feet500 * 0.5 + 7.6 * 0.5 + (feet500 - 7.6) * 0.7) / (2 * feet500), 9);
    expect(second).toBeUndefined();
  });
});

describe('rolling mean of 100 m', () => {
  const grip = findFrictionLevels('CAP 683', 'GripTester', 65 * kmh)!;
  const profile = (low: number) => run(10, ...Array(11).fill(0.6), ...Array(low).fill(0.5), ...Array(11).fill(0.6));

  it(title({ id: '7.2', source: 'caa-cap-683', what: 'ten bins of 0.50 among 0.60' }), () => {
    const least = leastRollingMean(profile(10), 100);
    expect(least?.least).toBeCloseTo(0.5, 12);
    expect(least?.from).toBeCloseTo(110, 9);
    const findings = evaluateRollingMean(profile(10), grip);
    expect(findings[0]).toMatchObject({ rule: 'rolling mean below minimum', action: 'immediate corrective action' });
    // Below 0.55 for windows that hold more than half low bins: from 60 m to 260 m.
    expect(findings[0]!.from).toBeCloseTo(60, 6);
    expect(findings[0]!.to).toBeCloseTo(260, 6);
  });
  it(
    title({ id: '7.2', source: 'caa-cap-683', what: 'five low bins of ten are exactly 0.55, which is not below' }),
    () => {
      expect(evaluateRollingMean(profile(5), grip).filter(f => f.rule === 'rolling mean below minimum')).toEqual([]);
      expect(evaluateRollingMean(profile(6), grip)[0]?.rule).toBe('rolling mean below minimum');
    },
  );
  it('a run shorter than the window is judged by its mean', () => {
    expect(leastRollingMean(run(10, 0.5, 0.6), 100)).toMatchObject({ short: true });
    expect(leastRollingMean(run(10, 0.5, 0.6), 100)?.least).toBeCloseTo(0.55, 12);
  });
});

describe('Transport Canada', () => {
  it(title({ id: '9.4.2.4', source: 'tc-tp-312-friction', what: 'average below 0.50, or 100 m below 0.30' }), () => {
    const act = (...values: number[]) =>
      evaluateTransportCanada(run(50, ...values))
        .filter(({ mark }) => mark === 'published')
        .map(({ rule }) => rule);
    expect(act(0.5, 0.5, 0.5)).toEqual([]);
    expect(act(0.49, 0.49, 0.5)).toEqual(['runway average']);
    expect(act(0.9, 0.29, 0.29, 0.9, 0.9)).toEqual(['100 m stretch']);
    expect(act(0.9, 0.3, 0.3, 0.9, 0.9)).toEqual([]);
    // Fifty metres is too short to count; 150 m with two lows is a stretch that no 100 m window shows.
    expect(act(0.9, 0.1, 0.9, 0.9)).toEqual([]);
    expect(act(0.9, 0.24, 0.39, 0.24, 0.9, 0.9)).toEqual(['100 m stretch']);
  });
  it(title({ id: '2.4', source: 'tc-friction-programme', what: 'programme maintenance' }), () => {
    expect(evaluateTransportCanada(run(50, 0.55, 0.55, 0.55))).toMatchObject([
      { rule: 'runway average', action: 'programme maintenance', mark: 'from memory' },
    ]);
  });
});

describe('one entry point', () => {
  it('judges by the rules of the basis', () => {
    const readings = run(100, 0.45, 0.45, 0.45, 0.45);
    const rule = (basis: Parameters<typeof evaluateSurvey>[1]) => {
      const result = evaluateSurvey(readings, basis, 'GripTester', 65 * kmh);
      return 'findings' in result ? result.findings[0]?.rule : result.problem;
    };
    expect(rule('FAA')).toBe('below maintenance, 1,000 ft or more');
    expect(rule('ICAO')).toBe('rolling mean below maintenance');
    expect(rule('CAP 683')).toBe('rolling mean below minimum');
    expect(rule('TP 312')).toBe('runway average');
  });
  it('says when there is no published level, or nothing to judge', () => {
    expect(evaluateSurvey(run(100, 0.9), 'CAP 683', 'Tatra', 65 * kmh)).toEqual({ problem: 'no published level' });
    expect(evaluateSurvey([], 'FAA', 'Tatra', 40 * mph)).toEqual({ problem: 'no readings' });
  });
  it('compares before with after', () => {
    const changes = compareSurveys(run(50, 0.45, 0.47, 0.7, 0.7), run(50, 0.65, 0.67, 0.71, 0.71), 100, bv11);
    expect(changes).toHaveLength(2);
    expect(changes[0]).toMatchObject({ gradeBefore: 'below minimum', gradeAfter: 'at or above maintenance' });
    expect(changes[0]!.change).toBeCloseTo(0.2, 12);
  });
});

describe('how often', () => {
  const rows: readonly (readonly [number, number, string, string])[] = [
    [10, 300, '1 year', '2 years'],
    [20, 600, '6 months', '1 year'],
    [80, 1_500, '3 months', '6 months'],
    [100, 3_000, '1 month', '4 months'],
    [150, 3_969, '1 month', '4 months'],
    [151, 3_970, '2 weeks', '3 months'],
    [210, 5_535, '2 weeks', '3 months'],
    [211, 5_536, '1 week', '2 months'],
  ];
  test.each(rows)(
    `${title({ id: '7.3', source: 'faa-12c-frequency', what: 'landings a day' })} %d (or %d million kg): %s, %s`,
    (landingsPerDay, million, survey, removal) => {
      for (const traffic of [{ landingsPerDay }, { annualMass: million * 1e6 }]) {
        const frequency = maintenanceFrequency(traffic)!;
        expect(intervalText(frequency.survey)).toBe(survey);
        expect(intervalText(frequency.removal)).toBe(removal);
        expect(frequency.mark).toBe('published, second hand');
      }
    },
  );
  it(title({ id: '7.3', source: 'faa-12c-frequency', what: 'the higher of landings and mass governs' }), () => {
    const frequency = maintenanceFrequency({ landingsPerDay: 80, annualMass: 2_500e6 })!;
    expect(frequencyTable[frequency.row]?.landings).toBe('91 to 150');
    expect(frequency.governs).toBe('mass');
    expect(maintenanceFrequency({ landingsPerDay: 80, annualMass: 2_404e6 })?.governs).toBe('both');
  });
  it(
    title({ id: '1.2', source: 'faa-12c-frequency', what: '15 landings are in no printed band, and it says so' }),
    () => {
      const frequency = maintenanceFrequency({ landingsPerDay: 15 })!;
      expect(frequency.row).toBe(0);
      expect(frequency.notes.join()).toContain('unassigned');
      expect(maintenanceFrequency({ landingsPerDay: 15.5 })).toMatchObject({ row: 1 });
      expect(maintenanceFrequency({ landingsPerDay: 15.5 })?.notes.join()).toContain('between');
      expect(maintenanceFrequency({ landingsPerDay: 16 })?.notes).toEqual([]);
    },
  );
  it(title({ id: '1.2', source: 'faa-12c-wide-body', what: 'a fifth of wide-bodies is one row up' }), () => {
    const frequency = maintenanceFrequency({ landingsPerDay: 80, wideBodyShare: 0.2 })!;
    expect(frequency).toMatchObject({ row: 3, mark: 'from memory' });
    expect(maintenanceFrequency({ landingsPerDay: 400, wideBodyShare: 0.5 })).toMatchObject({ row: 5 });
  });
  it(
    title({
      id: '1.2',
      source: 'faa-12c-frequency',
      mark: 'derived',
      what: 'mass a landing implied by the two columns',
    }),
    () => {
      const [lightest] = frequencyTable;
      const heaviest = frequencyTable.at(-2);
      expectDigits(lightest!.massUpTo / (lightest!.landingsUpTo * 365), 81644);
      expectDigits(heaviest!.massUpTo / (heaviest!.landingsUpTo * 365), 72211);
      expect(maintenanceFrequency({})).toBeUndefined();
      expect(maintenanceFrequency({ landingsPerDay: Number.NaN })).toBeUndefined();
    },
  );
  it('knows the next date', () => {
    expect(nextDue('2031-01-31', { count: 1, unit: 'months' })).toBe('2031-02-28');
    expect(nextDue('2031-04-07', { count: 2, unit: 'weeks' })).toBe('2031-04-21');
    expect(nextDue('not a date', { count: 1, unit: 'weeks' })).toBeUndefined();
  });
});

describe('growth of rubber', () => {
  const study = { device: 'Surface Friction Tester', pavement: 'concrete', grooved: false } as const;

  it(title({ id: '5.1', source: 'trr-2068', what: '0.05 um a landing, 0.05 down for 0.1 mm' }), () => {
    expectDigits(frictionPerLanding * 1000, 0.025);
    const forecast = frictionAfter(0.7, 2_000, study);
    expect(forecast.friction).toBeCloseTo(0.65, 12);
    expect(forecast.rubber).toBeCloseTo(0.1e-3, 12);
    expect(forecast).toMatchObject({ basis: 'published', source: 'trr-2068' });
    expect(rubberPerLanding * 14_400).toBeCloseTo(0.72e-3, 12);
  });
  it(title({ id: '5.1', source: 'trr-2068', mark: 'derived', what: 'landings from level to level' }), () => {
    expect(landingsUntil(0.6, 0.5, study)).toMatchObject({ basis: 'published' });
    expect(landingsUntil(0.6, 0.5, study).landings).toBeCloseTo(4_000, 6);
    expect(landingsUntil(0.82, 0.6, study).landings).toBeCloseTo(8_800, 6);
    expectDigits(landingsUntil(0.6, 0.5, study).landings / 90, 44);
  });
  it('has no published basis outside the study', () => {
    expect(landingsUntil(0.82, 0.6, study).basis).toBe('no published basis');
    expect(frictionAfter(0.7, 6_001, study).basis).toBe('no published basis');
    expect(frictionAfter(0.7, 100, { ...study, pavement: 'asphalt' }).basis).toBe('no published basis');
    expect(frictionAfter(0.7, 100, { ...study, grooved: true }).basis).toBe('no published basis');
    expect(frictionAfter(0.7, 100, { ...study, device: 'GripTester' })).toMatchObject({
      basis: 'no published basis',
      mark: 'common practice, no source',
    });
    expect(frictionAfter(0.7, 1e6, study).friction).toBe(0.1);
  });
  it(
    title({
      id: '5.1',
      source: 'trr-2068',
      mark: 'derived',
      what: 'new to minimum, days against FAA removal intervals',
    }),
    () => {
      const landings = landingsUntil(0.82, 0.5, study).landings;
      expect(landings).toBeCloseTo(12_800, 6);
      const removal: readonly (readonly [number, number])[] = [
        [15, 730],
        [30, 365],
        [90, 180],
        [150, 120],
        [210, 90],
      ];
      // Same order only, within about 1.5 times: that is all the support the coefficient has.
      for (const [perDay, days] of removal) {
        const ratio = landings / perDay / days;
        expect(ratio).toBeGreaterThan(1 / 1.55);
        expect(ratio).toBeLessThan(1.55);
      }
    },
  );
});

describe('visual classes, from memory', () => {
  it.each([
    [0, 'very light'],
    [0.2, 'light'],
    [0.5, 'medium'],
    [0.8, 'medium to dense'],
    [1, 'very dense'],
  ])('%d covered is %s', (share, name) => expect(rubberClass(share)?.name).toBe(name));
  it('know nothing outside 0 to 1', () => {
    expect(rubberClass(1.2)).toBeUndefined();
    expect(rubberClass(Number.NaN)).toBeUndefined();
  });
});
