/** What a schedule means: recall, the last safe start, a broom lost, odds, duties, light, and what would save a closure. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chemicalJob } from '../../../language/checks/example.ts';
import { tracksOfJob } from '../../../language/exposure/fromTracks.ts';
import type { Job } from '../../../language/job/job.ts';
import { changed, savingsOf } from '../../../language/mend/closures.ts';
import { dutiesOf, nightsInARow, restsOf, wrongLight } from '../../../language/schedule/duty.ts';
import { oddsOf, random, triangular } from '../../../language/schedule/odds.ts';
import { recallOf, withBroomLost } from '../../../language/schedule/recall.ts';
import { type Schedule, scheduleToEnd } from '../../../language/schedule/schedule.ts';
import { jobOf } from '../../support/jobs.ts';

async function scheduled(source: string): Promise<{ job: Job; schedule: Schedule }> {
  const job = await jobOf(source);
  return { job, schedule: scheduleToEnd(job, tracksOfJob(job)) };
}

/** One bay with product: sprayed, brushed, rinsed, picked up and inspected. */
const oneBay = chemicalJob
  .replace('bays:       6', 'bays:       1')
  .replace('at-most:  4 h', 'at-most:  23 h')
  .replace(
    /( +150 +[\d ]+\n)[\s\S]*?( +build-up: heavy)/,
    '        150   5    5\n        250   5    5\n    build-up: heavy',
  );

test('the one bay is what it says', () => {
  expect(oneBay).toContain('bays:       1\n');
  expect(oneBay).toContain('150   5    5\n        250   5    5\n    build-up: heavy');
});

describe('recall', () => {
  test('by hand, for one bay: what is left of rinse, pick-up and inspection, and the way off', async () => {
    const { schedule } = await scheduled(oneBay);
    const { nights, clearing } = recallOf(schedule);
    const at = (id: string) => schedule.activities.find(each => each.id === `North/1/${id}`)!;
    const length = (id: string): number => at(id).end - at(id).start;
    const course = nights[0]!.course;
    const seconds = (moment: number): number => course.find(each => each.at === moment)!.seconds;
    // 600 m to the hydrant, the nearest stand, at 25 km/h, the default.
    expect(clearing).toBe(Math.ceil(600 / (25 / 3.6)));
    // Swept only: nothing is wet, nothing lies about, it is looked at.
    expect(seconds(at('Sweep').start)).toBe(length('Inspect') + clearing);
    const whole = length('Rinse') + length('PickUp') + length('Inspect') + clearing;
    expect(seconds(at('Spray').start)).toBe(whole);
    expect(seconds(at('Agitate').start)).toBe(whole);
    expect(nights[0]!.peak.seconds).toBe(whole);
    expect(seconds(at('PickUp').start)).toBe(length('PickUp') + length('Inspect') + clearing);
    expect(seconds(at('Inspect').end)).toBe(0);
  });

  test('the stretches over the limit', async () => {
    const { schedule } = await scheduled(oneBay.replace('recall:    3 h', 'recall:    25 min'));
    const { over, limit, course } = recallOf(schedule).nights[0]!;
    expect(limit).toBe(25 * 60);
    expect(over).toHaveLength(1);
    for (const { at, seconds } of course) {
      const inside = at >= over[0]!.from && at < over[0]!.to;
      expect(seconds > limit!, `${at}`).toBe(inside);
    }
  });

  test('from the last safe start on the bay just makes the hand-back', async () => {
    const { schedule } = await scheduled(oneBay);
    const [safe] = recallOf(schedule).lastSafe;
    const night = schedule.nights[0]!;
    // Nothing else is in the way, so all of it moves as one.
    expect(safe!.latest! - safe!.planned).toBe(night.handBack - night.clear);
  });

  test('with one broom lost brooming takes longer, and the last safe start is earlier', async () => {
    const { job, schedule } = await scheduled(chemicalJob);
    const lost = withBroomLost(job, schedule)!;
    expect(lost.broom).toBe('Broom2');
    const before = recallOf(schedule).lastSafe;
    expect(lost.lastSafe.map(each => each.activity).toSorted()).toEqual(before.map(each => each.activity).toSorted());
    // The last bay of a closure has the brooms to itself: there it shows.
    const last = lost.lastSafe.filter((each, k) => lost.lastSafe[k + 1]?.night !== each.night);
    for (const each of last) {
      const with2 = before.find(other => other.activity === each.activity)!.latest!;
      expect(each.latest!).toBeLessThan(with2);
    }
    const single = await scheduled(chemicalJob.replace('scrubbers:  Broom1, Broom2', 'scrubbers:  Broom1'));
    expect(withBroomLost(single.job, single.schedule)).toBeUndefined();
  });
});

