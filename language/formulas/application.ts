/**
 * Applying a liquid with a boom: rate, flow, speed, nozzles, coats, loads, passes and dilution.
 *
 * Everything is SI. An application rate is a volume per area, m³/m² = m of depth: 1 L/m² is 0.001 m.
 * Symbols: Q flow (m³/s), R rate (m), v ground speed (m/s), w width covered (m), p pressure at the nozzle (Pa).
 * The customary forms with their constants (5940, 495, 600 ...) are these same formulas: tests/published compares them.
 *
 * The functions are total: they return NaN, Infinity or `undefined` for impossible input and never throw.
 */
import { ceilForgiving } from './counting.ts';

// Rate, flow, speed

/** Flow at the boom, Q = R·v·w, m³/s. Source: `sprayer-manual-metric`; its constant is a `definition`. */
export function boomFlow(rate: number, speed: number, width: number): number {
  return rate * speed * width;
}

/** Rate from flow, R = Q/(v·w), m. Source: `sprayer-manual-metric`. */
export function applicationRate(flow: number, speed: number, width: number): number {
  return flow / (speed * width);
}

/** Ground speed that gives a rate, v = Q/(R·w), m/s. Source: `sprayer-manual-metric`. */
export function speedForRate(flow: number, rate: number, width: number): number {
  return flow / (rate * width);
}

/** Rate that comes out when the machine drives `actualSpeed` instead of `speed` at the same flow, m. Source: `mechanics`. */
export function rateAtSpeed(rate: number, speed: number, actualSpeed: number): number {
  return (rate * speed) / actualSpeed;
}

/**
 * Relative error of the rate from a relative error of the speed: 10 % slow (−0.1) is 11.1 % over, 10 % fast is 9.1 %
 * under. Source: `mechanics`.
 */
export function rateErrorFromSpeedError(speedError: number): number {
  return -speedError / (1 + speedError);
}

/** Rate found by catching a volume (m³) over a course of a length and width (m), m. Source: `lsu-sprayer`. */
export function rateFromCourse(volume: number, length: number, width: number): number {
  return volume / (length * width);
}

/** Length of the course (m) that makes a given area (m²) with a width (m). Source: `lsu-sprayer` (1/128 acre). */
export function courseLength(area: number, width: number): number {
  return area / width;
}

/** One hundred and twenty-eighth of an acre, m²: fluid ounces caught on it are gallons to the acre. A `definition`. */
export const oneOver128Acre: number = 4046.8564224 / 128;

/** Speed over a measured course, m/s. Several times (s) are averaged first. Sources: `oklahoma-state-sprayer`. */
export function courseSpeed(length: number, ...times: number[]): number {
  return (length * times.length) / times.reduce((sum, time) => sum + time, 0);
}

// Nozzles

/** Flow of one nozzle out of a boom of equal nozzles, m³/s. */
export function flowPerNozzle(flow: number, nozzles: number): number {
  return flow / nozzles;
}

/** Width of a boom, nozzles times spacing, m: half a spacing lies outside the last nozzle. Source: `grdc-spray-manual`. */
export function boomWidth(nozzles: number, spacing: number): number {
  return nozzles * spacing;
}

/** Flow at a pressure from the flow at another, Q₂ = Q₁·√(p₂/p₁), m³/s. Source: `sprayer-maker-page`. */
export function flowAtPressure(flow: number, pressure: number, otherPressure: number): number {
  return flow * Math.sqrt(otherPressure / pressure);
}

/** Pressure for a flow, p₂ = p₁·(Q₂/Q₁)², Pa: twice the flow takes four times the pressure. Source: `sprayer-maker-page`. */
export function pressureForFlow(pressure: number, flow: number, otherFlow: number): number {
  return pressure * (otherFlow / flow) ** 2;
}

/** One point of a nozzle's calibration: the flow (m³/s) measured with water at a pressure (Pa). */
export interface CalibrationPoint {
  readonly pressure: number;
  readonly flow: number;
}

