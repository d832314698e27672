/**
 * Pools by their time-table: what must be under way whenever an activity starts within its bounds uses the pool for certain
 * from its latest start to its earliest end. Where too little is left, other activities keep clear. Each explanation names a
 * single moment and just enough of those that are under way at it (point-wise explanation, Schutt, Feydy, Stuckey, Wallace 2011).
 */
import type { Network, Pool } from '../network.ts';
import type { Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

const NEVER = 2 ** 30;

export class Timetable {
  /** Set when a bound of one of the tasks has risen. */
  dirty = true;
  readonly tasks: Int32Array;
  private readonly store: Store;
  private readonly duration: Int32Array;
  private readonly pool: Pool;
  private readonly largest: number;
  /** Certain part of each task: from, to. */
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  /** Tasks in order of from, of to, and of falling demand. The first two stay nearly sorted from call to call. */
  private readonly byFrom: Int32Array;
  private readonly byTo: Int32Array;
  private readonly byDemand: Int32Array;
  /** The profile: from each step to the next, how much is used. */
  private readonly step: Int32Array;
  private readonly used: Int32Array;
  private readonly literals: Literals = [];

  constructor(store: Store, network: Network, pool: Pool) {
    this.store = store;
    this.duration = network.duration;
    this.pool = pool;
    this.tasks = pool.tasks;
    const size = pool.tasks.length;
    this.largest = Math.max(...pool.demand);
    this.from = new Int32Array(size);
    this.to = new Int32Array(size);
    this.byFrom = Int32Array.from({ length: size }, (_, k) => k);
    this.byTo = this.byFrom.slice();
    this.byDemand = this.byFrom.slice().sort((a, b) => pool.demand[b]! - pool.demand[a]! || a - b);
    this.step = new Int32Array(2 * size + 2);
    this.used = new Int32Array(2 * size + 2);
  }

  propagate(): boolean {
    this.dirty = false;
    const { tasks, demand, capacity } = this.pool;
    const { store, duration } = this;
    const { value } = store;
    const steps = this.buildProfile();
    if (steps < 0) return false;
    let highest = 0;
    for (let s = 0; s < steps; s++) if (this.used[s]! > highest) highest = this.used[s]!;
    if (highest + this.largest <= capacity) return true;
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      const free = capacity - demand[k]!;
      if (highest <= free || value[2 * i]! === -value[2 * i + 1]!) continue;
      if (!this.pushForth(k, i, duration[i]!, free, steps) || !this.pushBack(k, i, duration[i]!, free, steps))
        return false;
    }
    return true;
  }

  /** Builds the profile of certain use and returns its number of steps; −1, with the conflict stored, when it is too high. */
  private buildProfile(): number {
    const { tasks, demand, capacity } = this.pool;
    const { value } = this.store;
    const { from, to, byFrom, byTo, step, used, duration } = this;
    let certain = 0;
    for (let k = 0; k < tasks.length; k++) {
      const i = tasks[k]!;
      const start = -value[2 * i + 1]!;
      const end = value[2 * i]! + duration[i]!;
      const some = start < end;
      from[k] = some ? start : NEVER;
      to[k] = some ? end : NEVER;
      if (some) certain++;
    }
    if (certain === 0) return 0;
    insertionSort(byFrom, from);
    insertionSort(byTo, to);
    let steps = 0;
    let level = 0;
    let starts = 0;
    let ends = 0;
    while (ends < certain) {
      let t = to[byTo[ends]!]!;
      if (starts < certain && from[byFrom[starts]!]! < t) t = from[byFrom[starts]!]!;
      while (ends < certain && to[byTo[ends]!] === t) level -= demand[byTo[ends++]!]!;
      while (starts < certain && from[byFrom[starts]!] === t) level += demand[byFrom[starts++]!]!;
      step[steps] = t;
      used[steps++] = level;
      if (level > capacity) {
        const { conflict } = this.store;
        conflict.length = 0;
        this.nameUsers(t, -1, capacity, conflict);
        return -1;
      }
    }
    return steps;
  }

  /** Moves the earliest start of task k past steps that leave it too little. */
  private pushForth(k: number, i: number, length: number, free: number, steps: number): boolean {
    const { store, step, used } = this;
    const { value } = store;
    const [ownFrom, ownTo] = [this.from[k]!, this.to[k]!];
    let start = value[2 * i]!;
    let s = this.stepAt(start, steps);
    while (s < steps - 1 && step[s]! < start + length) {
      const end = step[s + 1]!;
      if (end <= start || used[s]! <= free || (step[s]! >= ownFrom && end <= ownTo)) {
        s++;
        continue;
      }
      const t = Math.min(end, start + length) - 1;
      const reason = this.explainAt(t, k, free, 2 * i, t - length + 1);
      if (!store.raise(2 * i, t + 1, Reason.stored, reason, 0)) return false;
      start = t + 1;
    }
    return true;
  }

  /** Moves the latest start of task k before steps that leave it too little. */
  private pushBack(k: number, i: number, length: number, free: number, steps: number): boolean {
    const { store, step, used } = this;
    const { value } = store;
    const [ownFrom, ownTo] = [this.from[k]!, this.to[k]!];
    let latest = -value[2 * i + 1]!;
    let s = Math.min(this.stepAt(latest + length - 1, steps), steps - 2);
    while (s >= 0 && step[s + 1]! > latest) {
      const begin = step[s]!;
      if (begin >= latest + length || used[s]! <= free || (begin >= ownFrom && step[s + 1]! <= ownTo)) {
        s--;
        continue;
      }
      const t = Math.max(begin, latest);
      const reason = this.explainAt(t, k, free, 2 * i + 1, -t);
      if (!store.raise(2 * i + 1, length - t, Reason.stored, reason, 0)) return false;
      latest = t - length;
    }
    return true;
  }

  /** The last step that begins at `time` or before; 0 when there is none. */
  private stepAt(time: number, steps: number): number {
    const { step } = this;
    let low = 0;
    let high = steps - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (step[middle]! <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private explainAt(t: number, self: number, free: number, d: number, v: number): number {
    const { literals } = this;
    literals.length = 0;
    literals.push(d, v);
    this.nameUsers(t, self, free, literals);
    return this.store.store(literals);
  }

  /** Appends, for tasks certainly under way at t until together they exceed `limit`, why they are. */
  private nameUsers(t: number, self: number, limit: number, out: Literals): void {
    const { tasks, demand } = this.pool;
    const { value } = this.store;
    let sum = 0;
    for (let x = 0; x < tasks.length && sum <= limit; x++) {
      const k = this.byDemand[x]!;
      if (k === self) continue;
      const i = tasks[k]!;
      if (-value[2 * i + 1]! > t || value[2 * i]! + this.duration[i]! <= t) continue;
      sum += demand[k]!;
      out.push(2 * i, t - this.duration[i]! + 1, 2 * i + 1, -t);
    }
  }
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
