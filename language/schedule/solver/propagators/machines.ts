/**
 * Sets of activities of which no two can overlap, taken as a whole: what pairs can't see.
 *
 * - Overload: tasks that all lie between e and l, and take longer together than there is.
 * - Last: if tasks lie between e and l, and one more that starts at e or later no longer fits in by l, that one is last
 *   (edge finding, Carlier & Pinson 1989; explained as in Vilím 2005).
 * - Room: a task waits for all that lead it, one after the other, not just for the one that ends last.
 *
 * Each is done forth and back; back is the same with time mirrored.
 */
import type { Network } from '../network.ts';
import type { Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

/** Order of two tasks that the lags settle. Other values are the literal 'this one leads'. */
const ALWAYS = -1;
const NEVER = -2;

/** Larger sets are left to the pairs: they cost too much to look at as a whole. */
const MOST_TASKS = 60;

/** A way that gains something less than once in so many calls has its turn only every eighth time. */
const SELDOM = 12;

export class Machine {
  dirty = true;
  readonly tasks: Int32Array;
  private readonly store: Store;
  private readonly length: Int32Array;
  /** leads[a * size + b]: the order of tasks a and b. */
  private readonly leads: Int32Array;
  /** Earliest start and latest end of each task; mirrored: minus latest end and minus earliest start. */
  private readonly start: Int32Array;
  private readonly end: Int32Array;
  /** Tasks by start and by end, nearly sorted from call to call; one pair of orders for each direction. */
  private readonly byStart: readonly [Int32Array, Int32Array];
  private readonly byEnd: readonly [Int32Array, Int32Array];
  /** For each place in byStart the work of all tasks before it: no set that goes on downwards gains more than that. */
  private readonly before: Int32Array;
  private readonly literals: Literals = [];
  private readonly ways: readonly Way[] = [new Way(true), new Way(false)];

  constructor(store: Store, network: Network, tasks: readonly number[]) {
    this.store = store;
    this.tasks = Int32Array.from(tasks);
    this.length = Int32Array.from(tasks, i => network.duration[i]!);
    const size = tasks.length;
    this.leads = new Int32Array(size * size).fill(NEVER);
    const place = new Map(tasks.map((i, k) => [i, k]));
    network.pairs.forEach(({ first, second }, p) => {
      const [a, b] = [place.get(first), place.get(second)];
      if (a === undefined || b === undefined) return;
      const variable = network.count + 1 + p;
      this.leads[a * size + b] = 2 * variable;
      this.leads[b * size + a] = 2 * variable + 1;
    });
    for (const [first, second] of network.settled) {
      const [a, b] = [place.get(first), place.get(second)];
      if (a !== undefined && b !== undefined) this.leads[a * size + b] = ALWAYS;
    }
    this.start = new Int32Array(size);
    this.before = new Int32Array(size);
    this.end = new Int32Array(size);
    const any = Int32Array.from({ length: size }, (_, k) => k);
    this.byStart = [any.slice(), any.slice()];
    this.byEnd = [any.slice(), any.slice()];
  }

  /** Looks at the set, or at level 0 (`all`) in every way; otherwise ways that seldom show anything are used less often. */
  propagate(all: boolean): boolean {
    this.dirty = false;
    for (const way of this.ways) {
      if (!all && !way.isTurn()) continue;
      const { entries } = this.store;
      const good = way.isSweep ? this.sweep(0) && this.sweep(1) : this.room(0) && this.room(1);
      way.count(!good || this.store.entries > entries);
      if (!good) return false;
    }
    return true;
  }

  private read(mirror: 0 | 1): void {
    const { tasks, start, end, length } = this;
    const { value } = this.store;
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      if (mirror === 0) {
        start[k] = value[2 * i]!;
        end[k] = length[k]! - value[2 * i + 1]!;
      } else {
        start[k] = value[2 * i + 1]! - length[k]!;
        end[k] = -value[2 * i]!;
      }
    }
    insertionSort(this.byStart[mirror], start);
    insertionSort(this.byEnd[mirror], end);
    let sum = 0;
    for (let y = 0; y < tasks.length; y++) {
      this.before[y] = sum;
      sum += length[this.byStart[mirror][y]!]!;
    }
  }

  /** Overload and last: for each end l, widens the set from the latest start down. */
  private sweep(mirror: 0 | 1): boolean {
    this.read(mirror);
    const { start, end, length, before } = this;
    const byStart = this.byStart[mirror];
    const byEnd = this.byEnd[mirror];
    const size = length.length;
    for (let x = 0; x < size; x++) {
      const l = end[byEnd[x]!]!;
      if (x + 1 < size && end[byEnd[x + 1]!] === l) continue;
      let work = 0;
      let longest = 0;
      let other = -1;
      for (let y = size - 1; y >= 0; y--) {
        const k = byStart[y]!;
        const e = start[k]!;
        if (e >= l) continue;
        if (e + work + longest + before[y]! + length[k]! <= l) break;
        if (end[k]! <= l) {
          work += length[k]!;
          if (e + work > l) return this.overload(e, l, work, mirror);
        } else if (length[k]! > longest && e + length[k]! < l) {
          // One that could not end by l anyway is known to come last from the pairs.
          longest = length[k]!;
          other = k;
        }
        if (work > 0 && other >= 0 && e + work + longest > l && !this.last(other, e, l, mirror)) return false;
      }
    }
    return true;
  }

  /** Says that the tasks between e and l are too much, leaving out those that need not be named. */
  private overload(e: number, l: number, work: number, mirror: 0 | 1): false {
    const { start, end, length, tasks } = this;
    const { conflict } = this.store;
    conflict.length = 0;
    let spare = e + work - l - 1;
    const named: number[] = [];
    for (let k = 0; k < tasks.length; k++) {
      if (start[k]! < e || end[k]! > l) continue;
      if (length[k]! <= spare) spare -= length[k]!;
      else named.push(k);
    }
    const early = spare >> 1;
    const late = spare - early;
    for (const k of named) {
      const i = tasks[k]!;
      if (mirror === 0) conflict.push(2 * i, e - early, 2 * i + 1, length[k]! - l - late);
      else conflict.push(2 * i + 1, e - early + length[k]!, 2 * i, -l - late);
    }
    return false;
  }

  /** Task `other` comes after all tasks between e and l. */
  private last(other: number, e: number, l: number, mirror: 0 | 1): boolean {
    const { store, start, end, length, tasks, leads, literals } = this;
    const size = length.length;
    let reason = -1;
    for (let k = 0; k < size; k++) {
      if (k === other || start[k]! < e || end[k]! > l) continue;
      const literal = mirror === 0 ? leads[k * size + other]! : leads[other * size + k]!;
      if (literal === ALWAYS || (literal >= 0 && store.value[literal]! + (literal & 1) === 1)) continue;
      if (reason < 0) {
        literals.length = 0;
        this.nameStart(other, e, mirror);
        for (let j = 0; j < size; j++) {
          if (j === other || start[j]! < e || end[j]! > l) continue;
          this.nameStart(j, e, mirror);
          if (mirror === 0) literals.push(2 * tasks[j]! + 1, length[j]! - l);
          else literals.push(2 * tasks[j]!, -l);
        }
        if (literal === NEVER) {
          store.conflict.length = 0;
          store.conflict.push(...literals);
          return false;
        }
        reason = store.store(literals);
      }
      if (literal === NEVER) {
        store.conflict.length = 0;
        store.explainers[Reason.stored]!.explain(reason, 0, 0, 0, store.conflict);
        return false;
      }
      if (!store.raise(literal, 1 - (literal & 1), Reason.stored, reason, 0)) return false;
    }
    return true;
  }

  /** Each task starts when all that lead it can have been done. */
  private room(mirror: 0 | 1): boolean {
    this.read(mirror);
    const { store, start, length, before, tasks, leads, literals } = this;
    const { value } = store;
    const byStart = this.byStart[mirror];
    const size = length.length;
    for (let i = 0; i < size; i++) {
      if (value[2 * tasks[i]!]! === -value[2 * tasks[i]! + 1]!) continue;
      let work = 0;
      let best = start[i]!;
      let from = 0;
      for (let y = size - 1; y >= 0; y--) {
        const k = byStart[y]!;
        if (start[k]! + work + before[y]! + length[k]! <= best) break;
        if (k === i) continue;
        const literal = mirror === 0 ? leads[k * size + i]! : leads[i * size + k]!;
        if (literal === NEVER || (literal >= 0 && value[literal]! + (literal & 1) === 0)) continue;
        work += length[k]!;
        if (start[k]! + work <= best) continue;
        best = start[k]! + work;
        from = start[k]!;
      }
      if (best === start[i]!) continue;
      literals.length = 0;
      for (let k = 0; k < size; k++) {
        if (k === i || start[k]! < from) continue;
        const literal = mirror === 0 ? leads[k * size + i]! : leads[i * size + k]!;
        if (literal === NEVER || (literal >= 0 && value[literal]! + (literal & 1) === 0)) continue;
        if (literal >= 0) literals.push(literal, 1 - (literal & 1));
        this.nameStart(k, from, mirror);
      }
      const d = 2 * tasks[i]! + mirror;
      const v = mirror === 0 ? best : best + length[i]!;
      if (!store.raise(d, v, Reason.stored, store.store(literals), 0)) return false;
    }
    return true;
  }

  private nameStart(k: number, e: number, mirror: 0 | 1): void {
    if (mirror === 0) this.literals.push(2 * this.tasks[k]!, e);
    else this.literals.push(2 * this.tasks[k]! + 1, e + this.length[k]!);
  }
}

/** How often a way of looking at a set is worth it. Counts calls, never time, so it is the same on every run. */
class Way {
  readonly isSweep: boolean;
  private calls = 0;
  private gains = 0;
  private passed = 0;

  constructor(isSweep: boolean) {
    this.isSweep = isSweep;
  }

  isTurn(): boolean {
    return this.gains * SELDOM >= this.calls - 100 || (++this.passed & 7) === 0;
  }

  count(gained: boolean): void {
    this.calls++;
    if (gained) this.gains++;
  }
}

/** The sets worth taking as a whole in the search. */
export function machineSets(network: Network): readonly (readonly number[])[] {
  return network.cliques.filter(tasks => tasks.length <= MOST_TASKS);
}

function insertionSort(order: Int32Array, key: Int32Array): void {
  for (let x = 1; x < order.length; x++) {
    const item = order[x]!;
    const own = key[item]!;
    let y = x - 1;
    while (y >= 0 && key[order[y]!]! > own) {
      order[y + 1] = order[y]!;
      y--;
    }
    order[y + 1] = item;
  }
}
