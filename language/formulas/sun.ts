/**
 * Sunrise, sunset and twilight for a place, for telling night work from day work.
 *
 * Rise and set are for the sun's upper edge with ordinary refraction (centre 0.833° below the horizon, `noaa-solar`);
 * civil, nautical and astronomical twilight end at 6°, 12° and 18° (`hko-twilight`). Instants are milliseconds since
 * 1970-01-01T00:00Z; turning them into a clock time is the caller's business, who knows the time zone.
 * Longitude is positive *east* (some published equations count west positive).
 */
import { getPosition, getTimes } from 'suncalc';

/** The sun's day at a place. An instant is `undefined` where the sun doesn't cross that altitude on that day. */
export interface SunTimes {
  readonly noon: number;
  readonly sunrise: number | undefined;
  readonly sunset: number | undefined;
  readonly civilDawn: number | undefined;
  readonly civilDusk: number | undefined;
  readonly nauticalDawn: number | undefined;
  readonly nauticalDusk: number | undefined;
  readonly astronomicalDawn: number | undefined;
  readonly astronomicalDusk: number | undefined;
  /** 'up' or 'down' all day where the sun neither rises nor sets; 'rises' otherwise. */
  readonly sun: 'rises' | 'up' | 'down';
}

/**
 * Sun times of the solar day whose noon is nearest to an instant: pass the civil noon of the local date.
 * @param instant ms since 1970 UTC
 * @param latitude degrees, north positive, −90 to 90
 * @param longitude degrees, east positive, −180 to 180
 * @returns `undefined` for coordinates or instants outside their range
 */
export function sunTimes(instant: number, latitude: number, longitude: number): SunTimes | undefined {
  if (!isPlaceAndTime(instant, latitude, longitude)) return undefined;
  const times = getTimes(new Date(instant), latitude, longitude);
  const sunrise = milliseconds(times.sunrise);
  return {
    noon: times.solarNoon.valueOf(),
    sunrise,
    sunset: milliseconds(times.sunset),
    civilDawn: milliseconds(times.dawn),
    civilDusk: milliseconds(times.dusk),
    nauticalDawn: milliseconds(times.nauticalDawn),
    nauticalDusk: milliseconds(times.nauticalDusk),
    astronomicalDawn: milliseconds(times.nightEnd),
    astronomicalDusk: milliseconds(times.night),
    sun: sunrise !== undefined ? 'rises' : times.alwaysUp ? 'up' : 'down',
  };
}

/** The light at a moment. 'night' here begins with the end of civil twilight (`ies-night`). */
export type Daylight = 'day' | 'civil twilight' | 'night';

/** Whether it is day, civil twilight or night at an instant; `undefined` for impossible input. */
export function daylightAt(instant: number, latitude: number, longitude: number): Daylight | undefined {
  const elevation = sunElevation(instant, latitude, longitude);
  if (elevation === undefined) return undefined;
  return elevation > -0.833 ? 'day' : elevation > -6 ? 'civil twilight' : 'night';
}

/** Geometric elevation of the sun's centre without refraction, degrees; `undefined` for impossible input. */
export function sunElevation(instant: number, latitude: number, longitude: number): number | undefined {
  if (!isPlaceAndTime(instant, latitude, longitude)) return undefined;
  return withoutRefraction(getPosition(new Date(instant), latitude, longitude).altitude);
}

/**
 * The library adds refraction to every altitude (below the horizon the amount at the horizon), while rise, set and
 * twilight are defined by the altitude without it: solve a = g + r(max(g, 0)) for g.
 */
function withoutRefraction(apparent: number): number {
  let geometric = apparent;
  for (let i = 0; i < 8; i++) geometric = apparent - refraction(Math.max(geometric, 0));
  return geometric;
}

/** Refraction at a true altitude, degrees: 1.02′/tan(h + 10.26/(h + 5.10)), the form the library uses. */
function refraction(altitude: number): number {
  return 1.02 / 60 / Math.tan(((altitude + 10.26 / (altitude + 5.1)) * Math.PI) / 180);
}

function milliseconds(date: Date | null): number | undefined {
  return date === null ? undefined : date.valueOf();
}

function isPlaceAndTime(instant: number, latitude: number, longitude: number): boolean {
  return Math.abs(instant) <= 8.64e15 && Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180;
}
