/**
 * Sunrise, sunset and twilight against published tables. Tolerances: 2 min for tables made with other methods and
 * printed to the minute, 30 s for values of the full NOAA algorithm (worked out independently).
 */
import { describe, expect, it, test } from 'vitest';
import { daylightAt, type SunTimes, sunElevation, sunTimes } from '../../language/formulas/sun.ts';
import type { Mark, SourceId } from '../../language/sources/sources.ts';
import { title } from './customary.ts';

type Instant = Exclude<keyof SunTimes, 'sun'>;

interface Row {
  readonly place: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly date: string;
  /** Hours to add to UTC. */
  readonly zone: number;
  readonly source: SourceId;
  readonly mark?: Mark;
  /** s */
  readonly within: number;
  readonly times: Readonly<Partial<Record<Instant, string>>>;
}

const greenwich = { place: 'Greenwich', latitude: 51 + 28 / 60, longitude: 0, zone: 0 } as const;
const reykjavik = { place: 'Reykjavik', latitude: 64 + 4 / 60, longitude: -(21 + 58 / 60), zone: -1 } as const;
const quito = { place: 'Quito', latitude: -0.25, longitude: -(78 + 35 / 60), zone: -5 } as const;
const almanac = { source: 'sunrise-almanac-tests', within: 120 } as const;
const noaa = { source: 'noaa-solar', mark: 'derived', within: 30 } as const;
const open = { source: 'open-solar-tests', within: 120 } as const;
const west = { place: '37.7749 N 122.4194 W', latitude: 37.7749, longitude: -122.4194, zone: -7 } as const;
const south = { place: '33 N 118 W', latitude: 33, longitude: -118, zone: -7 } as const;
const bay = { place: '37.323 N 122.0322 W', latitude: 37.323, longitude: -122.0322, zone: -8 } as const;

const rows: readonly Row[] = [
  { ...west, ...open, date: '2017-06-09', times: { sunrise: '05:47:33', sunset: '20:30:52' } },
  { ...west, ...noaa, date: '2017-06-09', times: { sunrise: '05:47:25', sunset: '20:30:52' } },
  { ...bay, ...open, date: '2024-01-01', times: { sunrise: '07:22:13', sunset: '17:00:33', noon: '12:11:23' } },
  { ...bay, ...noaa, date: '2024-01-01', times: { sunrise: '07:22:17', sunset: '17:01:04', noon: '12:11:37' } },
  { ...south, ...open, date: '2000-06-20', times: { sunrise: '05:44:00', sunset: '20:02:00' } },
  { ...south, ...noaa, date: '2000-06-20', times: { sunrise: '05:43:41', sunset: '20:03:41' } },
  {
    ...greenwich,
    ...almanac,
    date: '2013-01-01',
    times: { sunrise: '08:05:00', sunset: '16:02:00', nauticalDawn: '06:43:00', nauticalDusk: '17:25:00' },
  },
  {
    ...greenwich,
    ...noaa,
    date: '2013-01-01',
    times: { sunrise: '08:05:27', sunset: '16:02:05', nauticalDawn: '06:42:42', nauticalDusk: '17:24:50' },
  },
  {
    ...greenwich,
    ...almanac,
    date: '2013-03-21',
    times: { sunrise: '06:00:00', sunset: '18:15:00', nauticalDawn: '04:47:00', nauticalDusk: '19:27:00' },
  },
  { ...greenwich, ...noaa, date: '2013-03-21', times: { nauticalDawn: '04:47:38', nauticalDusk: '19:27:51' } },
  {
    ...greenwich,
    ...almanac,
    date: '2013-06-21',
    times: { sunrise: '03:43:00', sunset: '20:21:00', nauticalDawn: '01:41:00', nauticalDusk: '22:23:00' },
  },
  { ...greenwich, ...noaa, date: '2013-06-21', times: { nauticalDawn: '01:40:47', nauticalDusk: '22:22:51' } },
  { ...reykjavik, ...almanac, date: '2013-06-21', times: { sunrise: '01:57:00', sunset: '23:02:00' } },
  {
    ...reykjavik,
    ...almanac,
    date: '2013-01-01',
    times: { sunrise: '10:18:00', sunset: '14:45:00', nauticalDawn: '07:55:00', nauticalDusk: '17:08:00' },
  },
  {
    ...reykjavik,
    ...noaa,
    date: '2013-01-01',
    times: { sunrise: '10:18:04', sunset: '14:45:20', nauticalDawn: '07:54:43', nauticalDusk: '17:08:43' },
  },
  {
    ...quito,
    ...almanac,
    date: '2013-03-21',
    times: { sunrise: '06:18:00', sunset: '18:25:00', nauticalDawn: '05:33:00', nauticalDusk: '19:09:00' },
  },
  { ...quito, ...noaa, date: '2013-03-21', times: { nauticalDawn: '05:33:27', nauticalDusk: '19:09:16' } },
];

/** Civil noon of a date in a zone, and any clock time of it, as an instant. */
function instantOf(date: string, clock: string, zone: number): number {
  return Date.parse(`${date}T${clock}Z`) - zone * 3_600_000;
}

