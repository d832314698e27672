/** What a schedule asks of crews, and in what light it is worked: hours on duty, rest, nights in a row, sun and darkness. */
import { type Daylight, daylightAt } from '../formulas/sun.ts';
import type { Crew } from '../job/job.ts';
import { airportOf } from '../tracks/fromPlan.ts';
import { driversOf } from './build.ts';
import type { Schedule } from './schedule.ts';

/** A crew in one closure. Seconds as in the schedule. */
export interface Duty {
  readonly crew: Crew;
  readonly night: number;
  /** From the opening of the closure to the end of its last activity, washing down included. */
  readonly from: number;
  readonly to: number;
  /** Most people at work at a time. */
  readonly people: number;
}

/** Duties of all crews, by closure. */
export function dutiesOf({ built, nights, activities }: Schedule): readonly Duty[] {
  const crewOf = new Map(built.tasks.map(task => [task.id, task.plan.work.crew?.value.id] as const));
  const drivers = new Map(built.tasks.map(task => [task.id, driversOf(task)] as const));
  return built.job.blocks.crews.flatMap(crew =>
    nights.flatMap((night, k): readonly Duty[] => {
      const own = activities.filter(each => each.night === k && crewOf.get(each.id) === crew.id);
      if (own.length === 0) return [];
      const people = Math.max(
        ...own.map(({ start }) =>
          own.reduce((sum, each) => (each.start <= start && start < each.end ? sum + drivers.get(each.id)! : sum), 0),
        ),
      );
      return [{ crew, night: k, from: night.start, to: Math.max(...own.map(each => each.end)), people }];
    }),
  );
}

/** Rest of a crew between two closures that follow each other, s. */
export interface Rest {
  readonly crew: Crew;
  readonly before: Duty;
  readonly after: Duty;
  readonly seconds: number;
}

/** Rests between the duties of each crew. */
export function restsOf(duties: readonly Duty[]): readonly Rest[] {
  return duties.flatMap((after): readonly Rest[] => {
    const before = duties.findLast(each => each.crew === after.crew && each.night < after.night);
    return before ? [{ crew: after.crew, before, after, seconds: after.from - before.to }] : [];
  });
}

/** The longest row of duties of a crew that begin within a day of each other. */
export function nightsInARow(duties: readonly Duty[], crew: Crew): readonly Duty[] {
  let [best, row]: Duty[][] = [[], []];
  for (const duty of duties.filter(each => each.crew === crew)) {
    const last = row!.at(-1);
    // A clock change may make the step an hour longer than a day.
    row = last && duty.from - last.from <= 90_000 ? [...row!, duty] : [duty];
    if (row.length > best!.length) best = row;
  }
  return best!;
}

/** An activity on the runway in light that its closure does not allow. */
export interface WrongLight {
  readonly activity: string;
  readonly night: number;
  readonly wanted: 'darkness' | 'daylight';
  readonly found: Daylight;
  /** When it is so, seconds as in the schedule. */
  readonly at: number;
}

/**
 * The first and last activity of each closure that are not in the light it asks for. Darkness is night or civil twilight
 * with the sun down; daylight is the sun above the horizon. Empty where the airport's place is not given.
 */
export function wrongLight({ built, nights, activities, zero }: Schedule): readonly WrongLight[] {
  const position = airportOf(built.job)?.location?.value;
  if (!position || zero === undefined) return [];
  const light = (at: number): Daylight | undefined =>
    daylightAt((zero + at) * 1000, position.latitude, position.longitude);
  return nights.flatMap((night, k) => {
    const wanted = night.night.closure.light?.value;
    if (wanted === undefined || wanted === 'any') return [];
    const wrong = (found: Daylight | undefined): found is Daylight =>
      found !== undefined && (wanted === 'darkness') === (found === 'day');
    return activities
      .filter(each => each.night === k && each.does !== 'wash-down')
      .flatMap((each): readonly WrongLight[] => {
        const at = [each.start, each.end].find(moment => wrong(light(moment)));
        return at === undefined ? [] : [{ activity: each.id, night: k, wanted, found: light(at)!, at }];
      });
  });
}
