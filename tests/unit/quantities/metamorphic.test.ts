/**
 * The same job said otherwise gives the same quantities to 1e-9: in the other unit system, with the runway's ends swapped
 * and left and right mirrored, with a deposit split in two, with blocks renamed, with blocks in another order.
 */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Explained } from '../../../language/explain/explain.ts';
import { inOtherUnits } from '../../support/otherUnits.ts';
import { readJob } from './fromText.ts';

type Values = ReadonlyMap<string, Explained>;

/** Same paths, same values; `rename` says what a path of the first is called in the second. */
function expectSame(first: Values, second: Values, rename = (path: string): string => path): void {
  expect([...second.keys()].toSorted()).toEqual([...first.keys()].map(rename).toSorted());
  for (const [path, { value, interval }] of first) {
    const other = second.get(rename(path))!;
    near(other.value, value, path);
    interval?.forEach((end, i) => {
      near(other.interval?.[i] ?? Number.NaN, end, path);
    });
  }
}

function near(value: number, expected: number, path: string): void {
  const off = Math.abs(value - expected) / Math.max(1e-12, Math.abs(expected));
  // Written so that NaN fails too.
  if (!(off <= 1e-9) && value !== expected) expect.fail(`${path}: ${value} instead of ${expected}`);
}

// A job with random numbers

interface Ground {
  readonly stations: readonly (readonly [s: number, left: number, right: number])[];
  readonly buildUp: string;
}

interface Draft {
  readonly length: number;
  readonly order: string;
  readonly displaced: readonly [number, number];
  readonly deposits: Readonly<Record<string, Ground>>;
  readonly exclusion: readonly [from: number, to: number, left: number, right: number];
  readonly cut: readonly [from: number, to: number] | undefined;
  readonly rate: number;
  readonly speed: number;
  /** The end that everything counts from. */
  readonly end: '04' | '22';
}

const draft: fc.Arbitrary<Draft> = fc
  .record({
    displaced: fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 })),
    steps: fc.array(
      fc.tuple(fc.integer({ min: 20, max: 300 }), fc.integer({ min: 2, max: 15 }), fc.integer({ min: 2, max: 15 })),
      {
        minLength: 3,
        maxLength: 5,
      },
    ),
    second: fc.tuple(
      fc.integer({ min: 100, max: 900 }),
      fc.integer({ min: 50, max: 400 }),
      fc.integer({ min: -3, max: 12 }),
      fc.integer({ min: 4, max: 12 }),
    ),
    hole: fc.tuple(fc.integer({ min: 100, max: 700 }), fc.integer({ min: 1, max: 60 })),
    cut: fc.option(fc.tuple(fc.integer({ min: 130, max: 250 }), fc.integer({ min: 500, max: 1000 })), {
      nil: undefined,
    }),
    rate: fc.integer({ min: 10, max: 90 }),
    speed: fc.integer({ min: 30, max: 120 }),
    heavy: fc.boolean(),
  })
  .map(({ displaced, steps, second, hole, cut, rate, speed, heavy }) => {
    let s = 120;
    const stations = steps.map(([step, left, right]) => {
      s += step;
      return [s, left, right] as const;
    });
    const [from, length, left, right] = second;
    return {
      length: 2600,
      order: 'away from threshold',
      displaced,
      deposits: {
        Near: { stations, buildUp: heavy ? 'heavy' : 'medium' },
        Far: {
          stations: [
            [from, left, right],
            [from + length, left, right],
          ],
          buildUp: 'medium',
        },
      },
      exclusion: [hole[0], hole[0] + hole[1], -2, 3],
      cut,
      rate: rate / 100,
      speed: speed / 10,
      end: '04',
    };
  });

