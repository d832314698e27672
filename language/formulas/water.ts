/**
 * Water on the pavement and water on wheels: film depth in rain, runoff, what the texture holds, tank cycles.
 * SI: m, m², m³, m³/s, s.
 */

/**
 * Water film above the texture in steady rain, Gallaway: 0.01485·MTD^0.11·L^0.43·I^0.59/S^0.42 − MTD
 * (mm, m, mm/h, m/m), m. Negative where the texture is not yet full.
 * @param textureDepth m
 * @param drainageLength length of the flow path, m
 * @param rain intensity, m/s
 * @param slope of the flow path, m/m
 * Source: `gallaway-1971`.
 */
export function rainFilmDepth(textureDepth: number, drainageLength: number, rain: number, slope: number): number {
  const texture = textureDepth * 1000;
  const intensity = rain * 1000 * 3600;
  return (0.01485 * texture ** 0.11 * drainageLength ** 0.43 * intensity ** 0.59) / slope ** 0.42 / 1000 - textureDepth;
}

/** The same in its US form, 0.00338·MTD^0.11·L^0.43·I^0.59/S^0.42 − MTD (in, ft, in/h): a check. Source: `gallaway-1971`. */
export function rainFilmDepthUs(textureDepth: number, drainageLength: number, rain: number, slope: number): number {
  const texture = textureDepth / 0.0254;
  const intensity = (rain / 0.0254) * 3600;
  const length = drainageLength / 0.3048;
  return ((0.00338 * texture ** 0.11 * length ** 0.43 * intensity ** 0.59) / slope ** 0.42) * 0.0254 - textureDepth;
}

/** Volume of a depth of water on an area, m³: 10 mm on 2.16 ha is 216 m³. Source: `definition`. */
export function waterVolume(depth: number, area: number): number {
  return depth * area;
}

/** Peak runoff of the rational method, Q = C·i·A, m³/s, rain in m/s. Source: `rational-method`. */
export function peakRunoff(coefficient: number, rain: number, area: number): number {
  return coefficient * rain * area;
}

/** Most water that the texture can hold, about MTD × area, m³. Source: `geometry`. */
export function textureStorage(textureDepth: number, area: number): number {
  return textureDepth * area;
}

/** Where applied water went, in any one unit. */
export interface WaterFate {
  readonly applied: number;
  readonly evaporated: number;
  readonly retained: number;
  readonly trackedOff: number;
}

/** Water left to collect: applied − evaporated − retained − tracked off, never below 0. Source: `mechanics`. */
export function runoffToCollect(fate: WaterFate): number {
  return Math.max(0, fate.applied - fate.evaporated - fate.retained - fate.trackedOff);
}

/** Share of the applied water that was recovered. Source: `definition`. */
export function recoveredShare(collected: number, applied: number): number {
  return collected / applied;
}

/** Fall across a path at a crossfall, m: 22.5 m at 1.5 % falls 0.34 m. Source: `geometry`. */
export function crossfallDrop(path: number, crossfall: number): number {
  return path * crossfall;
}

/** How a reader takes the distance of the shuttle formula; its sources disagree, so it must be said. */
export type ShuttleDistance = 'one way' | 'round trip';

/**
 * Travel time of a tanker's whole trip there and back, s. The formula is T = 0.65 + 1.7·D (min, miles; 35 mph with
 * allowance for acceleration).
 * @param distance m: the way there and back if `reading` is 'round trip', one way if it is 'one way' (the formula is
 * then taken once for each direction, so starting and stopping count twice)
 * Source: `shuttle-formula`.
 */
export function shuttleTravelTime(distance: number, reading: ShuttleDistance): number {
  const minutes = 0.65 + 1.7 * (distance / 1609.344);
  return 60 * minutes * (reading === 'one way' ? 2 : 1);
}

/** One tanker's cycle: volumes in m³, times in s. `usable` is what leaves the tank each trip. */
export interface TankCycle {
  readonly usable: number;
  readonly fillTime: number;
  readonly dumpTime: number;
  readonly travelTime: number;
}

/** Share of a tank that gets out of it in a shuttle: 10 % stays. Source: `shuttle-formula`. */
export const shuttleUsableShare = 0.9;

/** Mean delivery of one tanker, usable volume over fill + dump + travel, m³/s. Source: `shuttle-formula`. */
export function shuttleDelivery(cycle: TankCycle): number {
  return cycle.usable / (cycle.fillTime + cycle.dumpTime + cycle.travelTime);
}

/** Time a tank lasts at a flow, s. Source: `mechanics`. */
export function tankTime(usableTank: number, flow: number): number {
  return usableTank / flow;
}
