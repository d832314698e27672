/**
 * Pairs of activities that can't overlap. Each pair has a variable of 0 or 1 that says which one leads. If one can't lead any
 * more, the other does; the one that leads pushes the other as a lag would.
 *
 * Having the order as a literal of its own keeps what is learned short: 'a before b' instead of times that happen to say so.
 */
import type { Network } from '../network.ts';
import type { Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

/** Columns of a row: the other activity, the literal 'this one leads', gap when it leads, gap when the other leads. */
const COLUMNS = 4;

export class Orders {
  private readonly store: Store;
  /** Rows of each activity, one a pair it is in. */
  private readonly rows: readonly Int32Array[];
  private readonly waiting: Int32Array;
  private readonly isWaiting: Uint8Array;
  private waitingSize = 0;
  /** Variable of the first pair; pair p has variable first + p. */
  private readonly first: number;
  private readonly network: Network;

  constructor(store: Store, network: Network) {
    this.store = store;
    this.network = network;
    this.first = network.count + 1;
    const rows: number[][] = Array.from({ length: network.count + 1 }, () => []);
    network.pairs.forEach(({ first, second, gapFirst, gapSecond }, p) => {
      const variable = this.first + p;
      rows[first]!.push(second, 2 * variable, gapFirst, gapSecond);
      rows[second]!.push(first, 2 * variable + 1, gapSecond, gapFirst);
    });
    this.rows = rows.map(list => Int32Array.from(list));
    this.waiting = new Int32Array(2 * (network.count + 1));
    this.isWaiting = new Uint8Array(2 * (network.count + 1));
    store.explainers[Reason.orderLag] = { explain: (a, b, _d, v, out) => this.explainLag(a, b, v, out) };
    store.explainers[Reason.orderForced] = { explain: (a, b, d, _v, out) => this.explainForced(a, b, d, out) };
  }

  /** Notes a rise of directed bound d; a decided order is propagated at once. */
  note(d: number): boolean {
    if (d >= this.waiting.length) return this.push(d);
    if (this.isWaiting[d] === 0 && this.rows[d >> 1]!.length > 0) {
      this.isWaiting[d] = 1;
      this.waiting[this.waitingSize++] = d;
    }
    return true;
  }

  get hasWaiting(): boolean {
    return this.waitingSize > 0;
  }

  forget(): void {
    while (this.waitingSize > 0) this.isWaiting[this.waiting[--this.waitingSize]!] = 0;
  }

  /** Propagates noted rises until one raises another bound. */
  propagate(): boolean {
    const { store } = this;
    while (this.waitingSize > 0 && !store.hasQueued) {
      const d = this.waiting[--this.waitingSize]!;
      this.isWaiting[d] = 0;
      if (!((d & 1) === 0 ? this.earliestRose(d >> 1) : this.latestFell(d >> 1))) return false;
    }
    return true;
  }

  private earliestRose(i: number): boolean {
    const { store } = this;
    const { value } = store;
    const rows = this.rows[i]!;
    const start = value[2 * i]!;
    for (let r = 0; r < rows.length; r += COLUMNS) {
      const j = rows[r]!;
      const leads = rows[r + 1]!;
      const after = start + rows[r + 2]!;
      const follows = leads ^ 1;
      if (after > value[2 * j]! && value[leads]! + (leads & 1) === 1) {
        if (!store.raise(2 * j, after, Reason.orderLag, 2 * i, leads)) return false;
      }
      if (after > -value[2 * j + 1]! && value[follows]! + (follows & 1) === 0) {
        if (!store.raise(follows, 1 - (follows & 1), Reason.orderForced, i, start)) return false;
      }
    }
    return true;
  }

  private latestFell(i: number): boolean {
    const { store } = this;
    const { value } = store;
    const rows = this.rows[i]!;
    const latest = -value[2 * i + 1]!;
    for (let r = 0; r < rows.length; r += COLUMNS) {
      const j = rows[r]!;
      const leads = rows[r + 1]!;
      const gap = rows[r + 3]!;
      const follows = leads ^ 1;
      if (gap - latest > value[2 * j + 1]! && value[follows]! + (follows & 1) === 1) {
        if (!store.raise(2 * j + 1, gap - latest, Reason.orderLag, 2 * i + 1, follows)) return false;
      }
      if (value[2 * j]! + gap > latest && value[leads]! + (leads & 1) === 0) {
        if (!store.raise(leads, 1 - (leads & 1), Reason.orderForced, j, value[2 * j]!)) return false;
      }
    }
    return true;
  }

  /** Pushes both activities when the order literal is true. */
  private push(leads: number): boolean {
    const { store } = this;
    const pair = this.network.pairs[(leads >> 1) - this.first];
    const { value } = store;
    if (pair === undefined || value[leads]! + (leads & 1) === 0) return true;
    const [i, j] = (leads & 1) === 0 ? [pair.first, pair.second] : [pair.second, pair.first];
    const gap = (leads & 1) === 0 ? pair.gapFirst : pair.gapSecond;
    const after = value[2 * i]! + gap;
    if (after > value[2 * j]! && !store.raise(2 * j, after, Reason.orderLag, 2 * i, leads)) return false;
    const before = value[2 * j + 1]! + gap;
    return before <= value[2 * i + 1]! || store.raise(2 * i + 1, before, Reason.orderLag, 2 * j + 1, leads);
  }

  /** `a`: the bound that pushed; `b`: the literal of the order. */
  private explainLag(a: number, b: number, v: number, out: Literals): void {
    const pair = this.network.pairs[(b >> 1) - this.first]!;
    const gap = (b & 1) === 0 ? pair.gapFirst : pair.gapSecond;
    out.push(a, v - gap, b, 1 - (b & 1));
  }

  /** `a`: the activity that can't lead as it starts at `b` or later; d: the literal that the other one leads. */
  private explainForced(a: number, b: number, d: number, out: Literals): void {
    const pair = this.network.pairs[(d >> 1) - this.first]!;
    const i = a;
    const j = pair.first === i ? pair.second : pair.first;
    const gap = pair.first === i ? pair.gapFirst : pair.gapSecond;
    // i starts at x or later and j at x + gap − 1 at the latest. Where j's root bound is enough, i's part can be weaker.
    const rootLatest = -this.store.root[2 * j + 1]!;
    const x = Math.min(b, rootLatest - gap + 1);
    out.push(2 * i, x, 2 * j + 1, 1 - x - gap);
  }
}
