/**
 * The oracle of the exposure tests and the other side of its benchmark: the same clocks by brute force, point by
 * point on a grid. Shares no code with language/exposure. Written to be fast as a raster can be: passes as typed
 * arrays, one list of passes a row, their order kept from point to point, nothing allocated inside the loops.
 */

/** A pass as the results have it, and what it does. */
export interface RasterPass {
  readonly does: string;
  readonly from: { readonly s: number };
  readonly to: { readonly s: number };
  readonly band: readonly [number, number];
  readonly start: number;
  readonly end: number;
  readonly depth?: number;
}

/** Trapezoids, as in the deposit. */
export interface RasterSlab {
  readonly s: readonly [number, number];
  readonly left: readonly [number, number];
  readonly right: readonly [number, number];
}

/** Points, and at each of them what it went through; NaN where a clock does not run. */
export interface Raster {
  readonly columns: number;
  readonly rows: number;
  readonly sAt: Float64Array;
  readonly tAt: Float64Array;
  readonly inside: Uint8Array;
  readonly soak: Float64Array;
  readonly wetGap: Float64Array;
  readonly residence: Float64Array;
  readonly lastTouch: Float64Array;
  readonly contacts: Uint16Array;
  readonly rinses: Uint16Array;
  readonly jets: Uint16Array;
  readonly pickups: Uint16Array;
  readonly depth: Float64Array;
  /** Least and greatest of soak, wet gap, residence, last touch, contacts, rinses. */
  readonly extremes: Float64Array;
  readonly points: number;
}

/** Room for a raster over `s` × `t` with points `step` apart, the first `shift` inside the corner. */
export function newRaster(
  s: readonly [number, number],
  t: readonly [number, number],
  stepS: number,
  stepT: number,
  shiftS = stepS / 2,
  shiftT = stepT / 2,
): Raster {
  const columns = Math.max(1, Math.floor((s[1] - s[0] - shiftS) / stepS) + 1);
  const rows = Math.max(1, Math.floor((t[1] - t[0] - shiftT) / stepT) + 1);
  const n = columns * rows;
  return {
    columns,
    rows,
    sAt: Float64Array.from({ length: columns }, (_, i) => s[0] + shiftS + i * stepS),
    tAt: Float64Array.from({ length: rows }, (_, i) => t[0] + shiftT + i * stepT),
    inside: new Uint8Array(n),
    soak: new Float64Array(n),
    wetGap: new Float64Array(n),
    residence: new Float64Array(n),
    lastTouch: new Float64Array(n),
    contacts: new Uint16Array(n),
    rinses: new Uint16Array(n),
    jets: new Uint16Array(n),
    pickups: new Uint16Array(n),
    depth: new Float64Array(n),
    extremes: new Float64Array(12),
    points: 0,
  };
}

const codes: Readonly<Record<string, number>> = {
  sweep: 0,
  wet: 1,
  apply: 2,
  contact: 3,
  rinse: 4,
  jet: 5,
  pickup: 6,
};

