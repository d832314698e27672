/**
 * Where product stands when: strips of a bay with the moment the product comes and the moment it is rinsed off, both
 * linear along the strip. From the passes themselves, so that a moment of the time control shows what is wet then.
 */

import { extentOf, type Slab } from '../exposure/deposit.ts';
import type { BayTracks } from '../exposure/fromTracks.ts';
import type { Pass, Range } from '../tracks/track.ts';
import { mirrored, type Turned } from './frame.ts';

/** Times at the strip's two ends, in the order of x; null where nothing comes. */
export interface WetStrip {
  readonly x: Range;
  readonly y: Range;
  /** First product, full rate, first tool, last rinse. */
  readonly first: Range;
  readonly full: Range | null;
  readonly tool: Range | null;
  readonly rinsed: Range | null;
}

/** Strips of a bay that get product; cut across at the edges of bands, along where passes begin and end. */
export function wetStripsOf({ slabs, activities, limits }: BayTracks, frame: Turned): readonly WetStrip[] {
  const extent = extentOf(slabs);
  if (!extent) return [];
  const of = (...does: readonly string[]): readonly Pass[] =>
    activities
      .flatMap(each => each.machines.flatMap(machine => machine.tracks))
      .filter(each => does.includes(each.does))
      .flatMap(each => each.passes)
      .toSorted((a, b) => a.start - b.start);
  const [applied, tools, rinses] = [of('apply'), of('contact', 'jet'), of('rinse')];
  const all = [...applied, ...tools, ...rinses];
  const ts = cuts(
    extent.t,
    all.flatMap(pass => [...pass.band]),
  );
  const strips: WetStrip[] = [];
  for (let i = 1; i < ts.length; i++) {
    const t: Range = [ts[i - 1]!, ts[i]!];
    const over = (list: readonly Pass[]) => list.filter(({ band }) => band[0] <= t[0] + eps && band[1] >= t[1] - eps);
    const [a, c, r] = [over(applied), over(tools), over(rinses)];
    if (a.length === 0) continue;
    const ground = slabs.map(slab => groundIn(slab, t)).filter(each => each !== undefined);
    const ss = cuts(extent.s, [...[...a, ...c, ...r].flatMap(({ from, to }) => [from.s, to.s]), ...ground.flat()]);
    for (let k = 1; k < ss.length; k++) {
      const s: Range = [ss[k - 1]!, ss[k]!];
      // Past a slanting edge there is no ground in the strip.
      if (!ground.some(([b, e]) => b <= s[0] + eps && e >= s[1] - eps)) continue;
      const along = (list: readonly Pass[]) => list.filter(pass => covers(pass, s));
      const products = along(a);
      const first = products[0];
      if (!first) continue;
      let laid = 0;
      const full = products.find(pass => {
        laid += pass.depth ?? limits.rate ?? 0;
        return laid >= (limits.rate ?? 0) * (1 - 1e-6);
      });
      const at = (pass: Pass | undefined): Range | null => (pass ? mirrored(timesOf(pass, s), frame) : null);
      strips.push({
        x: frame.xs(s),
        y: frame.ys(t),
        first: mirrored(timesOf(first, s), frame),
        full: at(full),
        tool: at(along(c)[0]),
        rinsed: at(along(r).at(-1)),
      });
    }
  }
  return strips;
}

const eps = 1e-6;

/** Where along a slab, whose edges may slant, there is ground between two offsets; undefined for nowhere. */
function groundIn({ s, left, right }: Slab, [low, high]: Range): Range | undefined {
  let found: Range | undefined = s;
  // The left edge has to lie below the upper offset, the right one above the lower.
  for (const [a, b] of [
    [high - left[0], high - left[1]],
    [right[0] - low, right[1] - low],
  ] as const) {
    if (!found || (a <= eps && b <= eps)) return undefined;
    if (a > 0 && b > 0) continue;
    const zero = s[0] + ((s[1] - s[0]) * a) / (a - b);
    found = a > b ? [found[0], Math.min(found[1], zero)] : [Math.max(found[0], zero), found[1]];
    if (found[1] - found[0] <= eps) found = undefined;
  }
  return found;
}

function cuts([low, high]: Range, at: readonly number[]): readonly number[] {
  const sorted = [low, high, ...at.filter(each => each > low + eps && each < high - eps)].sort((a, b) => a - b);
  return sorted.filter((each, i) => i === 0 || each - sorted[i - 1]! > eps);
}

function covers({ from, to }: Pass, [a, b]: Range): boolean {
  return Math.min(from.s, to.s) <= a + eps && Math.max(from.s, to.s) >= b - eps;
}

/** When a pass is at the two ends of a stretch it covers. */
function timesOf({ from, to, start, end }: Pass, [a, b]: Range): Range {
  const at = (s: number): number => start + ((end - start) * (s - from.s)) / (to.s - from.s);
  return [at(a), at(b)];
}
