/** Lengths as the reader of the job counts them: metres, or feet in a job that is shown in US units. */

export interface LengthUnit {
  readonly name: 'm' | 'ft';
  /** Metres in one. */
  readonly metres: number;
  /** Distances between round chainages. */
  readonly steps: readonly number[];
}

const units: Readonly<Record<'metric' | 'us', LengthUnit>> = {
  metric: { name: 'm', metres: 1, steps: [10, 20, 50, 100, 200, 500, 1000] },
  us: { name: 'ft', metres: 0.3048, steps: [25, 50, 100, 200, 500, 1000, 2000, 5000] },
};

export function lengthUnit({ system }: { readonly system: 'metric' | 'us' }): LengthUnit {
  return units[system];
}

/** The number by itself, to a tenth: `150`, `152.4`. */
export function inUnit(metres: number, unit: LengthUnit, digits = 1): string {
  return String(Math.round((metres / unit.metres) * 10 ** digits) / 10 ** digits + 0);
}

/** An offset as the trade says it: `L 8.5`, `R 3`, `0`. */
export function offsetText(t: number, unit: LengthUnit): string {
  const shown = inUnit(Math.abs(t), unit);
  return shown === '0' ? '0' : `${t < 0 ? 'L' : 'R'} ${shown}`;
}
