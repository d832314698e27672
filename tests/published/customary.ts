/**
 * Exact customary units for the published examples. Written down here rather than taken from language/units, so that a
 * wrong factor there can't hide a wrong formula.
 */
import { expect } from 'vitest';
import { citation, type Mark, type SourceId } from '../../language/sources/sources.ts';

export const inch = 0.0254;
export const foot = 0.3048;
export const mile = 1609.344;
export const acre = 43_560 * foot ** 2;
export const hectare = 10_000;
export const litre = 1e-3;
export const gallon = 231 * inch ** 3;
export const fluidOunce = gallon / 128;
export const quart = gallon / 4;
export const pound = 0.45359237;
export const minute = 60;
export const hour = 3600;
export const day = 86_400;
export const mph = mile / hour;
export const kmh = 1 / 3.6;
export const gpm = gallon / minute;
export const litresPerMinute = litre / minute;
export const gallonsPerAcre = gallon / acre;
export const litresPerHectare = litre / hectare;
export const poundForce = pound * 9.80665;
export const psi = poundForce / inch ** 2;
export const bar = 1e5;
export const horsepower = 550 * foot * poundForce;
export const acresPerHour = acre / hour;
export const millimetre = 1e-3;
export const degree = Math.PI / 180;

/** One published (or derived, or remembered) example: where it stands, how well it is verified, what it says. */
export interface Example {
  readonly id: string;
  readonly source: SourceId;
  /** The mark of this figure, where it differs from the source's own. */
  readonly mark?: Mark;
  readonly what: string;
  /** Our computation, in the unit of the printed answer. */
  readonly computed: () => number;
  readonly printed: number;
  /** How far the printed answer may be off by its own rounding. */
  readonly within: number;
  /** The exact answer, worked out independently, to all digits given. */
  readonly exact?: number;
}

/** The test's title: what it is, and publication with verification. */
export function title({ id, source, mark, what }: Pick<Example, 'id' | 'source' | 'mark' | 'what'>): string {
  return `${id} ${what} [${citation(mark ? { source, mark } : source)}]`;
}

/** The computed value must agree with the printed one to the printed precision, and with the exact one to its digits. */
export function expectExample({ computed, printed, within, exact }: Example): void {
  const value = computed();
  expect(Math.abs(value - printed), `${value} against printed ${printed}`).toBeLessThanOrEqual(
    within * (1 + 1e-9) + 1e-12,
  );
  if (exact !== undefined) expectDigits(value, exact);
}

/** Agreement to the last digit that is written, as a half unit of it. */
export function expectDigits(value: number, written: number): void {
  const digits = String(written);
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  expect(Math.abs(value - written), `${value} against ${written}`).toBeLessThanOrEqual(0.5000001 * 10 ** -decimals);
}
