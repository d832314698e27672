/**
 * Schedules of small jobs with answers worked out by hand; what has to hold of every schedule; the same job gives the same
 * schedule, byte for byte, in one go and in slices. A checker that shares no code with the solver looks at every one.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { chemicalJob, waterJob } from '../../../language/checks/example.ts';
import { exposuresOf, tracksOfJob } from '../../../language/exposure/fromTracks.ts';
import type { Job } from '../../../language/job/job.ts';
import { clockAt, isoAt } from '../../../language/schedule/calendar.ts';
import { scheduleResult, scheduleResultOf } from '../../../language/schedule/contract.ts';
import { createScheduling, placedTracks, type Schedule, scheduleToEnd } from '../../../language/schedule/schedule.ts';
import { whyNot, whyNotFewer } from '../../../language/schedule/why.ts';
import { checkSchedule } from '../../support/checkSchedule.ts';
import { type Files, jobOf } from '../../support/jobs.ts';

const root = fileURLToPath(new URL('../../../examples/', import.meta.url));

/** Cleaning by hand takes an hour for a bay and its inspection 20 min, and one person does both. */
function byHand(change: { bays?: number; closure?: string; work?: string; crew?: string; more?: string } = {}): string {
  return `broomline 1
runway Main { length: 2450 m, width: 45 m, pavement: asphalt
  end "04" { }
  end "22" { }
}
deposit Zone { on: Main from "04", build-up: light
  stations: table chainage m, left m, right m
            300  5  5
            600  5  5
}
method ByHand {
  step Clean   { does: hand-clean, of: lights, takes: 60 min }
  step Inspect { does: inspect, of: pavement, takes: 20 min }
}
work North { removes: Zone, method: ByHand, bays: ${change.bays ?? 3}, crew: Night
  ${change.work ?? ''}
}
${change.crew ?? 'crew Night { people: 1, shift: 8 h }'}
${change.closure ?? closure()}
${change.more ?? ''}
`;
}

/** 20 min before the end it has to be clear: 160 min to work, which is two bays to the second. */
function closure(lines = 'from: 2031-04-07, number: 5', hours = '23:00 to 02:00, daily'): string {
  return `closure Nights { on: Main, hours: ${hours}, ${lines}, hand-back: 20 min, time-zone: "Europe/Dublin" }`;
}

async function scheduled(source: string | Files): Promise<Schedule> {
  const job = await jobOf(source);
  return checked(scheduleToEnd(job, tracksOfJob(job)));
}

/** Every schedule that a test sees is looked at by the checker. */
function checked(schedule: Schedule): Schedule {
  if (schedule.starts) expect(checkSchedule(schedule.built.problem, schedule.starts)).toEqual([]);
  expect(scheduleResult.safeParse(scheduleResultOf(schedule)).error).toBeUndefined();
  return schedule;
}

const clears = ({ nights, zero }: Schedule): string[] =>
  nights.map(each => `${each.night.date} ${clockAt(zero! + each.clear, each.night.timeZone)}`);
const startOf = (schedule: Schedule, id: string): number => schedule.activities.find(each => each.id === id)!.start;

