/** Survey means against brute force, and properties of the rules. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isBelow } from '../../../language/friction/classify.ts';
import { maintenanceFrequency } from '../../../language/friction/frequency.ts';
import { findFrictionLevels } from '../../../language/friction/levels.ts';
import {
  averageOver,
  evaluateFaaSegments,
  evaluateRollingMean,
  evaluateTransportCanada,
  type FrictionReading,
  leastRollingMean,
  meanBetween,
} from '../../../language/friction/survey.ts';

const levels = findFrictionLevels('FAA', 'Skiddometer BV-11', 40 * 0.44704)!;

/** Adjoining readings of 5 to 60 m. */
const profile = fc
  .array(fc.tuple(fc.integer({ min: 5, max: 60 }), fc.double({ min: 0.1, max: 0.9, noNaN: true })), {
    minLength: 1,
    maxLength: 40,
  })
  .map(rows => {
    let from = 100;
    return rows.map(([length, value]): FrictionReading => {
      const reading = { from, to: from + length, value };
      from += length;
      return reading;
    });
  });

const lengthOf = (readings: readonly FrictionReading[]) => readings.at(-1)!.to - readings[0]!.from;

describe('means over lengths', () => {
  it('averages over stretches add up to the mean of the whole', () => {
    fc.assert(
      fc.property(profile, fc.double({ min: 20, max: 400, noNaN: true }), (readings, length) => {
        const stretches = averageOver(readings, length);
        const sum = stretches.reduce((total, { from, to, value }) => total + (to - from) * value, 0);
        const whole = readings.reduce((total, { from, to, value }) => total + (to - from) * value, 0);
        expect(sum).toBeCloseTo(whole, 6);
        expect(stretches.length).toBe(Math.ceil(lengthOf(readings) / length - 1e-9));
      }),
    );
  });
  it('the least rolling mean is the least of a dense search', () => {
    fc.assert(
      fc.property(profile, fc.integer({ min: 20, max: 150 }), (readings, window) => {
        const exact = leastRollingMean(readings, window)!;
        expect(meanBetween(readings, exact.from, exact.to)).toBeCloseTo(exact.least, 9);
        if (exact.short) return;
        let dense = Number.POSITIVE_INFINITY;
        for (let s = readings[0]!.from; s + window <= readings.at(-1)!.to + 1e-9; s += 0.5) {
          dense = Math.min(dense, meanBetween(readings, s, s + window)!);
        }
        // Edges are whole metres, so the dense search meets every breakpoint.
        expect(exact.least).toBeCloseTo(dense, 9);
      }),
      { numRuns: 60 },
    );
  });
  it('the stretches of a rolling mean are those that windows below the level cover', () => {
    fc.assert(
      fc.property(profile, readings => {
        const findings = evaluateRollingMean(readings, levels, 100).filter(
          f => f.rule === 'rolling mean below minimum',
        );
        if (lengthOf(readings) < 100) return;
        for (let s = readings[0]!.from; s + 100 <= readings.at(-1)!.to + 1e-9; s += 1) {
          if (!isBelow(meanBetween(readings, s, s + 100)!, levels.minimum)) continue;
          expect(findings.some(({ from, to }) => from <= s + 1e-6 && to >= s + 100 - 1e-6)).toBe(true);
        }
        for (const { from, to, mean } of findings) {
          expect(isBelow(mean, levels.minimum)).toBe(true);
          expect(to - from).toBeGreaterThanOrEqual(100 - 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });
  it('the least stretch of 100 m or more is the least of all stretches between whole metres', () => {
    fc.assert(
      fc.property(profile, readings => {
        const start = readings[0]!.from;
        const metres = readings.flatMap(({ from, to, value }) => Array<number>(to - from).fill(value));
        const sums = [0];
        for (const value of metres) sums.push(sums.at(-1)! + value);
        if (metres.length < 100) return;
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i < metres.length; i++) {
          for (let j = i + 100; j <= metres.length; j++) least = Math.min(least, (sums[j]! - sums[i]!) / (j - i));
        }
        const found = evaluateTransportCanada(readings).find(({ rule }) => rule === '100 m stretch');
        expect(found !== undefined).toBe(isBelow(least, 0.5));
        if (found) {
          expect(found.mean).toBeCloseTo(least, 9);
          expect(found.from).toBeGreaterThanOrEqual(start - 1e-6);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('the rules', () => {
  it('find nothing where all is at or above maintenance, and something wherever a segment is below it', () => {
    fc.assert(
      fc.property(profile, readings => {
        const segments = averageOver(readings, 152.4);
        const low = segments.filter(({ value }) => isBelow(value, levels.maintenance));
        const findings = evaluateFaaSegments(readings, levels);
        expect(findings.length > 0).toBe(low.length > 0);
        for (const segment of low) {
          expect(findings.some(({ from, to }) => from <= segment.from + 1e-6 && to >= segment.to - 1e-6)).toBe(true);
        }
      }),
    );
  });
  it('more traffic never means a longer interval', () => {
    const days = { weeks: 7, months: 30, years: 365 };
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (a, more) => {
          const length = (landings: number) => {
            const { removal } = maintenanceFrequency({ landingsPerDay: landings })!;
            return removal.count * days[removal.unit];
          };
          expect(length(a + more)).toBeLessThanOrEqual(length(a));
        },
      ),
    );
  });
  it('never throw, whatever the readings', () => {
    const wild = fc.array(fc.record({ from: fc.double(), to: fc.double(), value: fc.double() }), { maxLength: 8 });
    fc.assert(
      fc.property(wild, readings => {
        evaluateFaaSegments(readings, levels, true);
        evaluateRollingMean(readings, levels);
        evaluateTransportCanada(readings);
      }),
    );
  });
});
