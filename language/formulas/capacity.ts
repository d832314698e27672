/**
 * Field capacity: how much area a machine does in a time. SI: m²/s, m/s, m.
 * The customary forms with /10 and /8.25 are these formulas (tests/published).
 */

/** Field capacity, C = v·w·E, m²/s; E is the field efficiency, 0 to 1. Source: `asae-ep496`. */
export function fieldCapacity(speed: number, width: number, efficiency: number): number {
  return speed * width * efficiency;
}

/** Time of work on one area, as a path shows it. Lengths in m, times in s, area in m². */
export interface WorkedPath {
  readonly area: number;
  readonly width: number;
  readonly speed: number;
  readonly straightLength: number;
  readonly turnTime: number;
  readonly serviceTime: number;
}

/** All the time a path takes, s: straights at working speed, turns, refills and other service. */
export function pathTime(path: WorkedPath): number {
  return path.straightLength / path.speed + path.turnTime + path.serviceTime;
}

/**
 * Field efficiency of a path, E = (A/(w·v)) / time: the least time in which the width could do the area, over the time
 * taken. Source: `field-efficiency-definition` (useful time over total time) with `geometry`.
 */
export function pathEfficiency(path: WorkedPath): number {
  return path.area / (path.width * path.speed) / pathTime(path);
}

/**
 * Hours of work where part of each shift goes on refilling, t = A/r/(1 − refill share), s.
 * @param rate area a second while working, m²/s
 * Source: `icao-9137-2-removal`.
 */
export function productionTime(area: number, rate: number, refillShare: number): number {
  return area / rate / (1 - refillShare);
}