describe('by hand', () => {
  test('three bays, two to a closure', async () => {
    const schedule = await scheduled(byHand());
    expect(clears(schedule)).toEqual(['2031-04-07 01:40', '2031-04-08 00:20']);
    expect(schedule.proof).toMatchObject({ closures: 2, provedLeast: true, provedEarliest: true });
    // The second bay of the first night is over at the hand-back to the second; the next bay has a night of its own.
    expect(schedule.activities.map(each => [each.id, each.start])).toEqual([
      ['North/1/Clean', 0],
      ['North/1/Inspect', 3600],
      ['North/2/Clean', 4800],
      ['North/2/Inspect', 8400],
      ['North/3/Clean', 86_400],
      ['North/3/Inspect', 90_000],
    ]);
  });

  test('two people do two bays at a time', async () => {
    const schedule = await scheduled(byHand({ crew: 'crew Night { people: 2, shift: 8 h }' }));
    // 60 min of cleaning twice, then a third time: 120 + 20 min.
    expect(clears(schedule)).toEqual(['2031-04-07 01:20']);
  });

  test('a minute less to work and a bay has to wait for the next closure', async () => {
    const schedule = await scheduled(byHand({ closure: closure(undefined, '23:00 to 01:59, daily') }));
    expect(schedule.proof).toMatchObject({ closures: 3, provedLeast: true });
  });

  test('what each waits for, and how late it can be', async () => {
    const { activities } = await scheduled(byHand());
    const [clean, inspect, next] = activities;
    expect(clean!.waits).toEqual([{ kind: 'closure' }]);
    expect(inspect!.waits[0]).toMatchObject({ kind: 'lag', activity: 'North/1/Clean', why: 'order of the steps' });
    expect(next!.waits).toContainEqual({ kind: 'crew', name: 'Night', activity: 'North/1/Inspect' });
    // The first closure is full; the last one ends where the job ends.
    expect(activities.map(each => each.slack)).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('spare closures are not used', async () => {
    const schedule = await scheduled(byHand({ bays: 4, closure: closure('from: 2031-04-07, number: 3, spare: 2') }));
    expect(schedule.state).toBe('impossible');
    expect(whyNot(schedule)).toEqual([{ kind: 'too few closures', has: 1, needs: 2, proved: true }]);
  });

  test('a bay that is longer than any closure is the reason by itself', async () => {
    const schedule = await scheduled(byHand({ closure: closure(undefined, '23:00 to 00:30, daily') }));
    const [why] = whyNot(schedule);
    expect(why).toMatchObject({
      kind: 'bay too long',
      takes: 4800,
      has: 4200,
      chain: [
        { activity: 'North/1/Clean', seconds: 3600 },
        { activity: 'North/1/Inspect', seconds: 1200 },
      ],
    });
  });

  test('a closure of a part of the runway holds only the bays in it', async () => {
    const schedule = await scheduled(
      byHand({
        closure: `closure Nights { on: Main, hours: 23:00 to 02:00, daily
  from: 2031-04-07
  number: 5
  hand-back: 20 min
  time-zone: "Europe/Dublin"
  part: table from m, to m
        300  500
}`,
      }),
    );
    expect(whyNot(schedule)[0]).toMatchObject({ kind: 'no night', bay: { bay: { number: 3 } } });
  });

  test('a work that comes before another ends before that begins', async () => {
    const two = byHand({
      crew: 'crew Night { people: 9, shift: 8 h }',
      work: 'before: South',
      more: 'work South { removes: Zone, method: ByHand, bays: 1, crew: Night }',
    });
    const schedule = await scheduled(two);
    expect(startOf(schedule, 'South/1/Clean')).toBe(4800);
    const free = await scheduled(two.replace('before: South', ''));
    expect(startOf(free, 'South/1/Clean')).toBe(0);
  });

  test('without closures the clock starts at the first movement', async () => {
    const schedule = await scheduled(byHand({ closure: '' }));
    expect(schedule).toMatchObject({ state: 'scheduled', zero: undefined, nights: [] });
    expect(schedule.proof).toMatchObject({ closures: 0, end: 3 * 4800, provedEarliest: true });
    expect(scheduleResultOf(schedule).withoutClosure).toHaveLength(6);
  });

  test('without a time zone there is nothing to place it in', async () => {
    const schedule = await scheduled(byHand({ closure: closure().replace(', time-zone: "Europe/Dublin"', '') }));
    expect(schedule.state).toBe('nothing');
    expect(schedule.calendar.problems.map(each => each.kind)).toEqual(['no time zone']);
  });

  // European summer time begins on the last Sunday of March at 01:00 UTC (Directive 2000/84/EC, article 2; from memory).
  test('the night the clocks go forward is an hour shorter', async () => {
    const schedule = await scheduled(
      byHand({ closure: closure('from: 2031-03-29, number: 4', '23:00 to 03:00, daily') }),
    );
    // 220 min on other nights hold two bays (160 min); 160 min in the short one hold two as well, and not a minute less.
    expect(schedule.nights[0]!.end - schedule.nights[0]!.start).toBe(3 * 3600);
    expect(clears(schedule)).toEqual(['2031-03-29 02:40', '2031-03-30 00:20']);
    expect(isoAt(schedule.zero! + schedule.nights[0]!.handBack, 'Europe/Dublin')).toBe('2031-03-30T02:40:00+01:00');
  });

  test('fewer long closures rather than more short ones', async () => {
    // A Saturday that lasts three bays after a Friday that holds one: the job can wait for it.
    const schedule = await scheduled(
      byHand({
        closure: `closure Short { on: Main, hours: 23:00 to 01:00, Fri, from: 2031-04-11, number: 1, hand-back: 20 min, time-zone: "Europe/Dublin" }
closure Long { on: Main, hours: 23:00 to 05:00, Sat, from: 2031-04-12, number: 1, hand-back: 20 min, time-zone: "Europe/Dublin" }`,
      }),
    );
    expect(schedule.proof).toMatchObject({ closures: 1, provedLeast: true });
    expect(clears(schedule)).toEqual(['2031-04-12 03:00']);
  });
});

/** An example, with all others beside it: the libraries it may use are among them. */
function example(name: string): Files {
  const all = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter(each => each.endsWith('.broom'))
    .map(each => each.replaceAll('\\', '/'));
  return Object.fromEntries(
    [name, ...all.filter(each => each !== name)].map(each => [each, readFileSync(join(root, each), 'utf8')]),
  );
}

const jobs: readonly (readonly [name: string, source: string | Files])[] = [
  ['chemical', chemicalJob],
  ['water', waterJob],
  ...[
    'first-job.broom',
    'tern-sands/tender-2031.broom',
    'curlew-bar/chemical-then-water.broom',
    'dunlin-marsh/low-pressure-water.broom',
    'plover-flats/touchdown-09.broom',
    'sanderling-field/touchdown-17.broom',
  ].map(name => [name, example(name)] as const),
];

describe.each(jobs)('%s', (_, source) => {
  test('is scheduled, proved, and every point keeps its limits at the scheduled starts', async () => {
    const schedule = await scheduled(source);
    expect(schedule.proof).toMatchObject({ provedLeast: true, provedEarliest: true });
    for (const { tracks, exposure } of exposuresOf(placedTracks(schedule)!)) {
      const { soak, residence } = tracks.limits;
      if (soak !== undefined && exposure.soak) expect(exposure.soak.least.seconds).toBeGreaterThan(soak - 1e-6);
      if (residence !== undefined && exposure.residence)
        expect(exposure.residence.greatest.seconds).toBeLessThan(residence + 1e-6);
      expect(exposure.gaps.filter(each => each.kind !== 'not picked up')).toEqual([]);
    }
  });

  test('what is started in a closure is inspected in it, and no machine is in two places', async () => {
    const { activities, nights } = await scheduled(source);
    const bays = Map.groupBy(
      activities.filter(each => each.does !== 'wash-down'),
      each => `${each.work}/${each.bay}`,
    );
    for (const bay of bays.values()) {
      expect(new Set(bay.map(each => each.night)).size).toBe(1);
      const night = nights[bay[0]!.night!]!;
      for (const each of bay) {
        expect(each.start).toBeGreaterThanOrEqual(night.from);
        expect(each.end).toBeLessThanOrEqual(night.handBack);
      }
    }
    for (const machine of new Set(activities.flatMap(each => each.machines))) {
      const own = activities.filter(each => each.machines.includes(machine));
      own.slice(1).forEach((each, k) => {
        expect(each.start, `${machine} at ${each.id}`).toBeGreaterThanOrEqual(own[k]!.end);
      });
    }
  });

  test('is the same byte for byte, in one go and in slices', async () => {
    const job = await jobOf(source);
    const works = tracksOfJob(job);
    const whole = JSON.stringify(scheduleResultOf(scheduleToEnd(job, works)));
    const again = await jobOf(source);
    expect(JSON.stringify(scheduleResultOf(scheduleToEnd(again, tracksOfJob(again))))).toBe(whole);
    const scheduling = createScheduling(job, works);
    while (!scheduling.step(1)) checked(scheduling.schedule());
    expect(JSON.stringify(scheduleResultOf(scheduling.schedule()))).toBe(whole);
  });
});

test('before the search has begun there is no schedule, and before it ends a provisional one', async () => {
  const job = await jobOf(example('tern-sands/tender-2031.broom'));
  const scheduling = createScheduling(job, tracksOfJob(job));
  expect(scheduling.schedule().state).toBe('open');
  const states = new Set<string>();
  while (!scheduling.step(1)) states.add(scheduling.schedule().state);
  expect([...states]).toContain('provisional');
  expect(scheduling.schedule().state).toBe('scheduled');
});

describe('what must not make a schedule worse, and what must not change it', () => {
  const ends = async (source: string): Promise<number> => {
    const { proof } = await scheduled(source);
    return proof?.end ?? Infinity;
  };

  test('a longer closure, a shorter reserve, a shorter soak, a quicker inspection', async () => {
    const now = await ends(chemicalJob);
    const better: readonly (readonly [string, string])[] = [
      ['23:00 to 05:00', '23:00 to 06:00'],
      ['hand-back: 45 min', 'hand-back: 30 min'],
      ['soak: 40 min', 'soak: 35 min'],
      ['takes:     20 min', 'takes:     10 min'],
      ['set-up:    20 min', 'set-up:    5 min'],
    ];
    for (const [from, to] of better) {
      expect(chemicalJob.split(from)).toHaveLength(2);
      expect(await ends(chemicalJob.replace(from, to)), to).toBeLessThanOrEqual(now);
    }
  });

  test('a longer soak makes it later', async () => {
    expect(await ends(chemicalJob.replace('soak: 40 min', 'soak: 50 min'))).toBeGreaterThan(await ends(chemicalJob));
  });

  test('a week later it is the same, a week later', async () => {
    const [first, second] = await Promise.all([
      scheduled(chemicalJob),
      scheduled(chemicalJob.replace('2031-04-07', '2031-04-14')),
    ]);
    expect(second.starts).toEqual(first.starts);
    expect(second.zero! - first.zero!).toBe(7 * 86_400);
  });

  test('a machine that nobody uses changes nothing', async () => {
    const first = await scheduled(chemicalJob);
    expect((await scheduled(`${chemicalJob}\nbroom Broom9 like Broom1\n`)).starts).toEqual(first.starts);
  });

  test('machines by count are as good as machines by name', async () => {
    const byCount = chemicalJob
      .replace('scrubbers:  Broom1, Broom2', 'scrubbers:  2 of Broom1')
      .concat('\nfleet {\n  available: table machine, number\n    Broom1 2\n}\n');
    const [named, counted] = await Promise.all([scheduled(chemicalJob), scheduled(byCount)]);
    // Nothing is driven from bay to bay by a pool, so it can only be earlier, by the way between two bays.
    expect(counted.proof!.closures).toBe(named.proof!.closures);
    expect(named.proof!.end - counted.proof!.end).toBeLessThan(600);
    expect(named.proof!.end).toBeGreaterThanOrEqual(counted.proof!.end);
    const brooms = counted.activities.find(each => each.id === 'North/1/Agitate')!.machines;
    expect(brooms).toEqual(['Broom1', 'Broom1 (2)']);
  });
});

test('why one closure less does not do, as a sum that a person can check', async () => {
  const schedule = await scheduled(chemicalJob);
  const sum = whyNotFewer(schedule)!;
  expect(sum.closures).toBe(schedule.proof!.closures - 1);
  expect(sum.busy).toBeGreaterThan(sum.closures * (sum.closure - sum.before - sum.after));
});

test('limits that contradict each other are the whole reason', async () => {
  const job: Job = await jobOf(chemicalJob.replace('bays:       6', 'bays:       1'));
  const [why] = whyNot(scheduleToEnd(job, tracksOfJob(job)));
  expect(why?.kind).toBe('contradiction');
  if (why?.kind !== 'contradiction') return;
  expect(why.chain.map(each => each.why)).toContain('longest residence');
  const round = why.chain.reduce((sum, each) => sum + (each.side === 'least' ? each.seconds : -each.seconds), 0);
  expect(round).toBe(why.excess);
});

test('a job without works, or of an absurd number of bays, is no trouble', async () => {
  expect((await scheduled('broomline 1\n')).state).toBe('nothing');
  expect((await scheduled(chemicalJob.replace('bays:       6', 'bays:       400'))).state).toBe('open');
});

describe('stands', () => {
  const two = waterJob
    .replace('    tank:           8000 L\n', '    tank:           3000 L\n')
    .replace('23:00 to 05:00, Mon to Thu', '21:00 to 09:00, Mon to Thu')
    .concat(`
jet Unit2 like Unit
sweeper Sweeper2 like Sweeper1
deposit South {
    on:       Main from "22"
    stations: table chainage m, left m, right m
        150   5    5
        450   5    5
    build-up: heavy
}
work Other {
    removes: South
    method:  WaterOnly
    bays:    2
    unit:    Unit2
    sweeper: Sweeper2
    closure: Nights
    crew:    Night
}
`);

  /** When the jetting units stand at the water point: the trips less the way there and back. */
  function visits(schedule: Schedule): readonly { machine: string; from: number; to: number }[] {
    const way = 600 / (25 / 3.6);
    return placedTracks(schedule)!
      .flatMap(work => work.bays.flatMap(bay => bay.activities.flatMap(each => each.machines)))
      .flatMap(({ name, run }) =>
        run.trips
          .filter(trip => trip.why === 'refill')
          .map(trip => ({ machine: name, from: trip.start + way, to: trip.end - way })),
      )
      .toSorted((a, b) => a.from - b.from);
  }

  test('two units never fill up at a water point with one place at the same time', async () => {
    const schedule = await scheduled(two);
    expect(schedule.built.holders).toContainEqual({ kind: 'stand', name: 'Hydrant', capacity: 1 });
    const list = visits(schedule);
    expect(new Set(list.map(each => each.machine)).size).toBe(2);
    list.slice(1).forEach((each, k) => {
      expect(each.from).toBeGreaterThan(list[k]!.to - 1);
    });
  });

  test('with two places nobody has to wait, so nothing ends later', async () => {
    const one = await scheduled(two);
    const more = await scheduled(
      two.replace('        distance: 600 m\n', '        distance: 600 m\n        bays:     2\n'),
    );
    expect(more.built.holders.some(each => each.kind === 'stand')).toBe(false);
    expect(more.proof!.end).toBeLessThanOrEqual(one.proof!.end);
  });
});

test('whatever line of a job is missing, nothing breaks', async () => {
  for (const text of [chemicalJob, waterJob]) {
    const lines = text.split('\n');
    for (let i = 3; i < lines.length; i += 9) {
      const schedule = await scheduled(lines.toSpliced(i, 1).join('\n'));
      expect(schedule.state, lines[i]).not.toBe('provisional');
      for (const work of placedTracks(schedule) ?? []) expect(Number.isFinite(work.end), lines[i]).toBe(true);
    }
  }
});
