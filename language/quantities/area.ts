/**
 * The area of a work: the union of its deposits, merged and never counted twice, cut to `from` and `to`, less the
 * exclusions that are deducted. In the frame of the work: the end that its deposits count from.
 */
import type { Explained } from '../explain/explain.ts';
import { input } from '../explain/explain.ts';
import {
  area,
  areaOfCells,
  areaOutside,
  type Cell,
  clipChainage,
  mergedCells,
  rectangle,
  type StationList,
  unionArea,
} from '../formulas/geometry.ts';
import type { Deposit, Job, Plan } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';
import { depositArea, stationLeaves, subscript } from './deposits.ts';
import { type Frame, frameOf, inFrame, stationsOf } from './frame.ts';
import { type Context, type Gap, isMissing, leaf, missing, type Quantity, quantity } from './quantity.ts';

/** The ground of a work, or of some of its deposits. */
export interface Ground {
  readonly frame: Frame;
  /** Cut to from and to. */
  readonly deposits: readonly StationList[];
  /** Those merged, with nothing counted twice. */
  readonly cells: readonly Cell[];
  /** Exclusions that are deducted. */
  readonly excluded: readonly StationList[];
}

export function areaQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  return [
    workArea(ctx, plan),
    workLength(ctx, plan),
    workWidest(ctx, plan),
    workReach(ctx, plan, 'left'),
    workReach(ctx, plan, 'right'),
  ];
}

/** W.area. Source: `geometry`. */
export function workArea(ctx: Context, plan: Plan): Quantity {
  const name = ctx.nameOf(plan.work);
  return ctx.once(`${name}.area`, () => areaOf(ctx, plan, `${name}.area`, `area of ${name}`));
}

function areaOf(ctx: Context, plan: Plan, path: string, label: string): Quantity {
  const ground = groundOf(ctx, plan);
  if ('clause' in ground) return missing(path, label, ground);
  const parts = plan.deposits.map(deposit => depositArea(ctx, deposit));
  const whole = plan.deposits.map(deposit => inFrame(ctx.job, stationsOf(deposit), frameOf(deposit)!, ground.frame)!);
  const merged = unionArea(whole);
  const cut = areaOfCells(ground.cells);
  const left = ground.excluded.length > 0 ? areaOutside(ground.deposits, ground.excluded) : cut;

  const inputs: Quantity[] = parts.map((part, i) =>
    symbolled(part, parts.length === 1 ? 'A₁' : `A${subscript(i + 1)}`),
  );
  const terms = [inputs.map((_, i) => `A${subscript(i + 1)}`).join(' + ')];
  const subtract = (name: string, symbol: string, what: string, value: number, from: readonly Quantity[]): void => {
    terms.push(symbol);
    inputs.push(
      quantity({
        path: `${ctx.nameOf(plan.work)}.${name}`,
        label: what,
        symbol,
        kind: 'area',
        formula: `${symbol} = ${what}`,
        inputs: from,
        compute: () => value,
        source: 'geometry',
        place: plan.work.heading,
      }),
    );
  };
  // What rounding leaves is not an overlap.
  const slack = 1e-9 * merged;
  const sum = whole.reduce((total, stations) => total + area(stations), 0);
  const stations = plan.deposits.flatMap(deposit => stationLeaves(ctx, deposit));
  if (sum - merged > slack) subtract('overlap', 'A_o', 'area under more than one deposit', sum - merged, stations);
  if (merged - cut > slack) {
    const owner = { path: ctx.nameOf(plan.work), block: plan.work };
    const ends = [leaf(owner, 'from', 's_a'), leaf(owner, 'to', 's_b')].filter(end => !isMissing(end));
    subtract('cutOff', 'A_c', 'area outside from and to', merged - cut, [...ends, ...stations]);
  }
  if (cut - left > slack) {
    subtract(
      'excluded',
      'A_x',
      'area of the exclusions that are deducted',
      cut - left,
      exclusionLeaves(ctx, ground.frame),
    );
  }
  return quantity({
    path,
    label,
    symbol: 'A',
    kind: 'area',
    formula: `A = ${terms.join(' − ')}`,
    inputs,
    compute: (...values) => {
      const [added, taken] = [values.slice(0, parts.length), values.slice(parts.length)];
      return added.reduce((a, b) => a + b, 0) - taken.reduce((a, b) => a + b, 0);
    },
    source: 'geometry',
    place: plan.work.heading,
  });
}

