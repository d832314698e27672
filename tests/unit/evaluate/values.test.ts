import { describe, expect, test } from 'vitest';
import type { AnyBlock } from '../../../language/job/job.ts';
import type { Given } from '../../../language/vocabulary/given.ts';
import { codesOf, jobOf } from '../../support/jobs.ts';

/** The value of one property of one block, with the problems of the whole text. */
async function readValue(block: string, path: string): Promise<{ given: Given<unknown> | undefined; codes: string[] }> {
  const job = await jobOf(`broomline 1\n${block}`);
  const [name, key] = path.split('.') as [string, string];
  const found = [...job.byId.values()].find(each => each.name === name) as AnyBlock;
  return { given: (found as unknown as Record<string, Given<unknown> | undefined>)[key], codes: codesOf(job) };
}

const runway = (line: string): string =>
  `runway Main {\n  length: 2450 m\n  width: 45 m\n  pavement: asphalt\n  ${line}\n}`;

describe('numbers with units', () => {
  test.each([
    ['length: 2450 m', 2450],
    ['length: 2.45 km', 2450],
    ['length: 8000 ft', 2438.4],
    ['length: (2000 + 450) * 1 m', 2450],
    ['length: 2000 m + 450 m', 2450],
    ['length: 8000 ft 6 in', 2438.5524],
    ['length: max(1200 m, 2450 m)', 2450],
    ['length: ceil(2449.2 m, 10 m)', 2450],
    ['length: 2 km + 0.45 km', 2450],
  ])('%s', async (line, si) => {
    const { given, codes } = await readValue(
      `runway Main {\n  width: 45 m\n  pavement: asphalt\n  ${line}\n}`,
      'Main.length',
    );
    expect(given?.value).toBeCloseTo(si, 9);
    expect(codes).toEqual([]);
  });

  test.each([
    ['length: 2450', 'unit-missing'],
    ['length: 2450 min', 'wrong-dimension'],
    ['length: 2450 mtr', 'unknown-unit'],
    ['length: "2450 m"', 'wrong-value'],
    ['length: Lenght', 'unknown-name'],
    ['length: 3 m + 2 min', 'wrong-dimension'],
    ['length: 24500 m', 'out-of-range'],
    ['length: 1e999 m', 'wrong-value'],
    ['length: 2450 m / 0', 'wrong-dimension'],
    ['crossfall: 1.5', 'unit-missing'],
    ['pavement: gravel', 'unknown-word'],
    ['lenght: 5 m', 'unknown-property'],
    ['length: 100 m, 200 m', 'wrong-value'],
    ['length: length', 'cyclic-value'],
  ])('%s is refused as %s', async (line, code) => {
    const property = line.split(':')[0]!;
    const others = ['length: 2450 m', 'width: 45 m', 'pavement: asphalt'].filter(
      each => !each.startsWith(`${property}:`),
    );
    const { codes } = await readValue(`runway Main {\n  ${[...others, line].join('\n  ')}\n}`, 'Main.length');
    expect(codes).toContain(code);
    expect(codes.filter(each => each !== code && each !== 'missing-property')).toEqual([]);
  });

  test('frost is a reading, not a negated temperature', async () => {
    const { given, codes } = await readValue('conditions Day { air: -5 °C, humidity: 70 %, wind: 10 km/h }', 'Day.air');
    expect(given?.value).toBeCloseTo(268.15, 9);
    expect(codes).toEqual([]);
  });

  test('a tolerance becomes an interval', async () => {
    const step =
      'method M() {\n  family: chemical and brooms\n  role r { machine: broom }\n  step A { does: agitate, by: r, speed: 10 km/h ± 10 % }\n}';
    const { given, codes } = await readValue(step, 'A.speed');
    expect(codes).toEqual([]);
    expect(given?.interval?.[0]).toBeCloseTo(9 / 3.6, 9);
    expect(given?.interval?.[1]).toBeCloseTo(11 / 3.6, 9);
  });
});

describe('values with a wording of their own', () => {
  test.each([
    ['1 part product to 4 parts water', 0.2],
    ['20 %', 0.2],
    ['1:4', 0.2],
    ['neat', 1],
    ['2 parts product to 3 parts water', 0.4],
  ])('dilution: %s', async (text, share) => {
    const { given, codes } = await readValue(
      `product P { safety-data-sheet: "x", dwell-least: 30 min, dwell-most: 90 min, dilution: ${text} }`,
      'P.dilution',
    );
    expect(codes).toEqual([]);
    expect((given!.value as { share: number }).share).toBeCloseTo(share, 12);
  });

  test.each([
    ['23:00 to 05:00, Mon to Thu', { from: 1380, to: 300, days: [1, 2, 3, 4] }],
    ['00:30 to 13:00, Sat', { from: 30, to: 780, days: [6] }],
    ['22:00 to 06:00, Fri to Mon', { from: 1320, to: 360, days: [1, 5, 6, 7] }],
    ['22:00 to 06:00', { from: 1320, to: 360, days: [1, 2, 3, 4, 5, 6, 7] }],
  ])('hours: %s', async (text, value) => {
    const { given, codes } = await readValue(
      `${runway('')}\nclosure C { on: Main, from: 2031-04-07, hand-back: 45 min, hours: ${text} }`,
      'C.hours',
    );
    expect(codes).toEqual([]);
    expect(given?.value).toEqual(value);
  });

  test.each([
    ['air: 5 to 35 °C', { least: 278.15, most: 308.15 }],
    ['air: >= 5 °C', { least: 278.15 }],
    ['air: at most 95 °F', { most: 308.15 }],
  ])('%s', async (line, value) => {
    const { given, codes } = await readValue(`weather-stop W { ${line} }`, 'W.air');
    expect(codes).toEqual([]);
    for (const [key, si] of Object.entries(value))
      expect((given!.value as Record<string, number>)[key]).toBeCloseTo(si, 9);
    expect(Object.keys(given!.value as object)).toEqual(Object.keys(value));
  });

  test('a position may be south and west', async () => {
    const { given } = await readValue('airport A { location: -33.95 °, 151.18 ° }', 'A.location');
    expect((given!.value as { latitude: number }).latitude).toBeCloseTo(-33.95, 9);
    expect((given!.value as { longitude: number }).longitude).toBeCloseTo(151.18, 9);
  });

  test('a table has units in its heading, and each row its place', async () => {
    const text =
      'deposit D {\n  on: Main from "04"\n  build-up: heavy\n  stations: table chainage ft, left m, right m\n    100 9 9\n    1000 11 10 m\n}';
    const { given, codes } = await readValue(`${runway('end "04"\n  end "22"')}\n${text}`, 'D.stations');
    expect(codes).toEqual([]);
    expect(given?.value).toMatchObject([
      { chainage: 30.48, left: 9, right: 9 },
      { chainage: 304.8, left: 11, right: 10 },
    ]);
  });
});
