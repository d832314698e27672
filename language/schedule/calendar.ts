/**
 * Closures on the calendar: from local hours, weekdays, dates and a time zone to stretches of real time.
 *
 * A closure begins on a local date at a local hour and ends at a local hour of that date or the next. Where the clocks
 * change in between, it has the length it really has: 23:00 to 05:00 lasts five, six or seven hours. Instants are whole
 * seconds since 1970-01-01T00:00:00Z (POSIX time).
 */
import { Temporal } from 'temporal-polyfill';
import type { Airport, Closure, Job } from '../job/job.ts';

/** One closure of the runway, on one date. */
export interface Night {
  readonly closure: Closure;
  /** Local date on which it begins, ISO. */
  readonly date: string;
  readonly timeZone: string;
  /** Seconds since 1970, UTC. */
  readonly start: number;
  readonly end: number;
  /** From when machines may work: the start and the set-up of the closure. */
  readonly from: number;
  /** By when the runway has to be clear and inspected: the end less the reserve. */
  readonly handBack: number;
  /** Offsets from UTC at start and end, seconds; they differ where the clocks change in the closure. */
  readonly offsets: readonly [start: number, end: number];
  /** Kept in reserve for weather: not used by the plan. */
  readonly spare: boolean;
}

/** Why a closure has no nights, or fewer than it seems. The checks word it. */
export interface CalendarProblem {
  readonly closure: Closure;
  readonly kind:
    | 'no time zone'
    | 'unknown time zone'
    | 'no hours'
    | 'never'
    | 'clock change skips the start'
    | 'clock change skips the end'
    | 'clock change inside'
    | 'no time left';
  readonly date?: string;
}

export interface Calendar {
  /** By start, then by the closure's place in the text. */
  readonly nights: readonly Night[];
  readonly problems: readonly CalendarProblem[];
}

/** Nights looked at for a closure without a last date or a number: a season. A longer job says so itself. */
const SEASON = 120;
/** Days looked at to find them, so that `Sat` with many exceptions ends too. */
const HORIZON = 800;

/** All nights on which a runway is closed by these closures. */
export function calendarOf(job: Job, closures: readonly Closure[]): Calendar {
  const problems: CalendarProblem[] = [];
  const airport = job.blocks.airports[0];
  const nights = closures.flatMap(closure => nightsOf(closure, airport, problems));
  nights.sort((a, b) => a.start - b.start);
  return { nights, problems };
}

/** The time zone a closure's hours are in: its own, else the airport's. */
export function timeZoneOf(closure: Closure, airport: Airport | undefined): string | undefined {
  return closure.timeZone?.value ?? airport?.timeZone?.value;
}

function nightsOf(closure: Closure, airport: Airport | undefined, problems: CalendarProblem[]): readonly Night[] {
  const zone = timeZoneOf(closure, airport);
  const problem = (kind: CalendarProblem['kind'], date?: string): void => {
    problems.push({ closure, kind, ...(date !== undefined && { date }) });
  };
  if (zone === undefined) problem('no time zone');
  else if (!isTimeZone(zone)) problem('unknown time zone');
  if (!closure.hours || !closure.from || !closure.handBack) problem('no hours');
  if (zone === undefined || !isTimeZone(zone) || !closure.hours || !closure.from || !closure.handBack) return [];

  const nights: Night[] = [];
  const spare = closure.spare?.value ?? 0;
  const most = Math.min(closure.number?.value ?? SEASON, 400);
  const last = closure.to?.value;
  let date = Temporal.PlainDate.from(closure.from.value);
  for (let day = 0; day < HORIZON && nights.length < most; day++, date = date.add({ days: 1 })) {
    if (last !== undefined && Temporal.PlainDate.compare(date, Temporal.PlainDate.from(last)) > 0) break;
    if (!closure.hours.value.days.includes(date.dayOfWeek)) continue;
    if (closure.except?.value.includes(date.toString())) continue;
    const night = nightOn(date, closure, zone, problem);
    if (night) nights.push(night);
  }
  if (nights.length === 0) problem('never');
  // The last ones are the spare ones: the plan is made without them.
  return nights.map((night, i) => ({ ...night, spare: i >= nights.length - spare && closure.number !== undefined }));
}

function nightOn(
  date: Temporal.PlainDate,
  closure: Closure,
  zone: string,
  problem: (kind: CalendarProblem['kind'], date: string) => void,
): Night | undefined {
  const { from, to } = closure.hours!.value;
  const day = date.toString();
  const start = instantOf(date, from, zone);
  // An end at or before the start is on the next day.
  const end = instantOf(to <= from ? date.add({ days: 1 }) : date, to, zone);
  if (!start) problem('clock change skips the start', day);
  if (!end) problem('clock change skips the end', day);
  if (!start || !end) return undefined;
  const offsets = [start.offsetNanoseconds / 1e9, end.offsetNanoseconds / 1e9] as const;
  if (offsets[0] !== offsets[1]) problem('clock change inside', day);
  const [opens, closes] = [start.epochMilliseconds / 1000, end.epochMilliseconds / 1000];
  const work = opens + Math.ceil(closure.setUp?.value ?? 0);
  const handBack = closes - Math.ceil(closure.handBack!.value);
  if (handBack <= work) {
    problem('no time left', day);
    return undefined;
  }
  return { closure, date: day, timeZone: zone, start: opens, end: closes, from: work, handBack, offsets, spare: false };
}

/** The instant of a local time, minutes after midnight; undefined for a time that a clock change removes. */
function instantOf(date: Temporal.PlainDate, minutes: number, zone: string): Temporal.ZonedDateTime | undefined {
  const day = minutes === 24 * 60 ? date.add({ days: 1 }) : date;
  const time = Temporal.PlainTime.from({ hour: Math.floor((minutes % (24 * 60)) / 60), minute: minutes % 60 });
  const local = day.toPlainDateTime(time);
  try {
    return local.toZonedDateTime(zone, { disambiguation: 'reject' });
  } catch {
    // Either the hour does not exist, or it comes twice; a repeated hour is taken the first time.
    const first = local.toZonedDateTime(zone, { disambiguation: 'earlier' });
    return first.toPlainDateTime().equals(local) ? first : undefined;
  }
}

/** Remembered, since asking takes longer than all else that is asked about a closure, and there are few. */
const zones = new Map<string, boolean>();

export function isTimeZone(name: string): boolean {
  let is = zones.get(name);
  if (is === undefined) {
    is = takes(name);
    if (zones.size < 1000) zones.set(name, is);
  }
  return is;
}

function takes(zone: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
    return true;
  } catch {
    return false;
  }
}

/** ISO 8601 with the offset that holds there and then: `2031-04-07T23:00:00+01:00`. */
export function isoAt(seconds: number, zone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(seconds * 1000)
    .toZonedDateTimeISO(zone)
    .toString({ timeZoneName: 'never', fractionalSecondDigits: 0 });
}

/** Local clock time: `23:00`, with seconds where there are any. */
export function clockAt(seconds: number, zone: string): string {
  const local = Temporal.Instant.fromEpochMilliseconds(Math.round(seconds) * 1000)
    .toZonedDateTimeISO(zone)
    .toPlainTime();
  return local.toString({ smallestUnit: local.second === 0 ? 'minute' : 'second' });
}

/** Local weekday and date in words: `Mon 7 Apr`. */
export function dayAt(date: string): string {
  const day = Temporal.PlainDate.from(date);
  return `${DAYS[day.dayOfWeek - 1]} ${day.day} ${MONTHS[day.month - 1]}`;
}

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