function symbolled(part: Quantity, symbol: string): Quantity {
  return isMissing(part) ? part : { ...part, symbol };
}

/** Area of one class of build-up in a work that has several; where classes overlap the heavier one counts. */
export function classArea(
  ctx: Context,
  plan: Plan,
  name: string,
  of: readonly Deposit[],
  over: readonly Deposit[],
): Quantity {
  const path = `${ctx.nameOf(plan.work)}.${name}.area`;
  return ctx.once(path, () => {
    const label = `area of ${name} build-up`;
    const mine = groundOf(ctx, plan, of);
    const heavier = over.length > 0 ? groundOf(ctx, plan, over) : undefined;
    if ('clause' in mine) return missing(path, label, mine);
    const others = heavier && 'deposits' in heavier ? heavier.deposits : [];
    return quantity({
      path,
      label,
      symbol: 'A',
      kind: 'area',
      formula:
        over.length > 0
          ? 'A = Σ (s₂ − s₁) · (w₁ + w₂) / 2, outside heavier deposits'
          : 'A = Σ (s₂ − s₁) · (w₁ + w₂) / 2',
      inputs: [...of, ...over].map(deposit => depositArea(ctx, deposit)),
      compute: () => areaOutside(mine.deposits, [...mine.excluded, ...others]),
      source: 'geometry',
      place: plan.work.heading,
    });
  });
}

/** W.length: chainage that holds any of the deposits; gaps between deposits do not count. */
export function workLength(ctx: Context, plan: Plan): Quantity {
  return ofGround(ctx, plan, 'length', 'L', 'length', 'L = length along the runway under deposits', ({ cells }) => {
    let [sum, reached] = [0, Number.NEGATIVE_INFINITY];
    for (const { from, to } of cells) {
      sum += Math.max(0, to - Math.max(from, reached));
      reached = Math.max(reached, to);
    }
    return sum;
  });
}

/** W.widest: greatest width under deposits at any chainage. */
export function workWidest(ctx: Context, plan: Plan): Quantity {
  return ofGround(ctx, plan, 'widest', 'W', 'greatest width', 'W = greatest w', ({ cells }) => {
    // Cells that start together lie side by side, and end together.
    const widths = new Map<number, readonly [number, number]>();
    for (const { from, leftFrom, rightFrom, leftTo, rightTo } of cells) {
      const [start, end] = widths.get(from) ?? [0, 0];
      widths.set(from, [start + rightFrom - leftFrom, end + rightTo - leftTo]);
    }
    return [...widths.values()].reduce((most, [start, end]) => Math.max(most, start, end), Number.NEGATIVE_INFINITY);
  });
}

/** W.left, W.right: how far the work reaches from the centreline; negative where it lies wholly on the other side. */
export function workReach(ctx: Context, plan: Plan, side: 'left' | 'right'): Quantity {
  const symbol = side === 'left' ? 't_l' : 't_r';
  return ofGround(
    ctx,
    plan,
    side,
    symbol,
    `reach to the ${side} of the centreline`,
    `${symbol} = greatest offset to the ${side}`,
    ({ cells }) =>
      cells.reduce(
        (most, { leftFrom, leftTo, rightFrom, rightTo }) =>
          side === 'left' ? Math.max(most, 0 - leftFrom, 0 - leftTo) : Math.max(most, rightFrom, rightTo),
        Number.NEGATIVE_INFINITY,
      ),
  );
}

