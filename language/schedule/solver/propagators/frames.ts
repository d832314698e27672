/**
 * Frames: activities that lie together within one of several windows. When the first of them can't start before a window has
 * passed, all of them move on to the next one. One literal explains it: a start past the last moment that the window before allows.
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
  /** For each activity its frames, and its place among their members: frame, place, frame, place, … */
  private readonly framesOf: readonly (readonly number[])[];

  constructor(store: Store, network: Network) {
    this.store = store;
    this.frames = network.frames;
    this.duration = network.duration;
    const framesOf: number[][] = Array.from({ length: store.value.length >> 1 }, () => []);
    network.frames.forEach((frame, f) => {
      frame.members.forEach((i, m) => {
        framesOf[i]!.push(f, m);
      });
    });
    this.framesOf = framesOf;
    store.explainers[Reason.frame] = this;
  }

  propagate(d: number): boolean {
    const own = this.framesOf[d >> 1]!;
    for (let k = 0; k < own.length; k += 2) {
      if (!((d & 1) === 0 ? this.forth(own[k]!, own[k + 1]!) : this.back(own[k]!, own[k + 1]!))) return false;
    }
    return true;
  }

  /** By its earliest start member m fits in no window before some window; so no member is in one before it. */
  private forth(f: number, m: number): boolean {
    const { store } = this;
    const { starts, ends, members, head, tail } = this.frames[f]!;
    const i = members[m]!;
    const least = store.value[2 * i]! + this.duration[i]! + tail[m]!;
    let k = 0;
    let end = ends.length - 1;
    while (k < end) {
      const middle = (k + end) >> 1;
      if (ends[middle]! < least) k = middle + 1;
      else end = middle;
    }
    const from = starts[k]!;
    for (let x = 0; x < members.length; x++) {
      const e = 2 * members[x]!;
      const v = from + head[x]!;
      if (v > store.value[e]! && !store.raise(e, v, Reason.frame, f, (m << 16) | x)) return false;
    }
    return true;
  }

  /** By its latest start member m fits in no window after some window; so no member is in one after it. */
  private back(f: number, m: number): boolean {
    const { store, duration } = this;
    const { starts, ends, members, head, tail } = this.frames[f]!;
    const latest = -store.value[2 * members[m]! + 1]! - head[m]!;
    let k = 0;
    let end = starts.length - 1;
    while (k < end) {
      const middle = (k + end + 1) >> 1;
      if (starts[middle]! > latest) end = middle - 1;
      else k = middle;
    }
    const to = ends[k]!;
    for (let x = 0; x < members.length; x++) {
      const j = members[x]!;
      const v = duration[j]! + tail[x]! - to;
      if (v > store.value[2 * j + 1]! && !store.raise(2 * j + 1, v, Reason.frame, f, (m << 16) | x)) return false;
    }
    return true;
  }

  /**
   * `a` is the frame, `b` the places of the member that had moved and of the one that d belongs to. Names the weakest move
   * that is enough for v.
   */
  explain(a: number, b: number, d: number, v: number, out: Literals): void {
    const { starts, ends, members, head, tail } = this.frames[a]!;
    const m = b >> 16;
    const x = b & 0xffff;
    const source = members[m]!;
    if ((d & 1) === 0) {
      let k = 0;
      while (starts[k]! + head[x]! < v) k++;
      out.push(2 * source, k === 0 ? ALWAYS : ends[k - 1]! - tail[m]! - this.duration[source]! + 1);
    } else {
      // (2j + 1, v): j starts at −v at the latest, so it is in a window that ends early enough for that.
      const end = this.duration[d >> 1]! + tail[x]! - v;
      let k = ends.length - 1;
      while (ends[k]! > end) k--;
      out.push(2 * source + 1, k === ends.length - 1 ? ALWAYS : 1 - starts[k + 1]! - head[m]!);
    }
  }
}
