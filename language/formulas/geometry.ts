/**
 * Areas of deposits given by station lists, exact: edges are straight between stations, so every area is a sum of
 * trapezoids and every union is one after cutting where edges cross. Merged areas are never counted twice.
 *
 * Frame: chainage s (m) along the centreline, offset t (m) from it, right positive looking in the direction of s.
 * A station carries the *offsets* of the left and right edge, left ≤ right. Two stations at one chainage are a step.
 * A part where the edges have crossed (left > right) has no area. Parts with values that aren't finite are ignored.
 */

/** The edges of a deposit at a chainage, m; `left` and `right` are offsets, so left of the centreline is negative. */
export interface Station {
  readonly s: number;
  readonly left: number;
  readonly right: number;
}

/** A deposit: its stations in order of chainage. */
export type StationList = readonly Station[];

/** A trapezoid between two chainages with straight edges; cells of a merged area don't overlap. */
export interface Cell {
  readonly from: number;
  readonly to: number;
  readonly leftFrom: number;
  readonly rightFrom: number;
  readonly leftTo: number;
  readonly rightTo: number;
}

/** Extent of a set of cells or deposits, m. */
export interface Extent {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
}

// Making station lists

/** Stations from distances to the left and to the right of the centreline, as specs tabulate them. */
export function stationsFromDistances(rows: readonly { s: number; left: number; right: number }[]): StationList {
  return rows.map(({ s, left, right }) => ({ s, left: 0 - left, right }));
}

/** A rectangle as a station list. */
export function rectangle(from: number, to: number, left: number, right: number): StationList {
  return [
    { s: from, left, right },
    { s: to, left, right },
  ];
}

/** The same deposit seen from the other end of a runway of a length: s' = L − s, t' = −t. */
export function fromOtherEnd(stations: StationList, length: number): StationList {
  return stations.map(({ s, left, right }) => ({ s: length - s, left: 0 - right, right: 0 - left })).toReversed();
}

/** The part of a deposit between two chainages, with stations put in at the cuts. */
export function clipChainage(stations: StationList, from: number, to: number): StationList {
  return trapezoids(stations).flatMap(cell => {
    const a = Math.max(cell.from, from);
    const b = Math.min(cell.to, to);
    return a < b ? [stationOf(cell, a), stationOf(cell, b)] : [];
  });
}

// Areas

/** Area of a deposit, m². */
export function area(stations: StationList): number {
  return areaOfCells(mergedCells([stations]));
}

/** Area of several deposits together, m²; where they overlap it counts once. Source: `geometry`. */
export function unionArea(deposits: readonly StationList[]): number {
  return areaOfCells(mergedCells(deposits));
}

/** Area common to the union of one set of deposits and the union of another, m². */
export function overlapArea(deposits: readonly StationList[], others: readonly StationList[]): number {
  return Math.max(0, unionArea(deposits) + unionArea(others) - unionArea([...deposits, ...others]));
}

/** Area of deposits outside others (exclusions that are deducted), m². */
export function areaOutside(deposits: readonly StationList[], others: readonly StationList[]): number {
  return Math.max(0, unionArea([...deposits, ...others]) - unionArea(others));
}

/** Area of the union between two chainages, m². */
export function areaBetween(deposits: readonly StationList[], from: number, to: number): number {
  return areaOfCells(mergedCells(deposits.map(stations => clipChainage(stations, from, to))));
}

/** Covered bands across the runway at a chainage, left to right, disjoint. At a step both sides count. */
export function bandsAt(deposits: readonly StationList[], s: number): readonly { left: number; right: number }[] {
  const bands = deposits
    .flatMap(trapezoids)
    .filter(cell => cell.from <= s && s <= cell.to)
    .map(cell => stationOf(cell, s))
    .filter(({ left, right }) => left < right)
    .toSorted((a, b) => a.left - b.left);
  const merged: { left: number; right: number }[] = [];
  for (const { left, right } of bands) {
    const last = merged.at(-1);
    if (last && left <= last.right) last.right = Math.max(last.right, right);
    else merged.push({ left, right });
  }
  return merged;
}

/** Covered width at a chainage, m. */
export function widthAt(deposits: readonly StationList[], s: number): number {
  return bandsAt(deposits, s).reduce((sum, { left, right }) => sum + right - left, 0);
}

/** The smallest rectangle round deposits; `undefined` where there is no area. */
export function extentOf(deposits: readonly StationList[]): Extent | undefined {
  const cells = mergedCells(deposits);
  if (cells.length === 0) return undefined;
  return cells.reduce<Extent>(
    (extent, cell) => ({
      from: Math.min(extent.from, cell.from),
      to: Math.max(extent.to, cell.to),
      left: Math.min(extent.left, cell.leftFrom, cell.leftTo),
      right: Math.max(extent.right, cell.rightFrom, cell.rightTo),
    }),
    { from: Infinity, to: -Infinity, left: Infinity, right: -Infinity },
  );
}

