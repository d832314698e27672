/**
 * The same job said otherwise has the same exposure, point for point, and the same schedule with the same proof: in the
 * other unit system, seen from the other end with left and right mirrored, with a deposit split in two, with blocks
 * renamed, with blocks in another order.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chemicalJob, waterJob } from '../../../language/checks/example.ts';
import { inOtherUnits } from '../../support/otherUnits.ts';
import { readJob } from '../quantities/fromText.ts';

/** What may differ from one job to another. Numbers are such that work fits into the closures. */
interface Draft {
  readonly job: 'chemical' | 'water';
  readonly stations: readonly (readonly [s: number, left: number, right: number])[];
  readonly displaced: number;
  readonly speed: number;
  readonly soak: number;
  readonly bays: number;
}

const LENGTH = 2450;

const draft: fc.Arbitrary<Draft> = fc
  .record({
    job: fc.constantFrom('chemical' as const, 'water' as const),
    edges: fc.tuple(...[1, 2, 3].map(() => fc.tuple(fc.integer({ min: 3, max: 8 }), fc.integer({ min: 3, max: 8 })))),
    at: fc.tuple(
      fc.integer({ min: 100, max: 250 }),
      fc.integer({ min: 30, max: 150 }),
      fc.integer({ min: 50, max: 300 }),
    ),
    displaced: fc.integer({ min: 0, max: 300 }),
    speed: fc.integer({ min: 70, max: 90 }),
    soak: fc.integer({ min: 31, max: 50 }),
    bays: fc.integer({ min: 5, max: 8 }),
  })
  .map(({ edges, at: [first, second, third], speed, ...rest }) => ({
    ...rest,
    speed: speed / 10,
    stations: [first, first + second, first + second + third].map((s, i) => [s, ...edges[i]!] as const),
  }));

interface Said {
  /** Seen from the other end: chainage runs the other way, left is right. */
  readonly mirrored?: boolean;
  readonly split?: boolean;
}

const OWN = `deposit NorthTouchdown {
    on:       Main from "04"
    stations: table chainage m, left m, right m
        150   5    5
        300   6    6
        750   4    5
    build-up: heavy
}
`;

function textOf({ job, stations, displaced, speed, soak, bays }: Draft, { mirrored, split }: Said = {}): string {
  const apart = LENGTH - displaced;
  const rows = (list: Draft['stations']) =>
    (mirrored ? list.map(([s, left, right]) => [apart - s, right, left]).toReversed() : list)
      .map(row => `        ${row.join('  ')}`)
      .join('\n');
  const deposit = (name: string, list: Draft['stations']) => `deposit ${name} {
    on:       Main from "${mirrored ? '22' : '04'}"
    stations: table chainage m, left m, right m
${rows(list)}
    build-up: heavy
}
`;
  const deposits = split
    ? deposit('NorthTouchdown', stations.slice(0, 2)) + deposit('Further', stations.slice(1))
    : deposit('NorthTouchdown', stations);
  let text = job === 'chemical' ? chemicalJob : waterJob;
  const change = (from: string | RegExp, to: string) => {
    expect(text).toMatch(from);
    text = text.replace(from, to);
  };
  change(OWN, deposits);
  change('        displaced: 120 m', `        displaced: ${displaced} m`);
  if (split) change('NorthTouchdown\n    method', 'NorthTouchdown, Further\n    method');
  // Which way the runway is landed on is not the same seen from the other end.
  if (job === 'chemical') {
    change('        direction: against landing', '        direction: both ways');
    change(/(does: {2}apply\n.*\n {8}speed: )8/, `$1${speed}`);
    change('BroomAndRinse(soak: 40 min)\n', `BroomAndRinse(soak: ${soak} min)\n`);
  }
  change(/ {4}bays: +\d+\n/, `    bays: ${bays}\n    order: ${mirrored ? 'towards' : 'away from'} threshold\n`);
  return text;
}

