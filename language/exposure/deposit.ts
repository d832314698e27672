/**
 * The ground that counts: deposits given as station lists, cut to a bay, merged where they overlap, as slabs.
 *
 * A slab is a trapezoid between two chainages whose left and right edge are straight lines. Sums of slabs are exact
 * areas. Metres, offsets signed (right positive).
 */

import type { Range } from '../tracks/track.ts';

/** One line of a station list: chainage, and how far the deposit reaches to the left and right of the centreline. */
export interface Station {
  readonly s: number;
  readonly left: number;
  readonly right: number;
}

/** Ground between chainages `s[0]` and `s[1]`; `left` and `right` are the offsets of its edges at those two. */
export interface Slab {
  readonly s: Range;
  readonly left: Range;
  readonly right: Range;
}

/**
 * Slabs of a station list, cut to a bay.
 *
 * @param stations in order of chainage; pairs that do not advance, and slabs without width, are left out
 * @param bay chainage range to keep; all by default
 */
export function slabsOf(stations: readonly Station[], bay?: Range): readonly Slab[] {
  const slabs: Slab[] = [];
  for (let i = 1; i < stations.length; i++) {
    const a = stations[i - 1]!;
    const b = stations[i]!;
    const slab = cutSlab({ s: [a.s, b.s], left: [-a.left, -b.left], right: [a.right, b.right] }, bay ?? [a.s, b.s]);
    if (slab) slabs.push(slab);
  }
  return slabs;
}

/** A rectangle as slabs. */
export function rectangle(s: Range, t: Range): readonly Slab[] {
  return [{ s, left: [t[0], t[0]], right: [t[1], t[1]] }];
}

/** The part of a slab within a chainage range, or nothing. */
export function cutSlab(slab: Slab, bay: Range): Slab | undefined {
  const a = Math.max(slab.s[0], bay[0]);
  const b = Math.min(slab.s[1], bay[1]);
  if (!(b > a)) return undefined;
  if (a === slab.s[0] && b === slab.s[1]) return slab;
  return {
    s: [a, b],
    left: [edgeAt(slab, slab.left, a), edgeAt(slab, slab.left, b)],
    right: [edgeAt(slab, slab.right, a), edgeAt(slab, slab.right, b)],
  };
}

/** Area of a slab whose edges do not cross, m². */
export function slabArea(slab: Slab): number {
  return ((slab.s[1] - slab.s[0]) * (slab.right[0] - slab.left[0] + slab.right[1] - slab.left[1])) / 2;
}

/** Area of slabs that do not overlap, m². */
export function areaOf(slabs: readonly Slab[]): number {
  return slabs.reduce((sum, slab) => sum + slabArea(slab), 0);
}

/** Least and greatest chainage and offset of slabs; undefined for none. */
export function extentOf(slabs: readonly Slab[]): { s: Range; t: Range } | undefined {
  if (slabs.length === 0) return undefined;
  let [s0, s1, t0, t1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const slab of slabs) {
    s0 = Math.min(s0, slab.s[0]);
    s1 = Math.max(s1, slab.s[1]);
    t0 = Math.min(t0, slab.left[0], slab.left[1]);
    t1 = Math.max(t1, slab.right[0], slab.right[1]);
  }
  return { s: [s0, s1], t: [t0, t1] };
}

/**
 * The union of slabs as slabs that do not overlap: what lies under two deposits counts once.
 *
 * Cuts lengthwise at all ends and wherever two edges cross; between cuts the order of the edges is fixed, so the
 * union is that of intervals across the middle. Exact up to rounding; quadratic in the slabs of one chainage.
 */