function blocksOf({ length, order, displaced, deposits, exclusion, cut, rate, speed, end }: Draft): readonly string[] {
  const [from, to, left, right] = exclusion;
  return [
    'job Tern {\n  title: "t"\n  currency: EUR\n  contingency: 5 %\n  units: metric\n}',
    `runway Main {
  length: ${length} m
  width: 60 m
  pavement: grooved asphalt
  texture: 0.9 mm
  end "04" { displaced: ${displaced[0]} m }
  end "22" { displaced: ${displaced[1]} m }
}`,
    ...Object.entries(deposits).map(
      ([name, { stations, buildUp }]) => `deposit ${name} {
  on: Main from "${end}"
  stations: table chainage m, left m, right m
${stations.map(row => `    ${row.join('  ')}`).join('\n')}
  build-up: ${buildUp}
  thickness: 0.3 mm
}`,
    ),
    `exclusion Lights {
  on: Main from "${end}"
  what: lights
  treatment: avoid
  stations: table from m, to m, left m, right m
    ${from}  ${to}  ${left}  ${right}
  deducted: yes
}`,
    'product Alkaline {\n  safety-data-sheet: "s"\n  dilution: 1 part product to 4 parts water\n  dwell-least: 30 min\n  dwell-most: 120 min\n  density: 1050 kg/m3\n  price: 3 EUR/L\n}',
    `sprayer Sprayer1 {
  width: 8 m
  tank: 4000 L
  nozzles: 16
  spacing: 0.5 m
  nozzle-points: table pressure bar, flow L/min
    1.5  11.6
    3    16.5
    6    23.4
}`,
    'broom Broom1 {\n  width: 2.4 m\n  angle: 30 °\n  bristles: polypropylene\n  diameter: 0.9 m\n  rotation: 300 rpm\n  pattern: 75 mm\n}',
    'water-truck Tanker1 {\n  width: 4 m\n  tank: 12000 L\n}',
    `method Soaking {
  family: chemical and brooms
  degree: 85 %
  step PreWet { does: pre-wet, by: Tanker1, speed: 8 km/h, rate: 0.3 L/m2 of water }
  step Spray {
    does: apply
    by: Sprayer1
    speed: ${speed} km/h ± 10 %
    rate: ${rate} L/m2 of mix
    pass-rate: 0.31 L/m2
    overlap: 0.2 m
  }
  step Soak { does: soak, at-least: 35 min }
  step KeepWet { does: keep-wet, by: Tanker1, speed: 12 km/h, rate: 0.2 L/m2 of water, every: 10 min }
  step Scrub { does: agitate, by: Broom1, speed: 8 km/h, cycles: 2 }
  step Rinse { does: rinse, by: Tanker1, with: Broom1, speed: 6 km/h, rate: 3 L/m2 of water }
  build-up heavy {
    rate: 0.55 L/m2 of mix
    cycles: 3
  }
}`.replaceAll(/\{ (does.*) \}/g, (_, inside: string) => `{\n    ${inside.replaceAll(', ', '\n    ')}\n  }`),
    `work North {
  removes: ${Object.keys(deposits).join(', ')}
  method: Soaking
  product: Alkaline
  order: ${order}
${cut ? `  from: ${cut[0]} m\n  to: ${cut[1]} m\n` : ''}}`,
    'conditions {\n  air: 28 °C\n  surface: 34 °C\n  humidity: 45 %\n  wind: 14 km/h\n}',
    'cost {\n  paid-by: area\n  rate: 2 EUR/m2\n  water: 3 EUR/m3\n  disposal: 40 EUR/m3\n}',
  ];
}

const textOf = (blocks: readonly string[]): string => `broomline 1\n\n${blocks.join('\n\n')}\n`;
const read = async (text: string): Promise<Values> => (await readJob(text)).quantities;

/** The same ground seen from the other end: s' = L − s between the landing thresholds, left and right changed over. */
function swapped(of: Draft): Draft {
  const apart = of.length - of.displaced[0] - of.displaced[1];
  const turn = (s: number): number => apart - s;
  const [from, to, left, right] = of.exclusion;
  return {
    ...of,
    end: '22',
    order: 'towards threshold',
    deposits: Object.fromEntries(
      Object.entries(of.deposits).map(([name, { stations, buildUp }]) => [
        name,
        { buildUp, stations: stations.map(([s, l, r]) => [turn(s), r, l] as const).toReversed() },
      ]),
    ),
    exclusion: [turn(to), turn(from), -right, -left],
    cut: of.cut && [turn(of.cut[1]), turn(of.cut[0])],
  };
}

/** The first deposit cut in two in the middle of its second stretch. */
function split(of: Draft): Draft {
  const { Near, ...rest } = of.deposits;
  const { stations, buildUp } = Near!;
  const [[s1, l1, r1], [s2, l2, r2]] = [stations[1]!, stations[2]!];
  const middle = [(s1 + s2) / 2, (l1 + l2) / 2, (r1 + r2) / 2] as const;
  return {
    ...of,
    deposits: {
      NearA: { buildUp, stations: [...stations.slice(0, 2), middle] },
      NearB: { buildUp, stations: [middle, ...stations.slice(2)] },
      ...rest,
    },
  };
}