/** Fill the raster. `rate` in mm, 0 for none; `soakFrom` is when soak begins everywhere, or NaN. */
export function fillRaster(
  raster: Raster,
  slabs: readonly RasterSlab[],
  passes: readonly RasterPass[],
  rate: number,
  soakFrom = Number.NaN,
): Raster {
  const n = passes.length;
  const code = new Uint8Array(n);
  const sMin = new Float64Array(n);
  const sMax = new Float64Array(n);
  const tMin = new Float64Array(n);
  const tMax = new Float64Array(n);
  const base = new Float64Array(n);
  const slope = new Float64Array(n);
  const mm = new Float64Array(n);
  passes.forEach((pass, i) => {
    code[i] = codes[pass.does] ?? 0;
    sMin[i] = Math.min(pass.from.s, pass.to.s);
    sMax[i] = Math.max(pass.from.s, pass.to.s);
    tMin[i] = Math.min(...pass.band);
    tMax[i] = Math.max(...pass.band);
    slope[i] = (pass.end - pass.start) / (pass.to.s - pass.from.s);
    base[i] = pass.start - slope[i]! * pass.from.s;
    mm[i] = pass.depth ?? rate;
  });
  const need = rate * (1 - 1e-6);
  const { columns, rows, sAt, tAt, inside, soak, wetGap, residence, lastTouch, depth, extremes } = raster;
  const { contacts, rinses, jets, pickups } = raster;
  const near = new Int32Array(n);
  const order = new Int32Array(n);
  const time = new Float64Array(n);
  for (let i = 0; i < 12; i++) extremes[i] = i % 2 === 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;

  for (let row = 0; row < rows; row++) {
    const t = tAt[row]!;
    let here = 0;
    for (let p = 0; p < n; p++) if (tMin[p]! < t && tMax[p]! > t) near[here++] = p;
    for (let column = 0; column < columns; column++) {
      const s = sAt[column]!;
      const at = row * columns + column;
      inside[at] = 0;
      for (let i = 0; i < slabs.length; i++) {
        const slab = slabs[i]!;
        if (s < slab.s[0] || s > slab.s[1]) continue;
        const f = (s - slab.s[0]) / (slab.s[1] - slab.s[0]);
        const left = slab.left[0] + f * (slab.left[1] - slab.left[0]);
        const right = slab.right[0] + f * (slab.right[1] - slab.right[0]);
        if (t >= left && t <= right) {
          inside[at] = 1;
          break;
        }
      }
      if (inside[at] === 0) continue;

      let m = 0;
      for (let i = 0; i < here; i++) {
        const p = near[i]!;
        if (s < sMin[p]! || s > sMax[p]!) continue;
        const x = base[p]! + slope[p]! * s;
        let k = m++;
        while (k > 0 && time[k - 1]! > x) {
          time[k] = time[k - 1]!;
          order[k] = order[k - 1]!;
          k--;
        }
        time[k] = x;
        order[k] = p;
      }
      // The list of the row takes over this order, so that the next point finds it nearly sorted.
      if (m === here) for (let i = 0; i < m; i++) near[i] = order[i]!;

      let sum = 0;
      let tFull = Number.NaN;
      let tTool = Number.NaN;
      let tProduct = Number.NaN;
      let tRinse = Number.NaN;
      let tWet = Number.NaN;
      let gap = Number.NaN;
      let open = Number.NaN;
      let c = 0;
      let r = 0;
      let j = 0;
      let u = 0;
      for (let i = 0; i < m; i++) {
        const x = time[i]!;
        const p = order[i]!;
        const what = code[p]!;
        const isTool = what === 3 || what === 5;
        const isWet = what === 1 || what === 2 || what === 5;
        // `open` is the greatest gap between wettings so far; it counts once an agitation comes after them.
        if (isTool && !Number.isNaN(tWet)) {
          const now = x - tWet;
          if (!(gap >= now)) gap = now;
          if (!Number.isNaN(open) && !(gap >= open)) gap = open;
        }
        if (isWet) {
          if (!Number.isNaN(tWet) && !(open >= x - tWet)) open = x - tWet;
          tWet = x;
        }
        if (what === 2) {
          sum += mm[p]!;
          if (Number.isNaN(tProduct)) tProduct = x;
          if (Number.isNaN(tFull) && sum >= need) tFull = x;
        } else if (what === 3) {
          c++;
        } else if (what === 4) {
          r++;
          tRinse = x;
        } else if (what === 5) {
          j++;
        } else if (what === 6) {
          u++;
        }
        if (isTool && Number.isNaN(tTool)) tTool = x;
      }
      const begin = !Number.isNaN(soakFrom) && !Number.isNaN(tFull) ? soakFrom : tFull;
      const soaked = tTool - begin;
      const resided = tRinse - tProduct;
      const touched = m > 0 ? time[m - 1]! : Number.NaN;
      soak[at] = soaked;
      wetGap[at] = gap;
      residence[at] = resided;
      lastTouch[at] = touched;
      contacts[at] = c;
      rinses[at] = r;
      jets[at] = j;
      pickups[at] = u;
      depth[at] = sum;
      if (soaked < extremes[0]!) extremes[0] = soaked;
      if (soaked > extremes[1]!) extremes[1] = soaked;
      if (gap < extremes[2]!) extremes[2] = gap;
      if (gap > extremes[3]!) extremes[3] = gap;
      if (resided < extremes[4]!) extremes[4] = resided;
      if (resided > extremes[5]!) extremes[5] = resided;
      if (touched < extremes[6]!) extremes[6] = touched;
      if (touched > extremes[7]!) extremes[7] = touched;
      if (c < extremes[8]!) extremes[8] = c;
      if (c > extremes[9]!) extremes[9] = c;
      if (r < extremes[10]!) extremes[10] = r;
      if (r > extremes[11]!) extremes[11] = r;
    }
  }
  return raster;
}