describe('odds', () => {
  test('a triangular distribution has its bounds, its mode and its mean', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), share => {
        const value = triangular(share, 10, 20, 50);
        return value >= 10 && value <= 50;
      }),
      { numRuns: 200 },
    );
    expect(triangular(0, 10, 20, 50)).toBe(10);
    expect(triangular(0.25, 10, 20, 50)).toBeCloseTo(20, 9);
    expect(triangular(1, 10, 20, 50)).toBe(50);
    const next = random(7);
    const mean = Array.from({ length: 20_000 }, () => triangular(next(), 10, 20, 50)).reduce((a, b) => a + b) / 20_000;
    // Mean (a + b + c) / 3, standard error 8.5 / √20000 = 0.06.
    expect(mean).toBeGreaterThan(80 / 3 - 0.3);
    expect(mean).toBeLessThan(80 / 3 + 0.3);
  });

  test('without tolerances there are none; with them they are the same every time', async () => {
    expect(oddsOf((await scheduled(chemicalJob)).schedule)).toBeUndefined();
    const text = chemicalJob.replace('takes:     20 min', 'takes:     40 min ± 20 min');
    const first = oddsOf((await scheduled(text)).schedule)!;
    expect(oddsOf((await scheduled(text)).schedule)).toEqual(first);
    expect(first.nights.every(each => each.onTime === 1)).toBe(true);
  });

  test('one activity by hand: the share that ends within the closure', async () => {
    // Inspection 60 min ± 30 min in a bay alone. Where the plan leaves 15 min, the share on time is that of a triangle.
    const text = oneBay.replace('takes:     20 min', 'takes:     60 min ± 30 min');
    const { schedule } = await scheduled(text);
    const night = schedule.nights[0]!;
    const margin = night.handBack - night.clear;
    const hours = Math.floor((margin - 900) / 60);
    const { schedule: tight } = await scheduled(text.replace('hand-back: 45 min', `hand-back: ${45 + hours} min`));
    const left = tight.nights[0]!.handBack - tight.nights[0]!.clear;
    expect(left).toBeLessThan(1800);
    const exact = 1 - (1800 - left) ** 2 / (2 * 1800 ** 2);
    const odds = oddsOf(tight)!;
    expect(Math.abs(odds.onTime - exact)).toBeLessThan(0.03);
    // The inverse of the distribution at 90 %.
    const kept = triangular(0.9, -1800, 0, 1800);
    expect(Math.abs(odds.nights[0]!.keptBy90 - tight.nights[0]!.clear - kept)).toBeLessThan(60);
  });

  test('wider tolerances do not make it likelier to be on time', async () => {
    const share = async (tolerance: number): Promise<number> =>
      oddsOf(
        (await scheduled(chemicalJob.replace('takes:     20 min', `takes:     75 min ± ${tolerance} min`))).schedule,
      )!.onTime;
    const shares = [await share(5), await share(20), await share(40)];
    expect(shares).toEqual(shares.toSorted((a, b) => b - a));
  });
});

describe('duties and light', () => {
  test('duty from the opening to the last wash-down, rest to the next opening', async () => {
    const { schedule } = await scheduled(chemicalJob);
    const duties = dutiesOf(schedule);
    expect(duties.map(each => each.from)).toEqual(schedule.nights.map(each => each.start));
    const last = duties.at(-1)!;
    expect(last.to).toBe(Math.max(...schedule.activities.map(each => each.end)));
    expect(restsOf(duties).map(each => each.seconds)).toEqual([
      duties[1]!.from - duties[0]!.to,
      duties[2]!.from - duties[1]!.to,
    ]);
    expect(nightsInARow(duties, duties[0]!.crew)).toHaveLength(3);
  });

  // Sunrise at 52.4° N, 6.1° W on 8 April is about 06:45 local time (the sun stage is held against published tables).
  test('work in the morning sun is not darkness', async () => {
    const late = chemicalJob
      .replace('23:00 to 05:00, Mon to Thu', '05:00 to 11:00, Mon to Thu')
      .replace('    recall:    3 h', '    recall:    3 h\n    light:     darkness');
    const { schedule } = await scheduled(late);
    const wrong = wrongLight(schedule);
    expect(wrong.length).toBeGreaterThan(0);
    expect(wrong.every(each => each.found === 'day')).toBe(true);
    const night = await scheduled(
      chemicalJob.replace('    recall:    3 h', '    recall:    3 h\n    light:     darkness'),
    );
    expect(wrongLight(night.schedule)).toEqual([]);
  });
});

describe('what would save a closure', () => {
  test('every change that is listed does, and less of it does not', async () => {
    const { job, schedule } = await scheduled(chemicalJob);
    const savings = savingsOf(job, schedule);
    expect(savings.map(each => each.change.kind)).toContain('hours');
    for (const { change, closures } of savings) {
      const with_ = changed(job, change);
      const after = scheduleToEnd(with_, tracksOfJob(with_));
      expect(after.proof!.closures).toBeLessThanOrEqual(closures);
      expect(closures).toBeLessThan(schedule.proof!.closures);
      if (change.kind !== 'hours') continue;
      // A quarter of an hour less is not enough: it is the least change.
      const { from, to } = change.closure.hours!.value;
      const less =
        change.from === from
          ? { ...change, to: (change.to + 1440 - 15) % 1440 }
          : { ...change, from: (change.from + 15) % 1440 };
      if (less.from === from && less.to === to) continue;
      const short = changed(job, less);
      expect(scheduleToEnd(short, tracksOfJob(short)).proof!.closures).toBe(schedule.proof!.closures);
    }
  });

  test('a broom that nobody uses, a higher speed and longer hours are levers of their own', async () => {
    const text = chemicalJob
      .concat('\nbroom Spare like Broom1\n')
      .replace('        advance: half swept\n', '        advance: half swept\n        tandem:  next lane 40 m apart\n')
      .replace('23:00 to 05:00, Mon to Thu', '23:00 to 04:00, Mon to Thu');
    const { job, schedule } = await scheduled(text);
    const changes = savingsOf(job, schedule).map(each => each.change);
    expect([...new Set(changes.map(each => each.kind))]).toEqual(['machine', 'bays', 'speed', 'hours']);
    const [broom] = changes;
    expect(broom).toMatchObject({ kind: 'machine', machine: { name: 'Spare' }, bindings: [{ role: 'scrubbers' }] });
    for (const change of changes) {
      const after = changed(job, change);
      expect(scheduleToEnd(after, tracksOfJob(after)).proof!.closures).toBe(schedule.proof!.closures - 1);
    }
  });

  test('a job in one closure has nothing to save', async () => {
    const { job, schedule } = await scheduled(oneBay);
    expect(savingsOf(job, schedule)).toEqual([]);
  });
});
