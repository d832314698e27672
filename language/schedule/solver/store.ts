/**
 * The bounds of all variables, and the trail of how they came about.
 *
 * A variable x has two *directed bounds*: 2x is its lower bound, 2x + 1 its upper bound negated, so both only ever rise.
 * A *literal* (d, v) says that directed bound d is at least v; it is false exactly when (d ^ 1, 1 − v) is true. Starts of
 * activities and the order of two activities (a variable of 0 or 1) are treated alike, and no literal needs a variable of
 * its own. Each entry of the trail carries its reason: a kind, and two numbers that the explainer of that kind reads.
 */

/** What raised a bound. The number selects the explainer. */
export const Reason = {
  /** Holds for the whole search, or was decided: needs no explanation. */
  none: 0,
  lag: 1,
  clause: 2,
  stored: 3,
  orderLag: 4,
  orderForced: 5,
  frame: 6,
} as const;

/** Literals as d, v, d, v, …; a growing list that is reused. */
export type Literals = number[];

/** Says which literals, true before, made (d, v) true. `a` and `b` are what was given with the reason. */
export interface Explainer {
  explain(a: number, b: number, d: number, v: number, out: Literals): void;
}

export class Store {
  /** Current value of each directed bound. */
  readonly value: Int32Array;
  /** Values that hold for the whole search. */
  readonly root: Int32Array;
  /** Latest trail entry of each directed bound, −1 for none. */
  readonly last: Int32Array;
  readonly explainers: Explainer[] = [];

  /** The trail, one array a column. */
  entryBound: Int32Array;
  entryNew: Int32Array;
  entryOld: Int32Array;
  entryPrevious: Int32Array;
  entryLevel: Int32Array;
  entryKind: Int8Array;
  entryA: Int32Array;
  entryB: Int32Array;
  entries = 0;

  /** Decision level; level 0 holds for the whole search. */
  level = 0;
  private readonly levelEntries: number[] = [0];
  private readonly levelStored: number[] = [0];

  /** Directed bounds that rose and have not been propagated yet. */
  readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private queueHead = 0;
  private queueSize = 0;

  /** After a failure: literals that are true but can't all be. */
  readonly conflict: Literals = [];

  /** Explanations worked out at the moment of propagation, each as its length and its literals. */
  private storage = new Int32Array(1 << 14);
  private stored = 0;

  constructor(lower: Int32Array, upper: Int32Array) {
    const size = 2 * lower.length;
    this.value = new Int32Array(size);
    for (let x = 0; x < lower.length; x++) {
      this.value[2 * x] = lower[x]!;
      this.value[2 * x + 1] = -upper[x]!;
    }
    this.root = this.value.slice();
    this.last = new Int32Array(size).fill(-1);
    this.queue = new Int32Array(size);
    this.queued = new Uint8Array(size);
    const room = 1 << 12;
    this.entryBound = new Int32Array(room);
    this.entryNew = new Int32Array(room);
    this.entryOld = new Int32Array(room);
    this.entryPrevious = new Int32Array(room);
    this.entryLevel = new Int32Array(room);
    this.entryKind = new Int8Array(room);
    this.entryA = new Int32Array(room);
    this.entryB = new Int32Array(room);
    this.explainers[Reason.stored] = { explain: (a, _b, _d, _v, out) => this.readStored(a, out) };
  }

  /** First entry of a level above the root. */
  firstEntry(level: number): number {
    return this.levelEntries[level]!;
  }

  /** Makes (d, v) true. False when it is false already; then `conflict` says why. */
  raise(d: number, v: number, kind: number, a: number, b: number): boolean {
    const value = this.value;
    const old = value[d]!;
    if (v <= old) return true;
    if (value[d ^ 1]! >= 1 - v) {
      const conflict = this.conflict;
      conflict.length = 0;
      conflict.push(d ^ 1, 1 - v);
      if (kind !== Reason.none) this.explainers[kind]!.explain(a, b, d, v, conflict);
      return false;
    }
    if (this.entries === this.entryBound.length) this.growTrail();
    const t = this.entries++;
    this.entryBound[t] = d;
    this.entryNew[t] = v;
    this.entryOld[t] = old;
    this.entryPrevious[t] = this.last[d]!;
    this.entryLevel[t] = this.level;
    this.entryKind[t] = kind;
    this.entryA[t] = a;
    this.entryB[t] = b;
    this.last[d] = t;
    value[d] = v;
    if (this.queued[d] === 0) this.enqueue(d);
    return true;
  }