/** Exact area of cells, m². */
export function areaOfCells(cells: readonly Cell[]): number {
  return cells.reduce((sum, c) => sum + ((c.to - c.from) * (c.rightFrom - c.leftFrom + (c.rightTo - c.leftTo))) / 2, 0);
}

// The merge

/**
 * The union of deposits as disjoint trapezoids, in order of chainage, then left to right.
 * Between neighbouring stations all edges are straight; cut there also where any two of them cross, and their order
 * no longer changes, so bands that overlap in the middle of a cut overlap along all of it.
 */
export function mergedCells(deposits: readonly StationList[]): readonly Cell[] {
  const parts = deposits.flatMap(trapezoids).toSorted((a, b) => a.from - b.from);
  const chainages = [...new Set(parts.flatMap(cell => [cell.from, cell.to]))].sort((a, b) => a - b);
  const cells: Cell[] = [];
  let active: Cell[] = [];
  let next = 0;
  for (let i = 0; i + 1 < chainages.length; i++) {
    const from = chainages[i]!;
    const to = chainages[i + 1]!;
    active = active.filter(cell => cell.to > from);
    for (; next < parts.length && parts[next]!.from <= from; next++) active.push(parts[next]!);
    cells.push(...mergeSlab(active.map(cell => cut(cell, from, to))));
  }
  return cells;
}

/** Merges trapezoids that all run from one chainage to the same other one. */
function mergeSlab(slab: readonly Cell[]): Cell[] {
  const first = slab[0];
  if (!first) return [];
  if (slab.length === 1 && first.leftFrom <= first.rightFrom && first.leftTo <= first.rightTo) return [first];
  const { from, to } = first;
  const shares = [0, ...crossings(slab), 1];
  const merged: Cell[] = [];
  for (let i = 0; i + 1 < shares.length; i++) {
    const a = from + shares[i]! * (to - from);
    const b = i + 2 === shares.length ? to : from + shares[i + 1]! * (to - from);
    if (a < b) merged.push(...mergeOrdered(slab.map(cell => cut(cell, a, b))));
  }
  return merged;
}

/** Where edges of a slab cross, as shares of its length strictly between 0 and 1, sorted. */
function crossings(slab: readonly Cell[]): number[] {
  const edges = slab.flatMap(c => [
    { start: c.leftFrom, end: c.leftTo },
    { start: c.rightFrom, end: c.rightTo },
  ]);
  const shares = new Set<number>();
  for (let i = 0; i < edges.length; i++) {
    for (let j = i + 1; j < edges.length; j++) {
      const before = edges[i]!.start - edges[j]!.start;
      const after = edges[i]!.end - edges[j]!.end;
      if (before * after < 0) shares.add(before / (before - after));
    }
  }
  return [...shares].filter(share => share > 0 && share < 1).sort((a, b) => a - b);
}

/** Merges trapezoids whose edges don't cross inside, judging by their middle. */
function mergeOrdered(slab: readonly Cell[]): Cell[] {
  const wide = slab.filter(c => c.leftFrom + c.leftTo < c.rightFrom + c.rightTo);
  const sorted = wide.toSorted((a, b) => a.leftFrom + a.leftTo - (b.leftFrom + b.leftTo));
  const merged: Cell[] = [];
  for (const cell of sorted) {
    const last = merged.at(-1);
    if (!last || cell.leftFrom + cell.leftTo > last.rightFrom + last.rightTo) merged.push(cell);
    else if (cell.rightFrom + cell.rightTo > last.rightFrom + last.rightTo) {
      merged[merged.length - 1] = { ...last, rightFrom: cell.rightFrom, rightTo: cell.rightTo };
    }
  }
  return merged;
}

/** The trapezoids between neighbouring stations; steps, backward pairs and values that aren't finite give none. */
function trapezoids(stations: StationList): Cell[] {
  const cells: Cell[] = [];
  for (let i = 0; i + 1 < stations.length; i++) {
    const a = stations[i]!;
    const b = stations[i + 1]!;
    const finite = [a.s, a.left, a.right, b.s, b.left, b.right].every(Number.isFinite);
    if (!finite || a.s >= b.s) continue;
    cells.push({ from: a.s, to: b.s, leftFrom: a.left, rightFrom: a.right, leftTo: b.left, rightTo: b.right });
  }
  return cells;
}

function cut(cell: Cell, from: number, to: number): Cell {
  if (from === cell.from && to === cell.to) return cell;
  const start = stationOf(cell, from);
  const end = stationOf(cell, to);
  return { from, to, leftFrom: start.left, rightFrom: start.right, leftTo: end.left, rightTo: end.right };
}

function stationOf(cell: Cell, s: number): Station {
  if (s === cell.from) return { s, left: cell.leftFrom, right: cell.rightFrom };
  if (s === cell.to) return { s, left: cell.leftTo, right: cell.rightTo };
  const share = (s - cell.from) / (cell.to - cell.from);
  return {
    s,
    left: cell.leftFrom + share * (cell.leftTo - cell.leftFrom),
    right: cell.rightFrom + share * (cell.rightTo - cell.rightFrom),
  };
}
