/**
 * How often to survey friction and to remove rubber, from traffic on one runway end (`faa-12c-frequency`).
 * Landings and landed mass each give a row; the higher one governs. Each end of a runway is rated on its own.
 */
import { Temporal } from 'temporal-polyfill';
import type { Mark, SourceId } from '../sources/sources.ts';

/** An interval of the calendar. */
export interface Interval {
  readonly count: number;
  readonly unit: 'weeks' | 'months' | 'years';
}

/** One row. Bounds are the greatest value that belongs to it; the last row has none. */
export interface FrequencyRow {
  /** Daily turbojet landings on the end. */
  readonly landingsUpTo: number;
  /** Mass of aeroplanes on the end in a year, kg. */
  readonly massUpTo: number;
  readonly landings: string;
  readonly mass: string;
  readonly survey: Interval;
  readonly removal: Interval;
}

const million = 1e6;

/** The table, lightest traffic first. The mass columns are the ICAO-style form, the landings the FAA form. */
export const frequencyTable: readonly FrequencyRow[] = [
  row(15, 447, 'less than 15', 'under 447', [1, 'years'], [2, 'years']),
  row(30, 838, '16 to 30', '448 to 838', [6, 'months'], [1, 'years']),
  row(90, 2_404, '31 to 90', '839 to 2,404', [3, 'months'], [6, 'months']),
  row(150, 3_969, '91 to 150', '2,405 to 3,969', [1, 'months'], [4, 'months']),
  row(210, 5_535, '151 to 210', '3,970 to 5,535', [2, 'weeks'], [3, 'months']),
  row(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 'more than 210', 'over 5,535', [1, 'weeks'], [2, 'months']),
];

/** Traffic on one runway end. At least one of landings and mass must be known. */
export interface RunwayEndTraffic {
  readonly landingsPerDay?: number;
  /** kg a year */
  readonly annualMass?: number;
  /** Share of wide-body aircraft, 0 to 1. */
  readonly wideBodyShare?: number;
}

/** What the table asks for, and why. */
export interface MaintenanceFrequency {
  readonly survey: Interval;
  readonly removal: Interval;
  /** Index of the governing row in `frequencyTable`. */
  readonly row: number;
  readonly governs: 'landings' | 'mass' | 'both';
  readonly source: SourceId;
  readonly mark: Mark;
  /** Gaps of the table and other things to say beside the answer. */
  readonly notes: readonly string[];
}

/**
 * The governing row for an end's traffic. The printed bands leave values unassigned ('less than 15', then '16 to 30'):
 * 15 itself is taken as the first row, anything else between two bands as the heavier one, and the notes say so.
 * Where a fifth or more of the traffic is wide-body the next row is taken: that note is remembered, so the mark falls.
 * @returns `undefined` without a usable number
 */
export function maintenanceFrequency(traffic: RunwayEndTraffic): MaintenanceFrequency | undefined {
  const byLandings = rowFor(traffic.landingsPerDay, row => row.landingsUpTo);
  const byMass = rowFor(traffic.annualMass, row => row.massUpTo);
  if (byLandings === undefined && byMass === undefined) return undefined;
  const base = Math.max(byLandings ?? -1, byMass ?? -1);
  const steppedUp = (traffic.wideBodyShare ?? 0) >= 0.2 && base + 1 < frequencyTable.length;
  const index = steppedUp ? base + 1 : base;
  const { survey, removal } = frequencyTable[index]!;
  return {
    survey,
    removal,
    row: index,
    governs: byLandings === byMass ? 'both' : base === byLandings ? 'landings' : 'mass',
    source: steppedUp ? 'faa-12c-wide-body' : 'faa-12c-frequency',
    mark: steppedUp ? 'from memory' : 'published, second hand',
    notes: notesOn(traffic, steppedUp),
  };
}

/** When the next survey or removal is due, ISO date; `undefined` if the last date is not one. */
export function nextDue(last: string, interval: Interval): string | undefined {
  try {
    return Temporal.PlainDate.from(last)
      .add({ [interval.unit]: interval.count })
      .toString();
  } catch {
    return undefined;
  }
}

/** An interval in words, `2 weeks` or `1 year`. */
export function intervalText({ count, unit }: Interval): string {
  return `${count} ${count === 1 ? unit.slice(0, -1) : unit}`;
}

function rowFor(value: number | undefined, upTo: (row: FrequencyRow) => number): number | undefined {
  if (value === undefined || !(value >= 0)) return undefined;
  return frequencyTable.findIndex(row => value <= upTo(row));
}

function notesOn(traffic: RunwayEndTraffic, steppedUp: boolean): string[] {
  const notes: string[] = [];
  const { landingsPerDay: landings, annualMass: mass } = traffic;
  if (landings === 15) notes.push('The table leaves 15 landings a day unassigned; the first row is used.');
  else if (landings !== undefined && between(landings, row => row.landingsUpTo, 1)) {
    notes.push('The landings lie between two printed bands; the heavier row is used.');
  }
  if (mass !== undefined && between(mass, row => row.massUpTo, million)) {
    notes.push('The mass lies between two printed bands; the heavier row is used.');
  }
  if (steppedUp) notes.push('A fifth or more of the traffic is wide-body: one row up, from memory.');
  return notes;
}

/** Whether a value falls into the hole of one step after a printed bound. */
function between(value: number, upTo: (row: FrequencyRow) => number, step: number): boolean {
  return frequencyTable.some(row => value > upTo(row) && value < upTo(row) + step);
}

function row(
  landingsUpTo: number,
  millionKilograms: number,
  landings: string,
  mass: string,
  survey: readonly [number, Interval['unit']],
  removal: readonly [number, Interval['unit']],
): FrequencyRow {
  return {
    landingsUpTo,
    massUpTo: millionKilograms * million,
    landings,
    mass: `${mass} million kg`,
    survey: { count: survey[0], unit: survey[1] },
    removal: { count: removal[0], unit: removal[1] },
  };
}