describe('published rise, set and twilight', () => {
  test.each(rows.map(row => [title({ id: row.place, what: row.date, ...row }), row] as const))('%s', (_, row) => {
    const times = sunTimes(instantOf(row.date, '12:00:00', row.zone), row.latitude, row.longitude)!;
    for (const [name, clock] of Object.entries(row.times) as [Instant, string][]) {
      const off = (times[name]! - instantOf(row.date, clock, row.zone)) / 1000;
      expect(Math.abs(off), `${name} is off by ${off} s`).toBeLessThanOrEqual(row.within);
    }
  });

  it(
    title({ id: 'SUN-4', source: 'sunrise-almanac-tests', what: 'no nautical or civil dusk in a northern June' }),
    () => {
      const times = sunTimes(instantOf('2013-06-21', '12:00:00', -1), reykjavik.latitude, reykjavik.longitude)!;
      expect(times.nauticalDawn).toBeUndefined();
      expect(times.nauticalDusk).toBeUndefined();
      expect(times.civilDusk).toBeUndefined();
      expect(times.sun).toBe('rises');
    },
  );
  it(title({ id: '6.4', source: 'sunrise-almanac-tests', what: 'Greenwich in June has no astronomical night' }), () => {
    const times = sunTimes(instantOf('2013-06-21', '12:00:00', 0), greenwich.latitude, greenwich.longitude)!;
    expect(times.astronomicalDusk).toBeUndefined();
    expect(times.nauticalDusk).toBeDefined();
  });
});

/** Equation of time (min) and declination (degrees) as the sun times and elevations show them. */
const solar: readonly (readonly [
  id: string,
  source: SourceId,
  instant: string,
  equation: number,
  declination: number,
])[] = [
  ['SUN-1, SUN-2', 'open-solar-tests', '2017-06-09T16:42:42Z', 0.66, 22.98],
  ['NOAA sheet', 'noaa-solar', '2010-06-21T06:06:00Z', -1.7063, 23.4383],
];

const solarTitles = solar.map(row => [title({ id: row[0], source: row[1], what: row[2] }), ...row] as const);
test.each(solarTitles)('equation of time and declination %s', (_, __, ___, iso, equation, declination) => {
  const instant = Date.parse(iso);
  // On the meridian that has mean noon at this instant the true noon comes earlier by the equation of time.
  const longitude = 180 - ((instant / 3_600_000) % 24) * 15;
  const { noon } = sunTimes(instant, 0, longitude)!;
  expect(Math.abs((instant - noon) / 60_000 - equation)).toBeLessThan(0.05);
  // On the equator the sun at noon stands at 90 degrees less its declination.
  expect(Math.abs(90 - sunElevation(noon, 0, longitude)! - declination)).toBeLessThan(0.01);
});

describe('places without a sunrise (derived)', () => {
  it('midsummer and midwinter at 70 N', () => {
    expect(sunTimes(instantOf('2031-06-21', '12:00:00', 1), 70, 20)).toMatchObject({ sun: 'up', sunrise: undefined });
    const winter = sunTimes(instantOf('2031-12-21', '12:00:00', 1), 70, 20)!;
    expect(winter).toMatchObject({ sun: 'down', sunset: undefined });
    // There is still civil twilight at noon.
    expect(winter.civilDawn).toBeLessThan(winter.noon);
  });
  it('the poles', () => {
    expect(sunTimes(Date.parse('2031-06-21T12:00Z'), 90, 0)?.sun).toBe('up');
    expect(sunTimes(Date.parse('2031-06-21T12:00Z'), -90, 0)?.sun).toBe('down');
  });
});

describe('day, twilight and night (IES: night begins with the end of civil twilight)', () => {
  const date = instantOf('2013-03-21', '12:00:00', 0);
  const times = sunTimes(date, greenwich.latitude, greenwich.longitude)!;
  const at = (instant: number) => daylightAt(instant, greenwich.latitude, greenwich.longitude);

  it('changes at the times given', () => {
    const minute = 60_000;
    expect(at(times.sunset! - minute)).toBe('day');
    expect(at(times.sunset! + minute)).toBe('civil twilight');
    expect(at(times.civilDusk! - minute)).toBe('civil twilight');
    expect(at(times.civilDusk! + minute)).toBe('night');
    expect(at(times.civilDawn! - minute)).toBe('night');
    expect(at(times.noon)).toBe('day');
  });
  it('elevations at the times given are those of the definitions', () => {
    const elevation = (instant: number | undefined) => sunElevation(instant!, greenwich.latitude, greenwich.longitude)!;
    expect(elevation(times.sunrise)).toBeCloseTo(-0.833, 2);
    expect(elevation(times.civilDusk)).toBeCloseTo(-6, 2);
    expect(elevation(times.nauticalDusk)).toBeCloseTo(-12, 2);
  });
  it('takes the solar day nearest to the instant, also across the date line', () => {
    const noon = instantOf('2031-01-10', '12:00:00', 14);
    expect(Math.abs(sunTimes(noon, 1.9, -157.5)!.noon - noon)).toBeLessThan(2 * 3_600_000);
  });
  it('is undefined for impossible input', () => {
    expect(sunTimes(Number.NaN, 0, 0)).toBeUndefined();
    expect(sunTimes(0, 91, 0)).toBeUndefined();
    expect(daylightAt(0, 0, 181)).toBeUndefined();
    expect(sunElevation(9e15, 0, 0)).toBeUndefined();
  });
});