const names = {
  Near: 'Alpha',
  North: 'Somewhere-Else',
  Sprayer1: 'Boom',
  Spray: 'PutOn',
  Broom1: 'Brush',
  Main: 'Strip',
  Tanker1: 'T',
};
const renamed = (text: string): string =>
  Object.entries(names).reduce((all, [from, to]) => all.replaceAll(new RegExp(`\\b${from}\\b`, 'g'), to), text);

describe('random jobs', () => {
  const runs = { numRuns: 10 };

  it('computes them: nothing of the work is missing', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const { quantities, job } = await readJob(textOf(blocksOf(of)));
        expect(job.problems.map(problem => problem.message)).toEqual([]);
        for (const path of [
          'North.area',
          'North.product',
          'North.Spray.pressure',
          'North.Scrub.circuits',
          'North.runoff',
          'Job.water',
        ]) {
          expect(quantities.has(path), path).toBe(true);
        }
      }),
      { numRuns: 5 },
    );
  });

  it('ends swapped, left and right mirrored', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const mirrored = (path: string): string =>
          path === 'North.left' ? 'North.right' : path === 'North.right' ? 'North.left' : path;
        expectSame(await read(textOf(blocksOf(of))), await read(textOf(blocksOf(swapped(of)))), mirrored);
      }),
      runs,
    );
  });

  it('one deposit counted from the other end', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const [own, other] = [blocksOf(of), blocksOf(swapped(of))];
        const mixed = own.map((block, i) => (block.startsWith('deposit Far') ? other[i]! : block));
        expectSame(await read(textOf(own)), await read(textOf(mixed)));
      }),
      runs,
    );
  });

  it('a deposit split in two', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const ofWork = (all: Values): Values => new Map([...all].filter(([path]) => !path.startsWith('Near')));
        const whole = await read(textOf(blocksOf(of)));
        const parts = await read(textOf(blocksOf(split(of))));
        // The mean thickness of overlapping deposits weighs them by their areas, however they are cut.
        expectSame(ofWork(whole), ofWork(parts));
        near(
          parts.get('NearA.area')!.value + parts.get('NearB.area')!.value,
          whole.get('Near.area')!.value,
          'Near.area',
        );
      }),
      runs,
    );
  });

  it('blocks renamed', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const text = textOf(blocksOf(of));
        expectSame(await read(text), await read(renamed(text)), renamed);
      }),
      runs,
    );
  });

  it('blocks in another order', async () => {
    await fc.assert(
      fc.asyncProperty(draft, fc.infiniteStream(fc.nat()), async (of, numbers) => {
        const blocks = blocksOf(of);
        const shuffled = blocks
          .map(block => [numbers.next().value as number, block] as const)
          .toSorted(([a], [b]) => a - b)
          .map(([, block]) => block);
        expectSame(await read(textOf(blocks)), await read(textOf(shuffled)));
      }),
      runs,
    );
  });

  it('the other unit system', async () => {
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const text = textOf(blocksOf(of));
        const other = inOtherUnits(text);
        expect(other).toContain('mph');
        expect(other).not.toContain('km/h');
        expectSame(await read(text), await read(other));
      }),
      runs,
    );
  });
});

describe('the examples in the other unit system', () => {
  const folder = new URL('../../../examples/', import.meta.url);
  const files = (readdirSync(folder, { recursive: true }) as string[]).filter(name => name.endsWith('.broom'));
  const all = Object.fromEntries(files.map(name => [name, readFileSync(new URL(name, folder), 'utf8')]));
  const jobs = files.filter(name => /^job /m.test(all[name]!) && !name.includes('wrong'));

  it('finds jobs', () => expect(jobs.length).toBeGreaterThanOrEqual(4));

  it.each(jobs)('%s', async name => {
    const main = { [name]: all[name]!, ...all };
    const other = Object.fromEntries(Object.entries(main).map(([file, text]) => [file, inOtherUnits(text)]));
    expect(other).not.toEqual(main);
    const first = (await readJob(main)).quantities;
    expect(first.size).toBeGreaterThan(20);
    expectSame(first, (await readJob(other)).quantities);
  });
});