/** What every bay goes through and who does what when, by name, with nothing of how it was said. */
async function proofOf(text: string, nameOf = (name: string): string => name) {
  const { exposures, schedule, job } = await readJob(text);
  expect(job.problems.map(problem => problem.message)).toEqual([]);
  const named = (id: string) => id.split('/').map(nameOf).join('/');
  return {
    bays: exposures.map(({ exposure }) => ({
      area: exposure.area.squareMetres,
      ...Object.fromEntries(
        (['soak', 'wetGap', 'residence', 'lastTouch'] as const).flatMap(clock => {
          const range = exposure[clock];
          return range ? [[clock, [range.least.seconds, range.greatest.seconds]]] : [];
        }),
      ),
      ...Object.fromEntries(
        (['contacts', 'rinses', 'jets', 'pickups'] as const).map(count => {
          const { least, most } = exposure[count];
          return [count, [least.count, most.count]];
        }),
      ),
      gaps: exposure.gaps.map(gap => gap.kind).toSorted(),
    })),
    state: schedule.state,
    proof: schedule.proof && { ...schedule.proof, conflicts: undefined },
    nights: schedule.nights.map(({ start, clear }) => [start, clear]),
    activities: schedule.activities
      .map(({ id, machines, start, end }) => [named(id), machines.map(nameOf).toSorted().join(' '), start, end])
      .toSorted((a, b) => Number(a[2]) - Number(b[2]) || String(a[0]).localeCompare(String(b[0]))),
  };
}

type Proved = Awaited<ReturnType<typeof proofOf>>;

/** Numbers to 1e-9 of their size, everything else exactly. */
function expectSame(first: unknown, second: unknown, path = ''): void {
  if (typeof first === 'number' && typeof second === 'number') {
    const off = Math.abs(first - second) / Math.max(1e-9, Math.abs(first));
    if (!(off <= 1e-9)) expect.fail(`${path}: ${second} instead of ${first}`);
  } else if (typeof first === 'object' && first !== null && typeof second === 'object' && second !== null) {
    expect(Object.keys(second), path).toEqual(Object.keys(first));
    for (const [key, value] of Object.entries(first)) {
      expectSame(value, (second as Record<string, unknown>)[key], `${path}.${key}`);
    }
  } else expect(second, path).toEqual(first);
}

const names = {
  Main: 'Strip',
  NorthTouchdown: 'Alpha',
  North: 'Somewhere-Else',
  Boom: 'Sprinkler',
  Broom1: 'Brush',
  Broom2: 'Another',
  Tanker: 'T',
  Spray: 'PutOn',
  Unit: 'Lance',
  Jet: 'Blow',
  Nights: 'Closed',
};
const originals = new Map(Object.entries(names).map(([from, to]) => [to, from]));
const renamed = (text: string): string =>
  Object.entries(names).reduce(
    (all, [from, to]) => all.replaceAll(new RegExp(`\\b${from}\\b(?![^"\\n]*"\\n)`, 'g'), to),
    text,
  );

describe('exposure and schedule of a job said otherwise', () => {
  const runs = { numRuns: 6, endOnFailure: true };
  const proves = (other: (of: Draft) => string | Promise<string>, nameOf?: (name: string) => string) =>
    fc.assert(
      fc.asyncProperty(draft, async of => {
        expectSame(await proofOf(textOf(of)), await proofOf(await other(of), nameOf));
      }),
      runs,
    );

  test('there is something to compare', async () => {
    let scheduled = 0;
    await fc.assert(
      fc.asyncProperty(draft, async of => {
        const found: Proved = await proofOf(textOf(of));
        expect(found.bays).toHaveLength(of.bays);
        if (of.job === 'chemical') expect(found.bays[0]).toHaveProperty('soak');
        expect(found.bays.every(bay => bay.area > 0)).toBe(true);
        if (found.state === 'scheduled') scheduled += 1;
      }),
      { numRuns: 10 },
    );
    expect(scheduled).toBeGreaterThan(5);
  });

  test('in the other unit system', () => proves(of => inOtherUnits(textOf(of))));
  test('from the other end, left and right mirrored', () => proves(of => textOf(of, { mirrored: true })));
  test('with the deposit split in two', () => proves(of => textOf(of, { split: true })));
  test('with blocks renamed', () =>
    proves(
      of => renamed(textOf(of)),
      name => originals.get(name) ?? name,
    ));
  test('with blocks in another order', () =>
    proves(of => {
      const [head, ...blocks] = textOf(of).split(/\n(?=[a-z][a-z-]* ?[^\n]*\{\n)/);
      expect(blocks.length).toBeGreaterThan(10);
      return [head, ...blocks.toReversed()].join('\n');
    }));
});
