/** Deposits: area, length, greatest width, rubber. Exact sums of trapezoids between stations. */
import { type Explained, input } from '../explain/explain.ts';
import { area, extentOf, widthAt } from '../formulas/geometry.ts';
import type { Deposit } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';
import { stationsOf } from './frame.ts';
import { type Context, leaf, missing, type Quantity, quantity } from './quantity.ts';

export function depositQuantities(ctx: Context, deposit: Deposit): readonly Quantity[] {
  return [
    depositArea(ctx, deposit),
    depositLength(ctx, deposit),
    depositWidest(ctx, deposit),
    ...(deposit.thickness ? [depositRubber(ctx, deposit)] : []),
  ];
}

/** Source: `geometry`. Two deposits that overlap are merged by the work that removes them. */
export function depositArea(ctx: Context, deposit: Deposit): Quantity {
  const name = ctx.nameOf(deposit);
  return ctx.once(`${name}.area`, () =>
    fromStations(ctx, deposit, {
      path: `${name}.area`,
      label: `area of ${name}`,
      symbol: 'A',
      kind: 'area',
      formula: 'A = Σ (s₂ − s₁) · (w₁ + w₂) / 2',
      compute: () => area(stationsOf(deposit)),
    }),
  );
}

function depositLength(ctx: Context, deposit: Deposit): Quantity {
  const name = ctx.nameOf(deposit);
  return ctx.once(`${name}.length`, () =>
    fromStations(ctx, deposit, {
      path: `${name}.length`,
      label: `length of ${name}`,
      symbol: 'L',
      kind: 'length',
      formula: 'L = greatest s − least s',
      compute: () => {
        const extent = extentOf([stationsOf(deposit)]);
        return extent ? extent.to - extent.from : Number.NaN;
      },
    }),
  );
}

function depositWidest(ctx: Context, deposit: Deposit): Quantity {
  const name = ctx.nameOf(deposit);
  return ctx.once(`${name}.widest`, () =>
    fromStations(ctx, deposit, {
      path: `${name}.widest`,
      label: `greatest width of ${name}`,
      symbol: 'W',
      kind: 'length',
      formula: 'W = greatest w',
      compute: () => {
        const stations = stationsOf(deposit);
        return Math.max(...stations.map(station => widthAt([stations], station.s)));
      },
    }),
  );
}

/** Volume of rubber, thickness over the area. */
export function depositRubber(ctx: Context, deposit: Deposit): Quantity {
  const name = ctx.nameOf(deposit);
  return ctx.once(`${name}.rubber`, () =>
    quantity({
      path: `${name}.rubber`,
      label: `rubber of ${name}`,
      symbol: 'V_r',
      kind: 'volume',
      formula: 'V_r = d · A',
      inputs: [leaf({ path: name, block: deposit }, 'thickness', 'd'), depositArea(ctx, deposit)],
      compute: (thickness, size) => thickness! * size!,
      source: 'geometry',
      place: deposit.heading,
    }),
  );
}

type FromStations = Omit<Parameters<typeof quantity>[0], 'inputs' | 'source' | 'place'>;

function fromStations(ctx: Context, deposit: Deposit, formula: FromStations): Quantity {
  const rows = stationLeaves(ctx, deposit);
  if (rows.length < 4) {
    const clause = `${deposit.stations ? 'a second row' : 'the table'} of stations of ${ctx.nameOf(deposit)} is missing`;
    return missing(formula.path, formula.label, { clause, place: deposit.heading });
  }
  return quantity({ ...formula, inputs: rows, source: 'geometry', place: deposit.heading });
}

/** Chainage and width of each station, where they stand in the text. */
export function stationLeaves(ctx: Context, deposit: Deposit): readonly Explained[] {
  const path = `${ctx.nameOf(deposit)}.stations`;
  return ctx.keep(path, () => leavesOf(path, deposit));
}

function leavesOf(path: string, deposit: Deposit): readonly Explained[] {
  const { stations } = deposit;
  if (!stations) return [];
  return stations.value.flatMap((row, i) => {
    const cell = (value: number): Given<number> => {
      return { value, text: '', place: row.place, origin: stations.origin, literal: false };
    };
    const at = `${path}.${i + 1}`;
    return [
      input(`${at}.chainage`, `chainage of station ${i + 1}`, `s${subscript(i + 1)}`, 'length', cell(row.chainage)),
      input(
        `${at}.width`,
        `width at station ${i + 1}, left and right together`,
        `w${subscript(i + 1)}`,
        'length',
        cell(row.left + row.right),
      ),
    ];
  });
}

export function subscript(n: number): string {
  return [...String(n)].map(digit => String.fromCodePoint(0x2080 + Number(digit))).join('');
}