function ofGround(
  ctx: Context,
  plan: Plan,
  name: string,
  symbol: string,
  label: string,
  formula: string,
  compute: (ground: Ground) => number,
): Quantity {
  const work = ctx.nameOf(plan.work);
  const path = `${work}.${name}`;
  return ctx.once(path, () => {
    const ground = groundOf(ctx, plan);
    const full = `${label} of ${work}`;
    if ('clause' in ground) return missing(path, full, ground);
    return quantity({
      path,
      label: full,
      symbol,
      kind: 'length',
      formula,
      inputs: [
        ...plan.deposits.flatMap(deposit => stationLeaves(ctx, deposit)),
        ...[
          leaf({ path: work, block: plan.work }, 'from', 's_a'),
          leaf({ path: work, block: plan.work }, 'to', 's_b'),
        ].filter(end => !isMissing(end)),
      ],
      compute: () => compute(ground),
      source: 'geometry',
      place: plan.work.heading,
    });
  });
}

/** The ground of a plan, or of some of its deposits, in the frame of its first one; or what it takes to know it. */
export function groundOf(ctx: Context, plan: Plan, only: readonly Deposit[] = plan.deposits): Ground | Gap {
  const key = `ground ${[plan.work, ...only].map(block => block.id).join(' ')}`;
  return ctx.keep(key, () => groundIn(ctx.job, plan, only));
}

function groundIn(job: Job, plan: Plan, only: readonly Deposit[]): Ground | Gap {
  const { work } = plan;
  const first = plan.deposits[0];
  if (!first) return { clause: `the deposits that ${work.name} removes are missing`, place: work.heading };
  const frame = frameOf(first);
  if (!frame) return { clause: `the runway and end of ${first.name} are missing`, place: first.heading };
  const deposits: StationList[] = [];
  for (const deposit of only) {
    const on = frameOf(deposit);
    if (!on) return { clause: `the runway and end of ${deposit.name} are missing`, place: deposit.heading };
    if (!deposit.stations)
      return { clause: `the table of stations of ${deposit.name} is missing`, place: deposit.heading };
    if (on.runway.id !== frame.runway.id) {
      return { clause: `${first.name} and ${deposit.name} lie on different runways`, place: work.heading };
    }
    const stations = inFrame(job, stationsOf(deposit), on, frame);
    if (!stations) return { clause: `the length of ${frame.runway.name} is missing`, place: work.heading };
    deposits.push(stations);
  }
  const from = work.from?.value ?? Number.NEGATIVE_INFINITY;
  const to = work.to?.value ?? Number.POSITIVE_INFINITY;
  const cut = work.from || work.to ? deposits.map(stations => clipChainage(stations, from, to)) : deposits;
  return { frame, deposits: cut, cells: mergedCells(cut), excluded: excludedIn(job, frame) };
}

/** Rectangles of the exclusions that are deducted on a runway, in a frame. */
export function excludedIn(job: Job, frame: Frame): readonly StationList[] {
  return job.blocks.exclusions.flatMap(exclusion => {
    const on = frameOf(exclusion);
    if (!exclusion.deducted?.value || !on || on.runway.id !== frame.runway.id) return [];
    return (exclusion.stations?.value ?? []).map(
      row => inFrame(job, rectangle(row.from, row.to, row.left, row.right), on, frame) ?? [],
    );
  });
}

function exclusionLeaves(ctx: Context, frame: Frame): readonly Explained[] {
  return ctx.job.blocks.exclusions.flatMap(exclusion => {
    if (!exclusion.deducted?.value || frameOf(exclusion)?.runway.id !== frame.runway.id) return [];
    const { stations } = exclusion;
    return (stations?.value ?? []).map((row, i) => {
      const given: Given<number> = {
        value: Math.max(0, row.to - row.from) * Math.max(0, row.right - row.left),
        text: '',
        place: row.place,
        origin: stations!.origin,
        literal: false,
      };
      const path = `${ctx.nameOf(exclusion)}.stations.${i + 1}`;
      return input(path, `rectangle ${i + 1} of ${ctx.nameOf(exclusion)}`, `x${subscript(i + 1)}`, 'area', given);
    });
  });
}
