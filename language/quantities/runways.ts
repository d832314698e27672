/** Runways and friction surveys: areas, how often to survey and remove, means and published levels. */
import { type Explained, input } from '../explain/explain.ts';
import { intervalText, maintenanceFrequency } from '../friction/frequency.ts';
import { findFrictionLevels } from '../friction/levels.ts';
import { type FrictionReading, faaSegment, leastRollingMean, meanBetween } from '../friction/survey.ts';
import type { Runway, Survey } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';
import { subscript } from './deposits.ts';
import { type Context, isMissing, leaf, missing, type Quantity, quantity } from './quantity.ts';

const day = 86_400;
/** Whole days, rounded down where months are counted: the interval is the longest allowed. */
const lengthOf = { weeks: 7 * day, months: (365 / 12) * day, years: 365 * day };

export function runwayQuantities(ctx: Context, block: Runway): readonly Quantity[] {
  const path = ctx.nameOf(block);
  const owner = { path, block };
  return [
    quantity({
      path: `${path}.area`,
      label: `area of ${path}`,
      symbol: 'A',
      kind: 'area',
      formula: 'A = L · W',
      inputs: [leaf(owner, 'length', 'L'), leaf(owner, 'width', 'W')],
      compute: (length, width) => length! * width!,
      source: 'geometry',
      place: block.heading,
    }),
    quantity({
      path: `${path}.halfWidth`,
      label: `distance of the edges of ${path} from the centreline`,
      symbol: 't',
      kind: 'length',
      formula: 't = W / 2',
      inputs: [leaf(owner, 'width', 'W')],
      compute: width => width! / 2,
      source: 'geometry',
      place: block.heading,
    }),
    ...block.ends.flatMap(end => frequency(`${path}.${end.name}`, end)),
  ];
}

/** How often an end has to be surveyed and cleaned, by the published table; nothing without traffic. */
function frequency(path: string, end: Runway['ends'][number]): readonly Quantity[] {
  const { landings, landedMass, wideBodies } = end;
  const found = maintenanceFrequency({
    ...(landings && { landingsPerDay: landings.value }),
    ...(landedMass && { annualMass: landedMass.value }),
    ...(wideBodies && { wideBodyShare: wideBodies.value }),
  });
  if (!found) return [];
  const inputs = [
    leaf({ path, block: end }, 'landings', 'n'),
    leaf({ path, block: end }, 'landedMass', 'm'),
    leaf({ path, block: end }, 'wideBodies', 'k'),
  ].filter(each => !isMissing(each));
  return (['survey', 'removal'] as const).map(what =>
    withMark(
      quantity({
        path: `${path}.${what}Interval`,
        label:
          what === 'survey'
            ? `longest time between friction surveys of ${path}`
            : `longest time between rubber removals of ${path}`,
        symbol: what === 'survey' ? 't_s' : 't_r',
        kind: 'time',
        formula: `${what === 'survey' ? 't_s' : 't_r'} = row of the table`,
        inputs,
        compute: () =>
          found[what].count * lengthOf[found[what].unit] - ((found[what].count * lengthOf[found[what].unit]) % day),
        source: found.source,
        place: end.heading,
        // A table is no formula in its inputs.
        monotone: false,
        note: [intervalText(found[what]), ...found.notes].join('; '),
      }),
      found.mark,
    ),
  );
}

export function surveyQuantities(ctx: Context, block: Survey): readonly Quantity[] {
  const path = ctx.nameOf(block);
  const readings = readingsOf(block);
  const leaves = readingLeaves(path, block, readings);
  const whole: readonly [number, number] = [readings[0]?.from ?? 0, readings.at(-1)?.to ?? 0];
  const window = block.basis?.value === 'FAA' ? faaSegment : 100;
  const make = (name: string, label: string, symbol: string, formula: string, value: number | undefined): Quantity =>
    ctx.once(`${path}.${name}`, () =>
      readings.length === 0
        ? missing(`${path}.${name}`, label, { clause: `the readings of ${path} are missing`, place: block.heading })
        : quantity({
            path: `${path}.${name}`,
            label,
            symbol,
            kind: 'number',
            formula,
            inputs: leaves,
            compute: () => value ?? Number.NaN,
            source: 'definition',
            place: block.heading,
          }),
    );
  return [
    make(
      'mean',
      `mean friction of ${path}, weighted by length`,
      'μ',
      'μ = Σ μᵢ · lᵢ / Σ lᵢ',
      meanBetween(readings, ...whole),
    ),
    make(
      'least',
      `least reading of ${path}`,
      'μ_l',
      'μ_l = least μᵢ',
      Math.min(...readings.map(reading => reading.value)),
    ),
    make(
      'leastOverLength',
      `least mean of ${path} over ${block.basis?.value === 'FAA' ? '500 ft' : '100 m'}`,
      'μ_r',
      'μ_r = least rolling mean',
      leastRollingMean(readings, window)?.least,
    ),
    ...levels(path, block),
  ];
}

/** The published levels for the device, the speed and the basis of a survey. */
function levels(path: string, block: Survey): readonly Quantity[] {
  const { basis, device, speed } = block;
  if (!basis || !device || !speed || basis.value === 'TP 312') return [];
  const row = findFrictionLevels(basis.value, device.value, speed.value);
  const names = [
    ['minimum', 'minimum', 'μ_m'],
    ['maintenance', 'planning', 'μ_p'],
    ['design', 'design', 'μ_d'],
  ] as const;
  if (!row) {
    const clause = `${basis.value} has no published level for ${device.value} at this speed`;
    return names.map(([, name]) => missing(`${path}.${name}`, `${name} level`, { clause, place: speed.place }));
  }
  return names.map(([key, name, symbol]) =>
    withMark(
      quantity({
        path: `${path}.${name}`,
        label: `${name === 'planning' ? 'maintenance planning' : name} level for ${device.value}, ${row.printedSpeed}`,
        symbol,
        kind: 'number',
        formula: `${symbol} = row of the table`,
        inputs: [leaf({ path, block }, 'speed', 'v')],
        compute: () => row[key],
        source: row.source,
        place: block.heading,
        monotone: false,
      }),
      row.mark,
    ),
  );
}

function withMark(result: Quantity, mark: Explained['mark']): Quantity {
  return isMissing(result) || !mark ? result : { ...result, mark };
}

/** Each reading lasts to the next chainage; the last one as long as the survey says, else as the one before. */
export function readingsOf(block: Survey): readonly FrictionReading[] {
  const rows = (block.readings?.value ?? []).toSorted((a, b) => a.chainage - b.chainage);
  return rows.flatMap((row, i) => {
    const before = rows[i - 1];
    const last = block.stretch?.value ?? (before ? row.chainage - before.chainage : undefined);
    const to = rows[i + 1]?.chainage ?? (last === undefined ? undefined : row.chainage + last);
    return to === undefined ? [] : [{ from: row.chainage, to, value: row.friction }];
  });
}

function readingLeaves(path: string, block: Survey, readings: readonly FrictionReading[]): readonly Explained[] {
  const { readings: table } = block;
  if (!table) return [];
  const rows = table.value.toSorted((a, b) => a.chainage - b.chainage);
  return readings.map((reading, i) => {
    const row = rows[i]!;
    const given: Given<number> = {
      value: reading.value,
      text: '',
      place: row.place,
      origin: table.origin,
      literal: false,
    };
    return input(`${path}.readings.${i + 1}`, `reading ${i + 1} of ${path}`, `μ${subscript(i + 1)}`, 'number', given);
  });
}
