/** Lags: when the start of one activity moves, those tied to it by lags move along. */
import type { Arc } from '../network.ts';
import type { Explainer, Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

export class Lags implements Explainer {
  /** For each directed bound what it pushes: bound, weight, bound, weight, … */
  private readonly pushes: readonly Int32Array[];
  private readonly store: Store;

  constructor(store: Store, arcs: readonly Arc[]) {
    this.store = store;
    store.explainers[Reason.lag] = this;
    const pushes: number[][] = Array.from({ length: store.value.length }, () => []);
    for (const { from, to, weight } of arcs) {
      pushes[2 * from]!.push(2 * to, weight);
      pushes[2 * to + 1]!.push(2 * from + 1, weight);
    }
    this.pushes = pushes.map(list => Int32Array.from(list));
  }

  /** Propagates a rise of directed bound d. */
  propagate(d: number): boolean {
    const { store } = this;
    const { value } = store;
    const v = value[d]!;
    const pushes = this.pushes[d]!;
    for (let k = 0; k < pushes.length; k += 2) {
      const e = pushes[k]!;
      const w = v + pushes[k + 1]!;
      if (w > value[e]! && !store.raise(e, w, Reason.lag, d, pushes[k + 1]!)) return false;
    }
    return true;
  }

  explain(a: number, b: number, _d: number, v: number, out: Literals): void {
    out.push(a, v - b);
  }
}