/** A value read from calibration points, and whether the points reach that far. */
export interface CalibratedValue {
  readonly value: number;
  /** 'below' and 'above': outside the points; the value then follows the root law from the nearest point. */
  readonly range: 'inside' | 'below' | 'above';
}

/** Why points can't be used: pressure and flow must be positive and rise together. `undefined` when they can. */
export function calibrationFault(
  points: readonly CalibrationPoint[],
): 'no points' | 'not positive' | 'not increasing' | undefined {
  if (points.length === 0) return 'no points';
  if (!points.every(p => p.pressure > 0 && p.flow > 0 && Number.isFinite(p.pressure + p.flow))) return 'not positive';
  const sorted = byPressure(points);
  const rising = sorted.every(
    (p, i) => i === 0 || (p.pressure > sorted[i - 1]!.pressure && p.flow > sorted[i - 1]!.flow),
  );
  return rising ? undefined : 'not increasing';
}

/**
 * Flow at a pressure (Pa) from calibration points, m³/s. Between two points flow is linear in √p, which is the root law
 * where the points obey it and meets every point exactly where they don't. `undefined` if the points have a fault.
 * Source: `sprayer-maker-page` (root law); the interpolation is a choice of this tool (`tool-policy`).
 */
export function calibratedFlow(points: readonly CalibrationPoint[], pressure: number): CalibratedValue | undefined {
  if (calibrationFault(points) || !(pressure >= 0)) return undefined;
  const { range, low, high } = bracket(byPressure(points), p => p.pressure, pressure);
  if (range !== 'inside') return { range, value: flowAtPressure(low.flow, low.pressure, pressure) };
  if (low === high) return { range, value: low.flow };
  const share = (Math.sqrt(pressure) - Math.sqrt(low.pressure)) / (Math.sqrt(high.pressure) - Math.sqrt(low.pressure));
  return { range, value: low.flow + share * (high.flow - low.flow) };
}

/** Pressure (Pa) that gives a flow (m³/s): the inverse of `calibratedFlow`, with the same rules outside the points. */
export function calibratedPressure(points: readonly CalibrationPoint[], flow: number): CalibratedValue | undefined {
  if (calibrationFault(points) || !(flow >= 0)) return undefined;
  const { range, low, high } = bracket(byPressure(points), p => p.flow, flow);
  if (range !== 'inside') return { range, value: pressureForFlow(low.pressure, low.flow, flow) };
  if (low === high) return { range, value: low.pressure };
  const share = (flow - low.flow) / (high.flow - low.flow);
  const root = Math.sqrt(low.pressure) + share * (Math.sqrt(high.pressure) - Math.sqrt(low.pressure));
  return { range, value: root ** 2 };
}

function byPressure(points: readonly CalibrationPoint[]): readonly CalibrationPoint[] {
  return points.toSorted((a, b) => a.pressure - b.pressure);
}

/** The two points round a value, or the nearest one twice when the value is outside (or the only one meets it). */
function bracket(
  sorted: readonly CalibrationPoint[],
  of: (point: CalibrationPoint) => number,
  value: number,
): { range: CalibratedValue['range']; low: CalibrationPoint; high: CalibrationPoint } {
  const first = sorted[0]!;
  const last = sorted.at(-1)!;
  // A point that was converted from other units must still count as its own pressure.
  const slack = 1e-12 * value;
  if (value < of(first) - slack) return { range: 'below', low: first, high: first };
  if (value > of(last) + slack) return { range: 'above', low: last, high: last };
  const above = sorted.findIndex(point => of(point) >= value);
  if (above <= 0) return { range: 'inside', low: above < 0 ? last : first, high: above < 0 ? last : first };
  return { range: 'inside', low: sorted[above - 1]!, high: sorted[above]! };
}

/**
 * Flow of a mix through a nozzle calibrated with water, at the same pressure, Q = Q_water·√(ρ_water/ρ), m³/s.
 * @param relativeDensity density of the mix over that of water
 * Source: `mechanics` (the orifice equation).
 */
