/**
 * Learned clauses: of their literals at least one is true. Each clause watches two of its literals that are not false; when one
 * becomes false it looks for another, and when there is none the other watched literal has to be true.
 */
import type { Explainer, Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

export interface Clause {
  /** d, v, d, v, … The first two literals are the watched ones. */
  readonly literals: Int32Array;
  /** How much the clause has helped lately. */
  activity: number;
  /** Number of decision levels among its literals when it was learned: fewer is better. */
  readonly levels: number;
}

/** A watch: clause, value at which the watched literal becomes false, and another literal that may make the clause true. */
const COLUMNS = 4;

export class Clauses implements Explainer {
  private readonly store: Store;
  private clauses: Clause[] = [];
  private readonly watches: number[][];
  private increment = 1;
  private limit: number;

  constructor(store: Store, limit: number) {
    this.store = store;
    this.limit = limit;
    this.watches = Array.from({ length: store.value.length }, () => []);
    store.explainers[Reason.clause] = this;
  }

  /**
   * Learns a clause whose first literal is about to become true and whose second has the highest level of the others.
   * False when the first literal is false as well.
   */
  learn(literals: Int32Array, levels: number): boolean {
    if (literals.length === 2) return this.store.raise(literals[0]!, literals[1]!, Reason.none, 0, 0);
    const index = this.clauses.length;
    this.clauses.push({ literals, activity: this.increment, levels });
    this.watch(index, 0);
    this.watch(index, 2);
    return this.store.raise(literals[0]!, literals[1]!, Reason.clause, index, 0);
  }

  /** Clauses that helped long ago count less and less. */
  decay(): void {
    this.increment *= 1.001;
    if (this.increment < 1e100) return;
    for (const clause of this.clauses) clause.activity *= 1e-100;
    this.increment *= 1e-100;
  }

  propagate(d: number): boolean {
    const { store, clauses } = this;
    const { value } = store;
    const list = this.watches[d]!;
    const size = list.length;
    const now = value[d]!;
    let kept = 0;
    let k = 0;
    while (k < size) {
      const index = list[k]!;
      const falseFrom = list[k + 1]!;
      const otherBound = list[k + 2]!;
      const otherValue = list[k + 3]!;
      k += COLUMNS;
      if (falseFrom > now || value[otherBound]! >= otherValue) {
        list[kept++] = index;
        list[kept++] = falseFrom;
        list[kept++] = otherBound;
        list[kept++] = otherValue;
        continue;
      }
      const { literals } = clauses[index]!;
      if ((literals[0]! ^ 1) === d && 1 - literals[1]! === falseFrom) {
        swap(literals, 0, 2);
      }
      const first = literals[0]!;
      const firstValue = literals[1]!;
      list[kept++] = index;
      list[kept++] = falseFrom;
      list[kept++] = first;
      list[kept++] = firstValue;
      if (value[first]! >= firstValue) continue;
      let y = 4;
      while (y < literals.length && value[literals[y]! ^ 1]! >= 1 - literals[y + 1]!) y += 2;
      if (y < literals.length) {
        kept -= COLUMNS;
        swap(literals, 2, y);
        this.watches[literals[2]! ^ 1]!.push(index, 1 - literals[3]!, first, firstValue);
        continue;
      }
      if (!store.raise(first, firstValue, Reason.clause, index, 0)) {
        while (k < size) list[kept++] = list[k++]!;
        list.length = kept;
        return false;
      }
    }
    list.length = kept;
    return true;
  }

  /** The clause made its first literal true as all others are false. */
  explain(a: number, _b: number, _d: number, _v: number, out: Literals): void {
    const clause = this.clauses[a]!;
    const { literals } = clause;
    clause.activity += this.increment;
    for (let k = 2; k < literals.length; k += 2) out.push(literals[k]! ^ 1, 1 - literals[k + 1]!);
  }

  /**
   * Drops the half of the clauses that helped least, once there are many, and those that hold anyway. Only at level 0 with all
   * propagated. False when a clause turns out to be false.
   */
  reduce(): boolean {
    if (this.clauses.length < this.limit) return true;
    this.limit = Math.ceil(this.limit * 1.05);
    const { value } = this.store;
    const lasting = this.clauses.filter(c => c.levels <= 2);
    const others = this.clauses.filter(c => c.levels > 2).sort((a, b) => b.activity - a.activity);
    const kept = [...lasting, ...others.slice(0, others.length >> 1)];
    this.clauses = [];
    for (const list of this.watches) list.length = 0;
    for (const { literals, activity, levels } of kept) {
      const open: number[] = [];
      let holds = false;
      for (let k = 0; k < literals.length && !holds; k += 2) {
        const [d, v] = [literals[k]!, literals[k + 1]!];
        holds = value[d]! >= v;
        if (value[d ^ 1]! < 1 - v) open.push(d, v);
      }
      if (holds) continue;
      if (open.length <= 2) {
        if (open.length === 0 || !this.store.raise(open[0]!, open[1]!, Reason.none, 0, 0)) return false;
        continue;
      }
      const index = this.clauses.length;
      this.clauses.push({ literals: Int32Array.from(open), activity, levels });
      this.watch(index, 0);
      this.watch(index, 2);
    }
    return true;
  }

  private watch(index: number, at: number): void {
    const { literals } = this.clauses[index]!;
    this.watches[literals[at]! ^ 1]!.push(index, 1 - literals[at + 1]!, literals[2 - at]!, literals[3 - at]!);
  }
}

function swap(literals: Int32Array, a: number, b: number): void {
  const [d, v] = [literals[a]!, literals[a + 1]!];
  literals[a] = literals[b]!;
  literals[a + 1] = literals[b + 1]!;
  literals[b] = d;
  literals[b + 1] = v;
}