  /** Opens a level with the decision (d, v), which must be neither true nor false. */
  decide(d: number, v: number): void {
    this.level++;
    this.levelEntries[this.level] = this.entries;
    this.levelStored[this.level] = this.stored;
    this.raise(d, v, Reason.none, 0, 0);
  }

  /** Goes back to a level; everything above it is undone. */
  backTo(level: number): void {
    if (this.level <= level) return;
    const first = this.levelEntries[level + 1]!;
    const { value, last, entryBound, entryOld, entryPrevious } = this;
    for (let t = this.entries - 1; t >= first; t--) {
      const d = entryBound[t]!;
      value[d] = entryOld[t]!;
      last[d] = entryPrevious[t]!;
    }
    this.entries = first;
    this.stored = this.levelStored[level + 1]!;
    this.level = level;
  }

  /** Keeps what holds now for the whole search. Call at level 0 once all is propagated. */
  keepRoot(): void {
    this.root.set(this.value);
    // Entries of level 0 need no explaining, so they go; bounds start afresh from the new root.
    for (let t = this.entries - 1; t >= 0; t--) this.last[this.entryBound[t]!] = -1;
    this.entries = 0;
    this.stored = 0;
  }

  /** The entry that first made (d, v) true; −1 when it has been true from the root. */
  entryOf(d: number, v: number): number {
    const { entryOld, entryPrevious } = this;
    let t = this.last[d]!;
    while (t >= 0 && entryOld[t]! >= v) t = entryPrevious[t]!;
    return t;
  }

  /** Appends the literals that made (d, v) true by entry t. */
  explainEntry(t: number, v: number, out: Literals): void {
    this.explainers[this.entryKind[t]!]!.explain(this.entryA[t]!, this.entryB[t]!, this.entryBound[t]!, v, out);
  }

  isDecision(t: number): boolean {
    return this.entryKind[t] === Reason.none;
  }

  /** Puts an explanation by until its level is undone; the number goes with Reason.stored. */
  store(literals: Literals): number {
    const at = this.stored;
    const end = at + literals.length + 1;
    if (end > this.storage.length) {
      const larger = new Int32Array(Math.max(end, 2 * this.storage.length));
      larger.set(this.storage);
      this.storage = larger;
    }
    this.storage[at] = literals.length;
    for (let k = 0; k < literals.length; k++) this.storage[at + 1 + k] = literals[k]!;
    this.stored = end;
    return at;
  }

  enqueue(d: number): void {
    this.queued[d] = 1;
    let at = this.queueHead + this.queueSize++;
    if (at >= this.queue.length) at -= this.queue.length;
    this.queue[at] = d;
  }

  /** The next directed bound to propagate, −1 when there is none. */
  dequeue(): number {
    if (this.queueSize === 0) return -1;
    const d = this.queue[this.queueHead]!;
    if (++this.queueHead === this.queue.length) this.queueHead = 0;
    this.queueSize--;
    this.queued[d] = 0;
    return d;
  }

  get hasQueued(): boolean {
    return this.queueSize > 0;
  }

  clearQueue(): void {
    while (this.dequeue() >= 0);
  }

  enqueueAll(): void {
    for (let d = 0; d < this.value.length; d++) if (this.queued[d] === 0) this.enqueue(d);
  }

  private readStored(at: number, out: Literals): void {
    const end = at + 1 + this.storage[at]!;
    for (let k = at + 1; k < end; k++) out.push(this.storage[k]!);
  }

  private growTrail(): void {
    const wider = (old: Int32Array): Int32Array<ArrayBuffer> => {
      const larger = new Int32Array(2 * old.length);
      larger.set(old);
      return larger;
    };
    this.entryBound = wider(this.entryBound);
    this.entryNew = wider(this.entryNew);
    this.entryOld = wider(this.entryOld);
    this.entryPrevious = wider(this.entryPrevious);
    this.entryLevel = wider(this.entryLevel);
    this.entryA = wider(this.entryA);
    this.entryB = wider(this.entryB);
    const kinds = new Int8Array(2 * this.entryKind.length);
    kinds.set(this.entryKind);
    this.entryKind = kinds;
  }
}
