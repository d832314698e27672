/**
 * Visual classes of rubber (`faa-12c-rubber-classes`): remembered, the single cells with less confidence than the
 * structure. Looking is no measurement: colour change is not evidence of friction (`icao-9137-2-removal`).
 */

/** One class; shares 0 to 1, widths m. */
export interface RubberClass {
  readonly name: string;
  /** Greatest share of the texture covered by rubber. */
  readonly coveredUpTo: number;
  /** Friction to be expected over 500 ft in the touchdown zone, the least of the class. */
  readonly frictionFrom: number;
  /** Width of the covered central band, where the class gives one. */
  readonly bandWidth?: number;
  /** Days in which to remove it, where the class asks for it. */
  readonly removeWithinDays?: number;
}

const foot = 0.3048;

/** The classes, lightest first. */
export const rubberClasses: readonly RubberClass[] = [
  { name: 'very light', coveredUpTo: 0.05, frictionFrom: 0.65 },
  { name: 'light', coveredUpTo: 0.2, frictionFrom: 0.55 },
  { name: 'light to medium', coveredUpTo: 0.4, frictionFrom: 0.5, bandWidth: 20 * foot },
  { name: 'medium', coveredUpTo: 0.6, frictionFrom: 0.4, bandWidth: 40 * foot, removeWithinDays: 120 },
  { name: 'medium to dense', coveredUpTo: 0.8, frictionFrom: 0.3, bandWidth: 50 * foot, removeWithinDays: 90 },
  { name: 'dense', coveredUpTo: 0.95, frictionFrom: 0.2, removeWithinDays: 60 },
  { name: 'very dense', coveredUpTo: 1, frictionFrom: 0, removeWithinDays: 30 },
];

/** The class of a covered share (0 to 1) of the texture; `undefined` outside that range. */
export function rubberClass(coveredShare: number): RubberClass | undefined {
  if (!(coveredShare >= 0 && coveredShare <= 1)) return undefined;
  return rubberClasses.find(({ coveredUpTo }) => coveredShare <= coveredUpTo + 1e-9);
}
