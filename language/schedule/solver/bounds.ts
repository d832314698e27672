/**
 * What can be shown about the objective before any search: longest paths are known from propagation; here is energy. Whatever
 * can't start before h and is followed by at least t has to be got through between h and the objective less t.
 *
 * With windows, work is got through only within them, and what has to lie in one window goes into it whole: if three bays fit
 * into a night and not four, the rest of the night is of no use.
 */
import type { Frame, Network } from './network.ts';

/** A lower bound of the objective from the bounds at the root (directed bounds as in the store). */
export function rootBound(network: Network, root: Int32Array): number {
  const { count, duration } = network;
  let best = root[2 * count]!;
  if (!network.arcs.some(arc => arc.to === count)) return best;
  const tails = longestToObjective(network);
  const frameOf = largestFrames(network);
  const consider = (tasks: ArrayLike<number>, energy: (k: number) => number, capacity: number): void => {
    const loads: Load[] = [];
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      const tail = tails[i]! - duration[i]!;
      if (tail > NO_PATH / 2) loads.push({ task: i, head: root[2 * i]!, tail, energy: energy(k) });
    }
    if (loads.length > 0) best = Math.max(best, energyBound(loads, capacity, stretches(loads, capacity, frameOf)));
  };
  for (const { tasks, demand, capacity } of network.pools) {
    consider(tasks, k => duration[tasks[k]!]! * demand[k]!, capacity);
  }
  for (const tasks of network.cliques) consider(tasks, k => duration[tasks[k]!]!, 1);
  return best;
}

interface Load {
  readonly task: number;
  readonly head: number;
  readonly tail: number;
  readonly energy: number;
}

/** Greatest, over all thresholds of head and tail, of: head + time the energy takes + tail. */
function energyBound(loads: readonly Load[], capacity: number, windows: Stretches | undefined): number {
  const byTail = [...loads].sort((a, b) => b.tail - a.tail);
  let best = -Infinity;
  for (const head of new Set(loads.map(load => load.head))) {
    let energy = 0;
    let number = 0;
    for (const load of byTail) {
      if (load.head < head) continue;
      energy += load.energy;
      number++;
      best = Math.max(best, finish(head, energy, capacity, windows, number === loads.length) + load.tail);
    }
  }
  return best;
}

/** A stretch of time in which some of the work may be done, and the most energy of it that fits in. */
interface Stretch {
  readonly start: number;
  readonly end: number;
  most: number;
}

interface Stretches {
  readonly list: readonly Stretch[];
  /** Sums of energy that whole pieces of the work can have. */
  readonly sums: Sums;
}

/** When energy is got through that starts at `from`; `whole` when it is all the work there is. */
function finish(
  from: number,
  energy: number,
  capacity: number,
  windows: Stretches | undefined,
  whole: boolean,
): number {
  if (windows === undefined) return from + Math.ceil(energy / capacity);
  let left = energy;
  for (const { start, end, most } of windows.list) {
    const begin = Math.max(start, from);
    if (begin >= end) continue;
    const room = Math.min(most, (end - begin) * capacity);
    if (left <= room) return begin + Math.ceil((whole ? windows.sums.atLeast(left) : left) / capacity);
    left -= room;
  }
  return (windows.list.at(-1)?.end ?? from) + Math.ceil(left / capacity);
}

/** The largest frame of each activity, undefined where it has none. */
function largestFrames({ count, frames }: Network): readonly (Frame | undefined)[] {
  const result: (Frame | undefined)[] = new Array(count).fill(undefined);
  for (const frame of frames) {
    for (const i of frame.members) {
      const known = result[i];
      if (known === undefined || known.members.length < frame.members.length) result[i] = frame;
    }
  }
  return result;
}

