/**
 * Published friction levels, by authority, device and test speed, each row with how well it is verified.
 *
 * The levels hold for wet pavement with the device's own water film, at the stated speed, for that device only:
 * values of one device or speed must not be equated with another's (`icao-annex-14-friction`). The bands used to report
 * braking action in winter are another scale and are deliberately absent. Device names stand here because limits are
 * published per device.
 */
import type { Mark, SourceId } from '../sources/sources.ts';

/** Whose levels, by the names that a spec uses. TP 312 has levels without rows: see `evaluateTransportCanada`. */
export type FrictionBasis = 'FAA' | 'ICAO' | 'CAP 683';

/** Devices that a table has a row for, as the tables name them. */
export const frictionDevices = [
  'Mu Meter',
  'Skiddometer BV-11',
  'Surface Friction Tester',
  'Runway Friction Tester',
  'Safegate',
  'GripTester',
  'Tatra',
  'RUNAR',
] as const;
export type FrictionDevice = (typeof frictionDevices)[number];

/** One row: the three levels of a device at a speed. Values are coefficients, without tolerance. */
export interface FrictionLevels {
  readonly basis: FrictionBasis;
  readonly device: FrictionDevice;
  /** Test speed, m/s. */
  readonly speed: number;
  /** The speed as the table prints it. */
  readonly printedSpeed: string;
  /** Water film, m. */
  readonly waterDepth: number;
  readonly minimum: number;
  readonly maintenance: number;
  /** Design level of new surfaces. */
  readonly design: number;
  readonly source: SourceId;
  readonly mark: Mark;
  /** A disagreement or limit the reader must know. */
  readonly note?: string;
}

const metresPerSecondPerMph = 0.44704;
const rftNote =
  'The tables remembered disagree: 0.72 in the FAA one, 0.74 in the ICAO one. Each authority keeps its own value.';

/** All rows known. */
export const frictionLevels: readonly FrictionLevels[] = [...faaRows(), ...icaoRows(), ...caaUkRows()];

/** Relative difference up to which a test speed counts as the row's: 40 mph and 65 km/h are the same row. */
export const speedTolerance = 0.02;

/** The row for a device at a speed (m/s), or `undefined`: no row means no published level, not a pass. */
export function findFrictionLevels(
  basis: FrictionBasis,
  device: FrictionDevice,
  speed: number,
): FrictionLevels | undefined {
  return frictionLevels.find(
    row =>
      row.basis === basis && row.device === device && Math.abs(speed - row.speed) <= speedTolerance * row.speed + 1e-9,
  );
}

type Triple = readonly [minimum: number, maintenance: number, design: number];

/** FAA AC 150/5320-12C Table 3-2: 40 and 60 mph, 1 mm of water. */
function faaRows(): FrictionLevels[] {
  const secondHand = 'published, second hand';
  const memory = 'from memory';
  const table: readonly [FrictionDevice, Triple, Triple, Mark, string?][] = [
    ['Mu Meter', [0.42, 0.52, 0.72], [0.26, 0.38, 0.66], memory],
    ['Runway Friction Tester', [0.5, 0.6, 0.82], [0.41, 0.54, 0.72], memory, rftNote],
    ['Skiddometer BV-11', [0.5, 0.6, 0.82], [0.34, 0.47, 0.74], secondHand],
    ['Surface Friction Tester', [0.5, 0.6, 0.82], [0.34, 0.47, 0.74], secondHand],
    ['Safegate', [0.5, 0.6, 0.82], [0.34, 0.47, 0.74], memory],
    ['GripTester', [0.43, 0.53, 0.74], [0.24, 0.36, 0.64], memory],
    ['Tatra', [0.48, 0.57, 0.76], [0.42, 0.52, 0.67], memory],
    ['RUNAR', [0.45, 0.52, 0.69], [0.32, 0.42, 0.63], memory],
  ];
  return table.flatMap(([device, slow, fast, mark, note]) => [
    faaRow(device, 40, slow, mark),
    faaRow(device, 60, fast, mark, note),
  ]);
}

function faaRow(device: FrictionDevice, mph: number, levels: Triple, mark: Mark, note?: string): FrictionLevels {
  const speed = mph * metresPerSecondPerMph;
  return row('FAA', device, speed, `${mph} mph`, 0.001, levels, 'faa-12c-friction-levels', mark, note);
}

/** ICAO Annex 14 Attachment A and Doc 9137 Part 2: 65 and 95 km/h, 1 mm of water. */
function icaoRows(): FrictionLevels[] {
  const memory = 'from memory';
  const table: readonly [FrictionDevice, Triple, Triple, Mark, string?][] = [
    ['Mu Meter', [0.42, 0.52, 0.72], [0.26, 0.38, 0.66], memory],
    ['Skiddometer BV-11', [0.5, 0.6, 0.82], [0.34, 0.47, 0.74], 'published, second hand'],
    ['Surface Friction Tester', [0.5, 0.6, 0.82], [0.34, 0.47, 0.74], memory],
    ['Runway Friction Tester', [0.5, 0.6, 0.82], [0.41, 0.54, 0.74], memory, rftNote],
    ['Tatra', [0.48, 0.57, 0.76], [0.42, 0.52, 0.67], memory],
    ['RUNAR', [0.45, 0.52, 0.69], [0.32, 0.42, 0.63], memory],
    ['GripTester', [0.43, 0.53, 0.74], [0.24, 0.36, 0.64], memory],
  ];
  return table.flatMap(([device, slow, fast, mark, note]) => [
    icaoRow(device, 65, slow, mark),
    icaoRow(device, 95, fast, mark, note),
  ]);
}

function icaoRow(device: FrictionDevice, kmh: number, levels: Triple, mark: Mark, note?: string): FrictionLevels {
  return row('ICAO', device, kmh / 3.6, `${kmh} km/h`, 0.001, levels, 'icao-friction-levels', mark, note);
}

/** UK CAP 683: 65 km/h, each device with its own water depth. */
function caaUkRows(): FrictionLevels[] {
  const note = 'An older edition has an error in its table; check the edition in force.';
  const mark6 = `For the Mk 6 of the device. ${note}`;
  const memory = 'from memory';
  return [
    row('CAP 683', 'Mu Meter', 65 / 3.6, '65 km/h', 0.0005, [0.5, 0.57, 0.72], 'caa-cap-683', memory, mark6),
    row('CAP 683', 'GripTester', 65 / 3.6, '65 km/h', 0.00025, [0.55, 0.63, 0.8], 'caa-cap-683', memory, note),
  ];
}

function row(
  basis: FrictionBasis,
  device: FrictionDevice,
  speed: number,
  printedSpeed: string,
  waterDepth: number,
  [minimum, maintenance, design]: Triple,
  source: SourceId,
  mark: Mark,
  note?: string,
): FrictionLevels {
  const levels = { basis, device, speed, printedSpeed, waterDepth, minimum, maintenance, design, source, mark };
  return note === undefined ? levels : { ...levels, note };
}
