/**
 * Nozzles, jets and pumps. SI: pressure Pa (gauge), flow m³/s, diameter m, force N, power W.
 * ρ is the liquid's density (kg/m³), Cd the nozzle's discharge coefficient.
 */
import type { SourceId } from '../sources/sources.ts';

/** Density that the customary nozzle constants are worked with, kg/m³. */
export const waterDensity = 1000;

/** Standard gravity, m/s², exact. */
export const standardGravity = 9.80665;

/** Speed of a loss-free jet, v = √(2p/ρ), m/s. Source: `mechanics`. */
export function jetSpeed(pressure: number, density: number = waterDensity): number {
  return Math.sqrt((2 * pressure) / density);
}

/** Flow of a round nozzle, Q = Cd·(π/4)·d²·√(2p/ρ), m³/s. Sources: `mechanics`; `fire-service-hydraulics`. */
export function nozzleFlow(
  diameter: number,
  pressure: number,
  dischargeCoefficient: number,
  density: number = waterDensity,
): number {
  return dischargeCoefficient * (Math.PI / 4) * diameter ** 2 * jetSpeed(pressure, density);
}

/** Pressure that drives a flow through a nozzle, Pa: `nozzleFlow` solved for p. */
export function nozzlePressure(
  diameter: number,
  flow: number,
  dischargeCoefficient: number,
  density: number = waterDensity,
): number {
  return (density / 2) * (flow / (dischargeCoefficient * (Math.PI / 4) * diameter ** 2)) ** 2;
}

/** Bore that passes a flow at a pressure, m: `nozzleFlow` solved for d. */
export function nozzleDiameter(
  flow: number,
  pressure: number,
  dischargeCoefficient: number,
  density: number = waterDensity,
): number {
  return Math.sqrt(flow / (dischargeCoefficient * (Math.PI / 4) * jetSpeed(pressure, density)));
}

/**
 * Reaction of a jet, and its greatest push on a flat surface square to it, F = ρ·Q·v = Q·√(2ρp), N.
 * Losses make the true force smaller. Sources: `mechanics`; `fire-service-hydraulics`; `ishikawa-exercise`.
 */
export function jetForce(flow: number, pressure: number, density: number = waterDensity): number {
  return flow * Math.sqrt(2 * density * pressure);
}

/** Hydraulic power, P = Q·p, W. Source: `hydraulic-power-pages`; exact by `definition`. */
export function hydraulicPower(flow: number, pressure: number): number {
  return flow * pressure;
}

/** Power at the pump's shaft, hydraulic power over efficiency, W. Source: `hydraulic-power-pages`. */
export function shaftPower(flow: number, pressure: number, efficiency: number): number {
  return (flow * pressure) / efficiency;
}

/** Head of a pressure, h = p/(ρ·g), m. Sources: `mechanics`; `fire-service-hydraulics`. */
export function pressureHead(pressure: number, density: number = waterDensity): number {
  return pressure / (density * standardGravity);
}

/** The words for a class of water pressure, low to high. */
export type PressureClass =
  | 'low-pressure water cleaning'
  | 'high-pressure water cleaning'
  | 'high-pressure water jetting'
  | 'ultra-high-pressure water jetting'
  | 'pressure cleaning'
  | 'ultra-high-pressure water cleaning';

/** Which document's classes: they draw the lines differently, so a class without its edition says little. */
export type PressureClassEdition = 'sspc-nace-water-jetting' | 'sspc-nace-2002-2012' | 'wjta-practice';

/** One class: from `from` (Pa) up to the next class. */
export interface PressureClassLimit {
  readonly name: PressureClass;
  readonly from: number;
}

const psi = 6894.757293168361;

/**
 * The classes of each edition, lowest first. The documents give psi with rounded MPa; the psi govern.
 * A pressure on a line belongs to the class above, except that ultra-high begins *above* its line.
 */
export const pressureClasses: Readonly<Record<PressureClassEdition, readonly PressureClassLimit[]>> = {
  'sspc-nace-water-jetting': [
    { name: 'low-pressure water cleaning', from: 0 },
    { name: 'high-pressure water cleaning', from: 5_000 * psi },
    { name: 'high-pressure water jetting', from: 10_000 * psi },
    { name: 'ultra-high-pressure water jetting', from: 25_000 * psi },
  ],
  'sspc-nace-2002-2012': [
    { name: 'low-pressure water cleaning', from: 0 },
    { name: 'high-pressure water cleaning', from: 5_000 * psi },
    { name: 'high-pressure water jetting', from: 10_000 * psi },
    { name: 'ultra-high-pressure water jetting', from: 30_000 * psi },
  ],
  'wjta-practice': [
    { name: 'pressure cleaning', from: 0 },
    { name: 'high-pressure water cleaning', from: 5_000 * psi },
    { name: 'ultra-high-pressure water cleaning', from: 30_000 * psi },
  ],
};

/** A class of pressure and the document it is read from. */
export interface ClassifiedPressure {
  readonly name: PressureClass;
  readonly source: SourceId;
}

/** The class of a pressure (Pa) in one edition; `undefined` for a negative or missing pressure. */
export function pressureClass(pressure: number, edition: PressureClassEdition): ClassifiedPressure | undefined {
  if (!(pressure >= 0)) return undefined;
  // 34.47 MPa typed for 5,000 psi must not fall a class for its rounding.
  const slack = 1e-9 * pressure;
  const reached = pressureClasses[edition].filter(({ name, from }) =>
    name.startsWith('ultra') ? pressure > from + slack : pressure >= from - slack,
  );
  const last = reached.at(-1);
  return last && { name: last.name, source: edition };
}