/** When the loads can be worked on; undefined when one of them may be at any time. */
function stretches(
  loads: readonly Load[],
  capacity: number,
  frameOf: readonly (Frame | undefined)[],
): Stretches | undefined {
  // What lies in one frame lies in one window: it is one piece.
  const pieces = new Map<Frame, { energy: number; head: number; tail: number }>();
  for (const { task, energy } of loads) {
    const frame = frameOf[task];
    if (frame === undefined) return undefined;
    const m = frame.members.indexOf(task);
    const piece = pieces.get(frame);
    pieces.set(frame, {
      energy: (piece?.energy ?? 0) + energy,
      head: Math.min(piece?.head ?? Infinity, frame.head[m]!),
      tail: Math.min(piece?.tail ?? Infinity, frame.tail[m]!),
    });
  }
  const all: Stretch[] = [];
  const known = new Set<string>();
  for (const [{ starts, ends }, { head, tail }] of pieces) {
    for (let k = 0; k < starts.length; k++) {
      const [start, end] = [starts[k]! + head, ends[k]! - tail];
      const key = `${start} ${end}`;
      if (!known.has(key)) all.push({ start, end, most: 0 });
      known.add(key);
    }
  }
  all.sort((a, b) => a.start - b.start || a.end - b.end);
  const list: Stretch[] = [];
  for (const each of all) {
    const last = list.at(-1);
    if (last === undefined || each.start > last.end) list.push(each);
    else if (each.end > last.end) list[list.length - 1] = { start: last.start, end: each.end, most: 0 };
  }
  const energies = [...pieces.values()].map(piece => piece.energy);
  const longest = Math.max(0, ...list.map(each => each.end - each.start));
  const sums = new Sums(energies, longest * capacity);
  for (const each of list) each.most = sums.atMost((each.end - each.start) * capacity);
  return { list, sums };
}

/** More than this is not worked out; then every sum counts as possible. */
const LARGEST_SUM = 1 << 20;

/** The sums that some of a list of whole numbers can have, up to a limit. */
class Sums {
  /** One bit for each sum. */
  private readonly bits: Uint32Array;
  private readonly limit: number;

  constructor(numbers: readonly number[], limit: number) {
    this.limit = limit > LARGEST_SUM ? -1 : limit;
    this.bits = new Uint32Array(Math.max(0, this.limit >> 5) + 1);
    this.bits[0] = 1;
    if (this.limit < 0) return;
    for (const number of numbers) if (number <= this.limit) this.add(number);
  }

  /** The largest possible sum that is not above `value`. */
  atMost(value: number): number {
    if (value > this.limit) return value;
    let sum = value;
    while (sum > 0 && !this.has(sum)) sum--;
    return sum;
  }

  /** The smallest possible sum that is not below `value`; `value` itself where none is known. */
  atLeast(value: number): number {
    let sum = value;
    while (sum <= this.limit && !this.has(sum)) sum++;
    return sum <= this.limit ? sum : value;
  }

  private has(sum: number): boolean {
    return ((this.bits[sum >> 5]! >>> (sum & 31)) & 1) === 1;
  }

  /** Adds, for each sum so far, the same with one number more. */
  private add(number: number): void {
    const { bits } = this;
    const words = number >> 5;
    const shift = number & 31;
    for (let w = bits.length - 1; w >= words; w--) {
      const low = bits[w - words]! << shift;
      const high = shift > 0 && w > words ? bits[w - words - 1]! >>> (32 - shift) : 0;
      bits[w] = bits[w]! | low | high;
    }
  }
}

const NO_PATH = -(2 ** 30);

/** Longest path from each activity's start to the objective. */
function longestToObjective({ count, arcs }: Network): Int32Array {
  const tails = new Int32Array(count + 1).fill(NO_PATH);
  tails[count] = 0;
  for (let round = 0, grew = true; grew && round <= count; round++) {
    grew = false;
    for (const { from, to, weight } of arcs) {
      if (tails[to]! === NO_PATH || tails[to]! + weight <= tails[from]!) continue;
      tails[from] = tails[to]! + weight;
      grew = true;
    }
  }
  return tails;
}
