/** Quantities that hang on the schedule: worked out by hand from the schedule, and asked for in requirements. */
import { describe, expect, test } from 'vitest';
import { chemicalJob } from '../../../language/checks/example.ts';
import { analyseExample } from '../../checks/support.ts';

const rates = chemicalJob
  .replace('    people:      10', '    people:      10\n    hourly-rate: 40 EUR/h')
  .replace('sweeper Sweeper1 {', 'sweeper Sweeper1 {\n    hourly-rate: 90 EUR/h')
  .concat('\ncost {\n    paid-by: closure\n    closure: 1000 EUR\n}\n');

describe('a job in closures', async () => {
  const { schedule, quantities, review } = await analyseExample(rates);
  const value = (path: string): number => quantities.get(path)!.value;

  test('closures, start and end of the work, recall', () => {
    expect(value('Job.closures')).toBe(schedule.nights.length);
    expect(value('North.start')).toBe(schedule.nights[0]!.from);
    expect(value('North.end')).toBe(schedule.proof!.end);
    expect(value('Job.recall.peak')).toBe(review.recall.peak!.seconds);
    expect(quantities.get('Job.closures')!.note).toBe('2 proved impossible; the end proved earliest');
  });

  test('clear and margin of the fullest closure add up to its hand-back', () => {
    expect(value('Nights.used')).toBe(schedule.nights.length);
    // Six hours less 45 min.
    expect(value('Nights.clear') + value('Nights.margin')).toBe(5.25 * 3600);
    const margins = schedule.nights.map(each => each.handBack - each.clear);
    expect(value('Nights.margin')).toBe(Math.min(...margins));
  });

  test('hours of a machine run from the opening to its last activity, of a crew to the last wash-down', () => {
    const sweeps = schedule.nights.map(night =>
      Math.max(
        ...schedule.activities
          .filter(each => night.activities.includes(each.id) && each.machines.includes('Sweeper1'))
          .map(each => each.end - night.start),
      ),
    );
    expect(value('Sweeper1.hours')).toBe(sweeps.reduce((a, b) => a + b));
    expect(value('Sweeper1.cost')).toBeCloseTo((value('Sweeper1.hours') / 3600) * 90, 6);
    const duty = schedule.nights.map(night =>
      Math.max(
        ...schedule.activities.filter(each => night.activities.includes(each.id)).map(each => each.end - night.start),
      ),
    );
    expect(value('Night.duty')).toBe(duty.reduce((a, b) => a + b));
    expect(value('Night.hours')).toBe(10 * value('Night.duty'));
    expect(value('Job.cost.crew')).toBeCloseTo((value('Night.hours') / 3600) * 40, 6);
    expect(value('Job.cost.plant')).toBeCloseTo(value('Sweeper1.cost'), 6);
    expect(value('Job.cost.closures')).toBe(1000 * schedule.nights.length);
  });

  test('all of them are explained down to the text', () => {
    for (const path of ['Job.closures', 'Nights.margin', 'Night.cost', 'North.end']) {
      const leaves: (string | undefined)[] = [];
      const walk = (each: { inputs: readonly never[]; place?: { file: string } }): void => {
        if (each.inputs.length === 0) leaves.push(each.place?.file);
        each.inputs.forEach(walk);
      };
      walk(quantities.get(path) as never);
      expect(leaves.length, path).toBeGreaterThan(0);
      expect(
        leaves.some(file => file !== undefined),
        path,
      ).toBe(true);
    }
  });
});

test('a requirement may ask for them, and fails with the numbers', async () => {
  const wanted = chemicalJob.concat('\nrequire Spring.closures <= 3 because "three nights are agreed"\n');
  expect((await analyseExample(wanted)).findings).toEqual([]);
  const { findings } = await analyseExample(wanted.replace('<= 3', '<= 2'));
  expect(findings.map(each => each.code)).toEqual(['requirement-fails']);
  expect(findings[0]!.message).toContain('3');
});

test('without a schedule there are none', async () => {
  const { quantities, schedule } = await analyseExample(chemicalJob.replace('bays:       6', 'bays:       1'));
  expect(schedule.state).toBe('impossible');
  expect([...quantities.keys()].filter(path => /closures|recall|hours/.test(path))).toEqual([]);
  expect(quantities.get('North.end')).toBeUndefined();
});
