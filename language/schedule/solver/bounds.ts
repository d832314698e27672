/**
 * What can be shown about the objective before any search: longest paths are known from propagation; here is energy. Whatever
 * can't start before h and is followed by at least t has to be got through between h and the objective less t.
 */
import type { Network } from './network.ts';

/** A lower bound of the objective from the bounds at the root (directed bounds as in the store). */
export function rootBound(network: Network, root: Int32Array): number {
  const { count, duration } = network;
  let best = root[2 * count]!;
  if (!network.arcs.some(arc => arc.to === count)) return best;
  const tails = longestToObjective(network);
  const load = (i: number, energy: number): Load => ({ head: root[2 * i]!, tail: tails[i]! - duration[i]!, energy });
  const counts = (each: Load): boolean => each.tail > NO_PATH / 2;
  for (const { tasks, demand, capacity } of network.pools) {
    const loads = Array.from(tasks, (i, k) => load(i, duration[i]! * demand[k]!)).filter(counts);
    best = Math.max(best, energyBound(loads, capacity, openTimes(network, tasks)));
  }
  for (const tasks of network.cliques) {
    const loads = tasks.map(i => load(i, duration[i]!)).filter(counts);
    best = Math.max(best, energyBound(loads, 1, openTimes(network, tasks)));
  }
  return best;
}

interface Load {
  readonly head: number;
  readonly tail: number;
  readonly energy: number;
}

/** Greatest, over all thresholds of head and tail, of: head + time the energy takes + tail. */
function energyBound(loads: readonly Load[], capacity: number, open: readonly Stretch[] | undefined): number {
  const byTail = [...loads].sort((a, b) => b.tail - a.tail);
  let best = -Infinity;
  for (const head of new Set(loads.map(load => load.head))) {
    let energy = 0;
    for (const load of byTail) {
      if (load.head < head) continue;
      energy += load.energy;
      best = Math.max(best, finish(head, Math.ceil(energy / capacity), open) + load.tail);
    }
  }
  return best;
}

interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** When work of this length is done that starts at `from` and goes on only while something is open. */
function finish(from: number, length: number, open: readonly Stretch[] | undefined): number {
  if (open === undefined) return from + length;
  let left = length;
  for (const { start, end } of open) {
    const begin = Math.max(start, from);
    if (begin + left <= end) return begin + left;
    if (begin < end) left -= end - begin;
  }
  return open.length > 0 ? open.at(-1)!.end + left : from + length;
}

/** The stretches in which any of the tasks may run; undefined when some task may run at any time. */
function openTimes(network: Network, tasks: Iterable<number>): readonly Stretch[] | undefined {
  const stretches: Stretch[] = [];
  const seen = new Set<string>();
  for (const i of tasks) {
    const frame = network.frames.find(f => f.members.includes(i));
    if (frame === undefined) return undefined;
    const m = frame.members.indexOf(i);
    const [head, tail] = [frame.head[m]!, frame.tail[m]!];
    const key = `${head} ${tail} ${frame.starts.join()} ${frame.ends.join()}`;
    if (seen.has(key)) continue;
    seen.add(key);
    frame.starts.forEach((start, k) => {
      stretches.push({ start: start + head, end: frame.ends[k]! - tail });
    });
  }
  stretches.sort((a, b) => a.start - b.start);
  const merged: Stretch[] = [];
  for (const each of stretches) {
    const last = merged.at(-1);
    if (last === undefined || each.start > last.end) merged.push(each);
    else if (each.end > last.end) merged[merged.length - 1] = { start: last.start, end: each.end };
  }
  return merged;
}

const NO_PATH = -(2 ** 30);

/** Longest path from each activity's start to the objective. */
function longestToObjective({ count, arcs }: Network): Int32Array {
  const tails = new Int32Array(count + 1).fill(NO_PATH);
  tails[count] = 0;
  for (let round = 0, grew = true; grew && round <= count; round++) {
    grew = false;
    for (const { from, to, weight } of arcs) {
      if (tails[to]! === NO_PATH || tails[to]! + weight <= tails[from]!) continue;
      tails[from] = tails[to]! + weight;
      grew = true;
    }
  }
  return tails;
}
