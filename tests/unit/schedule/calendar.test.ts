import { describe, expect, test } from 'vitest';
import { calendarOf, clockAt, dayAt, isoAt } from '../../../language/schedule/calendar.ts';
import { jobOf } from '../../support/jobs.ts';

async function calendar(closure: string) {
  const job = await jobOf(`broomline 1
runway Main { length: 2450 m, width: 45 m, pavement: asphalt }
closure Nights { on: Main, hand-back: 45 min, ${closure} }`);
  return calendarOf(job, job.blocks.closures);
}

const hours = (night: { start: number; end: number }): number => (night.end - night.start) / 3600;

describe('nights', () => {
  test('weekdays, exceptions and a last date', async () => {
    const { nights, problems } = await calendar(
      'hours: 23:00 to 05:00, Mon to Thu, from: 2031-04-07, to: 2031-04-17, except: 2031-04-10, time-zone: "Europe/Dublin"',
    );
    expect(problems).toEqual([]);
    expect(nights.map(each => each.date)).toEqual([
      '2031-04-07',
      '2031-04-08',
      '2031-04-09',
      '2031-04-14',
      '2031-04-15',
      '2031-04-16',
      '2031-04-17',
    ]);
    expect(isoAt(nights[0]!.start, 'Europe/Dublin')).toBe('2031-04-07T23:00:00+01:00');
    expect(isoAt(nights[0]!.handBack, 'Europe/Dublin')).toBe('2031-04-08T04:15:00+01:00');
    expect(dayAt(nights[0]!.date)).toBe('Mon 7 Apr');
    expect(clockAt(nights[0]!.end, 'Europe/Dublin')).toBe('05:00');
  });

  // European summer time begins on the last Sunday of March and ends on the last of October, at 01:00 UTC
  // (Directive 2000/84/EC, articles 2 and 3; from memory).
  test('a clock change gives a night the length it really has', async () => {
    const spring = await calendar(
      'hours: 23:00 to 05:00, Sat, from: 2031-03-22, number: 3, time-zone: "Europe/London"',
    );
    expect(spring.nights.map(hours)).toEqual([6, 5, 6]);
    expect(spring.problems).toMatchObject([{ kind: 'clock change inside', date: '2031-03-29' }]);
    const autumn = await calendar(
      'hours: 23:00 to 05:00, Sat, from: 2031-10-18, number: 3, time-zone: "Europe/London"',
    );
    expect(autumn.nights.map(hours)).toEqual([6, 7, 6]);
  });

  test('an hour that a clock change removes is said, one that comes twice is taken the first time', async () => {
    const spring = await calendar(
      'hours: 01:30 to 05:00, Sun, from: 2031-03-30, number: 1, time-zone: "Europe/London"',
    );
    expect(spring.problems).toContainEqual(
      expect.objectContaining({ kind: 'clock change skips the start', date: '2031-03-30' }),
    );
    const autumn = await calendar(
      'hours: 01:30 to 05:00, Sun, from: 2031-10-26, number: 1, time-zone: "Europe/London"',
    );
    expect(autumn.nights.map(hours)).toEqual([4.5]);
  });

  // Published: a 12.5 h runway closure from 00:30 to 13:00 local (handbook N3 [V], airport operations advisory, 2023).
  test('a day closure of 12.5 h', async () => {
    const { nights } = await calendar(
      'hours: 00:30 to 13:00, Mon, from: 2031-04-07, number: 1, time-zone: "America/Los_Angeles"',
    );
    expect(nights.map(hours)).toEqual([12.5]);
  });

  test('spare nights are the last ones; set-up and reserve narrow the time for work', async () => {
    const { nights } = await calendar(
      'hours: 22:00 to 24:00, from: 2031-04-07, number: 3, spare: 1, set-up: 20 min, time-zone: "UTC"',
    );
    expect(nights.map(each => each.spare)).toEqual([false, false, true]);
    expect(nights.map(each => (each.handBack - each.from) / 60)).toEqual([55, 55, 55]);
  });

  test.each([
    ['hours: 23:00 to 05:00, from: 2031-04-07', 'no time zone'],
    ['hours: 23:00 to 05:00, from: 2031-04-07, time-zone: "Mars/Olympus"', 'unknown time zone'],
    ['hours: 23:00 to 05:00, Sat, from: 2031-04-07, to: 2031-04-10, time-zone: "UTC"', 'never'],
    ['hours: 23:00 to 23:40, from: 2031-04-07, to: 2031-04-07, time-zone: "UTC"', 'no time left'],
  ])('%s: %s', async (closure, kind) => {
    const { nights, problems } = await calendar(closure);
    expect(nights).toEqual([]);
    expect(problems.map(each => each.kind)).toContain(kind);
  });
});
