/** Times as pictures write them. Rounding never contradicts a sign: a value beyond its limit never reads as the limit. */
import type { Clock } from './layout.ts';

/** Limits that a value has to keep, s. */
export interface Limit {
  readonly least?: number;
  readonly most?: number;
}

/** The limits that a clock is judged by in a bay. */
export function limitOf({ limits }: { readonly limits: ClockLimits }, clock: Clock): Limit {
  if (clock === 'soak' && limits.soak !== undefined) return { least: limits.soak };
  if (clock === 'residence' && limits.residence !== undefined) return { most: limits.residence };
  return {};
}

/** Shortest soak and longest residence, s. */
interface ClockLimits {
  readonly soak?: number | undefined;
  readonly residence?: number | undefined;
}

/** Whole minutes: `57`; with decimals where whole minutes would put it on the wrong side of a limit: `90.4`. */
export function minutes(seconds: number, limit: Limit = {}): string {
  for (let digits = 0; digits <= 4; digits++) {
    const shown = Number((seconds / 60).toFixed(digits));
    if (misses(shown * 60, limit) === misses(seconds, limit)) return String(shown);
  }
  return String(seconds / 60);
}

/** Whether a value misses a limit by more than rounding. */
export function misses(seconds: number, { least, most }: Limit): boolean {
  return (least !== undefined && seconds < least * (1 - 1e-9)) || (most !== undefined && seconds > most * (1 + 1e-9));
}

/** `57–67`, or `57` where both ends read alike. */
export function minuteRange(least: number, greatest: number, limit: Limit = {}): string {
  const a = minutes(least, limit);
  const b = minutes(greatest, limit);
  return a === b ? a : `${a}–${b}`;
}

/** `1 h 43 min`, `14 min`, `25 s`: a difference, never '0 min' unless it is nothing. */
export function duration(seconds: number): string {
  const rounded = Math.abs(seconds) < 90 ? Math.round(seconds) : Math.round(seconds / 60) * 60;
  if (Math.abs(rounded) < 60) return `${rounded} s`;
  const sign = rounded < 0 ? '−' : '';
  const all = Math.round(Math.abs(rounded) / 60);
  const hours = Math.floor(all / 60);
  const rest = all % 60;
  if (hours === 0) return Math.abs(rounded) % 60 === 0 ? `${sign}${all} min` : `${sign}${Math.abs(rounded)} s`;
  return rest === 0 ? `${sign}${hours} h` : `${sign}${hours} h ${rest} min`;
}

interface ClockOf {
  readonly start: number;
  readonly clock: number | undefined;
  readonly change?: { readonly at: number; readonly by: number };
}

/** Local clock time in a night, `00:24`; time from the first movement, `1:05`, where no closure says when. */
export function clockText(night: ClockOf, at: number): string {
  // Cut to the minute, as the findings' clock times are.
  const total = Math.floor((clockSeconds(night, at) + 1e-6) / 60);
  const inDay = night.clock === undefined ? total : ((total % 1440) + 1440) % 1440;
  const hours = Math.floor(inDay / 60);
  const text = `${hours}:${String(inDay % 60).padStart(2, '0')}`;
  return night.clock === undefined ? text : text.padStart(5, '0');
}

/** Seconds after the local midnight on which the night began. */
export function clockSeconds({ start, clock, change }: ClockOf, at: number): number {
  return (clock ?? 0) + (at - start) + (change && at >= change.at ? change.by : 0);
}

/** The moments of a night whose clock shows a multiple of so many seconds, in order. */
export function clockTicks(night: ClockOf & { readonly end: number }, every: number): readonly number[] {
  const ticks: number[] = [];
  const first = Math.ceil(clockSeconds(night, night.start) / every) * every;
  const last = clockSeconds(night, night.end) + Math.abs(night.change?.by ?? 0);
  for (let clock = first; clock <= last && ticks.length < 500; clock += every) {
    const before = night.start + clock - (night.clock ?? 0);
    const after = before - (night.change?.by ?? 0);
    // Where the clocks go back an hour comes twice, where they go forward one is not there.
    const times = night.change
      ? [before < night.change.at ? before : NaN, after >= night.change.at ? after : NaN]
      : [before];
    for (const at of times) if (at >= night.start - 1e-6 && at <= night.end + 1e-6) ticks.push(at);
  }
  return ticks.sort((a, b) => a - b);
}