export function mergeSlabs(slabs: readonly Slab[]): readonly Slab[] {
  const sound = slabs.filter(slab => slab.s[1] > slab.s[0]);
  const merged: Slab[] = [];
  const ends = distinct(sound.flatMap(slab => [slab.s[0], slab.s[1]]));
  for (let i = 1; i < ends.length; i++) {
    const over = sound.filter(slab => slab.s[0] < ends[i]! && slab.s[1] > ends[i - 1]!);
    const edges = over.flatMap(slab => [slab.left, slab.right].map(edge => [slab, edge] as const));
    const cuts = [ends[i - 1]!, ends[i]!];
    for (let a = 0; a < edges.length; a++) {
      for (let b = a + 1; b < edges.length; b++) {
        const cut = crossing(edges[a]!, edges[b]!);
        if (cut !== undefined && cut > ends[i - 1]! && cut < ends[i]!) cuts.push(cut);
      }
    }
    const spans = distinct(cuts);
    for (let k = 1; k < spans.length; k++) {
      const span: Range = [spans[k - 1]!, spans[k]!];
      const parts = over.map(slab => cutSlab(slab, span)).filter(slab => slab !== undefined && slabArea(slab) > 0);
      merged.push(...unionAcross(parts as Slab[]));
    }
  }
  return joinLengthwise(merged);
}

/** Slabs of one span whose edges do not cross inside it, joined where they overlap or touch. */
function unionAcross(parts: readonly Slab[]): Slab[] {
  const order = parts.toSorted((a, b) => a.left[0] + a.left[1] - b.left[0] - b.left[1]);
  const out: Slab[] = [];
  for (const part of order) {
    const last = out.at(-1);
    const touches = last && part.left[0] + part.left[1] <= last.right[0] + last.right[1] + 1e-9;
    if (!last || !touches) out.push(part);
    else if (part.right[0] + part.right[1] > last.right[0] + last.right[1]) {
      out[out.length - 1] = { s: last.s, left: last.left, right: part.right };
    }
  }
  return out;
}

/** Neighbours along the runway whose edges run on in the same straight lines become one slab again. */
function joinLengthwise(slabs: readonly Slab[]): readonly Slab[] {
  const out: Slab[] = [];
  for (const slab of slabs) {
    const at = out.findLastIndex(
      o => o.s[1] === slab.s[0] && runsOn(o, o.left, slab, slab.left) && runsOn(o, o.right, slab, slab.right),
    );
    const before = out[at];
    if (!before) out.push(slab);
    else {
      out[at] = {
        s: [before.s[0], slab.s[1]],
        left: [before.left[0], slab.left[1]],
        right: [before.right[0], slab.right[1]],
      };
    }
  }
  return out.toSorted((a, b) => a.s[0] - b.s[0] || a.left[0] - b.left[0]);
}

function runsOn(a: Slab, edgeA: Range, b: Slab, edgeB: Range): boolean {
  const slopeA = (edgeA[1] - edgeA[0]) / (a.s[1] - a.s[0]);
  const slopeB = (edgeB[1] - edgeB[0]) / (b.s[1] - b.s[0]);
  return Math.abs(edgeA[1] - edgeB[0]) < 1e-9 && Math.abs(slopeA - slopeB) < 1e-12;
}

function crossing([a, edgeA]: readonly [Slab, Range], [b, edgeB]: readonly [Slab, Range]): number | undefined {
  const slopeA = (edgeA[1] - edgeA[0]) / (a.s[1] - a.s[0]);
  const slopeB = (edgeB[1] - edgeB[0]) / (b.s[1] - b.s[0]);
  if (slopeA === slopeB) return undefined;
  return (edgeB[0] - slopeB * b.s[0] - edgeA[0] + slopeA * a.s[0]) / (slopeA - slopeB);
}

/** Offset of an edge at a chainage; exact at both ends. */
export function edgeAt(slab: Slab, edge: Range, s: number): number {
  if (s === slab.s[0]) return edge[0];
  if (s === slab.s[1]) return edge[1];
  return edge[0] + ((edge[1] - edge[0]) * (s - slab.s[0])) / (slab.s[1] - slab.s[0]);
}

function distinct(values: readonly number[]): number[] {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value > sorted[i - 1]!);
}
