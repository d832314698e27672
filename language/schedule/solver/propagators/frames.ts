/**
 * Frames: activities that lie together within one of several windows. When the first of them can't start before a window has
 * passed, all of them move on to the next one. One literal explains it: start past the last moment that the window before allows.
 */
import type { Frame, Network } from '../network.ts';
import type { Explainer, Literals, Store } from '../store.ts';
import { Reason } from '../store.ts';

/** Below every bound: such a literal holds always. */
const ALWAYS = -(2 ** 30);

export class Frames implements Explainer {
  private readonly store: Store;
  private readonly frames: readonly Frame[];
  private readonly duration: Int32Array;
  /** Frames of each activity. */
  private readonly framesOf: readonly (readonly number[])[];

  constructor(store: Store, network: Network) {
    this.store = store;
    this.frames = network.frames;
    this.duration = network.duration;
    const framesOf: number[][] = Array.from({ length: store.value.length >> 1 }, () => []);
    network.frames.forEach((frame, f) => {
      for (const i of frame.members) framesOf[i]!.push(f);
    });
    this.framesOf = framesOf;
    store.explainers[Reason.frame] = this;
  }

  propagate(d: number): boolean {
    const own = this.framesOf[d >> 1]!;
    for (let k = 0; k < own.length; k++) {
      if (!((d & 1) === 0 ? this.forth(own[k]!, d >> 1) : this.back(own[k]!, d >> 1))) return false;
    }
    return true;
  }

  /** The earliest start of i lets no member start before the first window that i still fits in. */
  private forth(f: number, i: number): boolean {
    const { store } = this;
    const { starts, ends, members } = this.frames[f]!;
    const least = store.value[2 * i]! + this.duration[i]!;
    let k = 0;
    let end = ends.length - 1;
    while (k < end) {
      const middle = (k + end) >> 1;
      if (ends[middle]! < least) k = middle + 1;
      else end = middle;
    }
    const from = starts[k]!;
    for (let m = 0; m < members.length; m++) {
      const e = 2 * members[m]!;
      if (from > store.value[e]! && !store.raise(e, from, Reason.frame, f, 2 * i)) return false;
    }
    return true;
  }

  /** The latest start of i lets no member end after the last window that i can still be in. */
  private back(f: number, i: number): boolean {
    const { store, duration } = this;
    const { starts, ends, members } = this.frames[f]!;
    const latest = -store.value[2 * i + 1]!;
    let k = 0;
    let end = starts.length - 1;
    while (k < end) {
      const middle = (k + end + 1) >> 1;
      if (starts[middle]! > latest) end = middle - 1;
      else k = middle;
    }
    const to = ends[k]!;
    for (let m = 0; m < members.length; m++) {
      const j = members[m]!;
      const negated = duration[j]! - to;
      if (negated > store.value[2 * j + 1]! && !store.raise(2 * j + 1, negated, Reason.frame, f, 2 * i + 1))
        return false;
    }
    return true;
  }

  /** `a` is the frame, `b` the directed bound that had risen. Names the weakest rise that is enough for v. */
  explain(a: number, b: number, d: number, v: number, out: Literals): void {
    const { starts, ends } = this.frames[a]!;
    const source = b >> 1;
    if ((d & 1) === 0) {
      // Some window before the first that starts at v or later has passed for the source.
      let k = 0;
      while (starts[k]! < v) k++;
      out.push(b, k === 0 ? ALWAYS : ends[k - 1]! - this.duration[source]! + 1);
    } else {
      // (2j + 1, v): j starts at −v at the latest, so the source had to start before the window after.
      const end = this.duration[d >> 1]! - v;
      let k = ends.length - 1;
      while (ends[k]! > end) k--;
      out.push(b, k === ends.length - 1 ? ALWAYS : 1 - starts[k + 1]!);
    }
  }
}
