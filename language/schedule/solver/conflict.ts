/**
 * What a conflict teaches: walks back from literals that can't all be true, replacing the latest by its reason, until one
 * literal of the current level is left (the first unique implication point). The negation of what remains is a clause that
 * holds for the whole search. Of each directed bound only the strongest value needed is kept, so what is learned is as general
 * as the reasons allow.
 */
import type { Literals, Store } from './store.ts';

export interface Lesson {
  /** The clause: first the literal that becomes true after going back, second one of the highest level among the others. */
  readonly literals: Int32Array;
  /** The level to go back to. */
  readonly level: number;
  /** Number of levels among the literals. */
  readonly levels: number;
}

/** How deep the reasons of a literal are followed to see whether it says nothing new. */
const REDUNDANCY_DEPTH = 24;

export class ConflictAnalysis {
  private readonly store: Store;
  private readonly onUse: (variable: number) => void;
  /** For each directed bound in the set: the value needed, and the trail entry that reached it. */
  private readonly needed: Int32Array;
  private readonly entry: Int32Array;
  private readonly inSet: Uint8Array;
  private touched: number[] = [];
  private readonly reason: Literals = [];
  private readonly pools: Literals[] = [];
  /** Number of literals in the set that became true at the level under analysis. */
  private open = 0;
  private level = 0;
  /** What following reasons has shown about trail entries, in this analysis only. */
  private shownUpTo = new Int32Array(1 << 12);
  private failedFrom = new Int32Array(1 << 12);
  private checked: number[] = [];
  private readonly levelSeen: number[] = [];
  private stamp = 0;

  constructor(store: Store, onUse: (variable: number) => void) {
    this.store = store;
    this.onUse = onUse;
    this.needed = new Int32Array(store.value.length);
    this.entry = new Int32Array(store.value.length);
    this.inSet = new Uint8Array(store.value.length);
    this.shownUpTo.fill(NOTHING);
    this.failedFrom.fill(EVERYTHING);
  }

  /** The lesson of the store's conflict; undefined when it holds at the root, so that there is no way out. */
  analyze(): Lesson | undefined {
    const { store, inSet, entry, needed, reason } = this;
    const { conflict } = store;
    this.touched = [];
    this.open = 0;
    this.level = this.highestLevel(conflict);
    if (this.level === 0) return undefined;
    for (let k = 0; k < conflict.length; k += 2) this.add(conflict[k]!, conflict[k + 1]!);
    let t = store.entries;
    for (;;) {
      let d: number;
      do {
        t--;
        d = store.entryBound[t]!;
      } while (inSet[d] === 0 || entry[d] !== t);
      if (this.open === 1) return this.lesson(d);
      inSet[d] = 0;
      this.open--;
      reason.length = 0;
      store.explainEntry(t, needed[d]!, reason);
      for (let k = 0; k < reason.length; k += 2) this.add(reason[k]!, reason[k + 1]!);
    }
  }

  private highestLevel(literals: Literals): number {
    const { store } = this;
    let highest = 0;
    for (let k = 0; k < literals.length; k += 2) {
      const t = store.entryOf(literals[k]!, literals[k + 1]!);
      if (t >= 0 && store.entryLevel[t]! > highest) highest = store.entryLevel[t]!;
    }
    return highest;
  }

  private add(d: number, v: number): void {
    const { store, inSet, entry, needed } = this;
    const t = store.entryOf(d, v);
    if (t < 0 || store.entryLevel[t] === 0) return;
    if (inSet[d] === 0) {
      inSet[d] = 1;
      this.touched.push(d);
      this.onUse(d >> 1);
      if (store.entryLevel[t] === this.level) this.open++;
    } else {
      if (v <= needed[d]!) return;
      if (store.entryLevel[entry[d]!] !== this.level && store.entryLevel[t] === this.level) this.open++;
    }
    needed[d] = v;
    entry[d] = t;
  }

  /** Reads the clause off the set; `unique` is the one literal of the level under analysis. */
  private lesson(unique: number): Lesson {
    const { store, inSet, entry, needed, touched } = this;
    const literals: number[] = [unique ^ 1, 1 - needed[unique]!];
    this.stamp++;
    let level = 0;
    let levels = 1;
    for (const d of touched) {
      if (inSet[d] === 0 || d === unique || this.isRedundant(entry[d]!, needed[d]!, 0, true)) continue;
      const own = store.entryLevel[entry[d]!]!;
      literals.push(d ^ 1, 1 - needed[d]!);
      if (this.levelSeen[own] !== this.stamp) {
        this.levelSeen[own] = this.stamp;
        levels++;
      }
      if (own > level) {
        level = own;
        const at = literals.length - 2;
        [literals[2], literals[at]] = [literals[at]!, literals[2]!];
        [literals[3], literals[at + 1]] = [literals[at + 1]!, literals[3]!];
      }
    }
    for (const d of touched) inSet[d] = 0;
    for (const t of this.checked) {
      this.shownUpTo[t] = NOTHING;
      this.failedFrom[t] = EVERYTHING;
    }
    this.checked = [];
    return { literals: Int32Array.from(literals), level, levels };
  }

  /** True when the other literals of the set make this one true, so that the clause can do without it. */
  private isRedundant(t: number, v: number, depth: number, inClause: boolean): boolean {
    const { store, inSet, needed } = this;
    if (!inClause) {
      const d = store.entryBound[t]!;
      // Only by the same entry: a later one might in turn rest on the literal under test.
      if (inSet[d] === 1 && this.entry[d] === t && needed[d]! >= v) return true;
    }
    if (store.isDecision(t) || depth >= REDUNDANCY_DEPTH) return false;
    if (t >= this.shownUpTo.length) this.growMemory(t);
    if (this.shownUpTo[t]! >= v) return true;
    if (this.failedFrom[t]! <= v) return false;
    const reason = this.pools[depth] ?? [];
    this.pools[depth] = reason;
    reason.length = 0;
    store.explainEntry(t, v, reason);
    this.checked.push(t);
    for (let k = 0; k < reason.length; k += 2) {
      const before = store.entryOf(reason[k]!, reason[k + 1]!);
      if (before < 0 || store.entryLevel[before] === 0) continue;
      if (this.isRedundant(before, reason[k + 1]!, depth + 1, false)) continue;
      this.failedFrom[t] = v;
      return false;
    }
    this.shownUpTo[t] = v;
    return true;
  }

  private growMemory(t: number): void {
    const size = Math.max(t + 1, 2 * this.shownUpTo.length);
    const shown = new Int32Array(size).fill(NOTHING);
    shown.set(this.shownUpTo);
    const failed = new Int32Array(size).fill(EVERYTHING);
    failed.set(this.failedFrom);
    this.shownUpTo = shown;
    this.failedFrom = failed;
  }
}

const NOTHING = -(2 ** 31);
const EVERYTHING = 2 ** 31 - 1;