export function flowOfMix(waterFlow: number, relativeDensity: number): number {
  return waterFlow / Math.sqrt(relativeDensity);
}

/** Flow of water that the calibration points must show so that the mix flows at `mixFlow`, m³/s. Inverse of `flowOfMix`. */
export function equivalentWaterFlow(mixFlow: number, relativeDensity: number): number {
  return mixFlow * Math.sqrt(relativeDensity);
}

/** Relative deviation of each nozzle's flow from the mean of all. Limits: 5 % `alberta-606-1`, 10 % `florida-exam-guide`. */
export function deviationsFromMean(flows: readonly number[]): readonly number[] {
  const mean = flows.reduce((sum, flow) => sum + flow, 0) / flows.length;
  return flows.map(flow => flow / mean - 1);
}

/** Width of a fan at a height below the nozzle, 2·h·tan(a/2), m; the angle in radians. Source: `geometry`. */
export function fanWidth(height: number, angle: number): number {
  return 2 * height * Math.tan(angle / 2);
}

/** Overlap of fans as a share of the spacing: 1 (100 %) when the pattern is twice the spacing. Source: `boom-spacing-guide`. */
export function fanOverlap(patternWidth: number, spacing: number): number {
  return (patternWidth - spacing) / spacing;
}

// Coats, loads, passes

/** Coats needed where one pass can't carry the rate, ⌈R/R₁⌉. Source: `common-practice`. */
export function coats(rate: number, singlePassRate: number): number {
  return ceilForgiving(rate / singlePassRate);
}

/** Tank loads for a volume: how many, and what goes into the last one (same unit as the volume). */
export interface Loads {
  readonly count: number;
  readonly last: number;
}

/** Loads for a volume from a tank's usable volume, ⌈V/T⌉; the last one may be partial. Source: `pesticide-safety-text`. */
export function tankLoads(volume: number, usableTank: number): Loads {
  const count = ceilForgiving(volume / usableTank);
  return { count, last: count > 0 ? volume - (count - 1) * usableTank : 0 };
}

/** Area that one load covers, T/R, m². Source: `turf-supplier-sheet`. */
export function areaPerLoad(usableTank: number, rate: number): number {
  return usableTank / rate;
}

/** Advance between neighbouring passes, swath less overlap, m. Source: `geometry`. */
export function advance(swath: number, overlap: number): number {
  return swath - overlap;
}

/**
 * Passes needed to cover a width with an overlap between neighbours, ⌈(W − o)/(s − o)⌉. Infinity when the overlap
 * leaves no advance. Source: `geometry`.
 */
export function passes(width: number, swath: number, overlap: number): number {
  if (!(width > 0)) return Number.isNaN(width) ? Number.NaN : 0;
  if (!(swath > overlap)) return Number.POSITIVE_INFINITY;
  return Math.max(1, ceilForgiving((width - overlap) / (swath - overlap)));
}

// Dilution

/** Share of product in a mix of parts: 1 part to 4 parts water is 0.20, not 0.25. Source: `definition`. */
export function shareFromParts(productParts: number, waterParts: number): number {
  return productParts / (productParts + waterParts);
}

/** Parts of water to one part of product for a share of product in the mix. Inverse of `shareFromParts`. */
export function waterPartsFromShare(share: number): number {
  return (1 - share) / share;
}

/** What a volume of mix is made of (volumes are added: any contraction on mixing is ignored). */
export interface MixVolumes {
  readonly product: number;
  readonly water: number;
}

/** Product and dilution water in a volume of mix. Source: `definition`. */
export function mixVolumes(mix: number, share: number): MixVolumes {
  return { product: mix * share, water: mix * (1 - share) };
}

/** Rate of mix (m) from a rate of product (m) and the product's share. Source: `definition`. */
export function mixRate(productRate: number, share: number): number {
  return productRate / share;
}

/** Relative density of a mix of product and water by volume. Source: `mechanics`. */
export function mixRelativeDensity(productRelativeDensity: number, share: number): number {
  return share * productRelativeDensity + (1 - share);
}
