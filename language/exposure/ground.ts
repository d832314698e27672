/** The ground of a work as slabs in its own frame: deposits merged, cut to `from` and `to`, less deducted exclusions. */
import type { StationList } from '../formulas/geometry.ts';
import { type Frame, frameOf, inFrame, stationsOf } from '../job/frame.ts';
import type { BuildUp, Deposit, Job, Plan, Runway } from '../job/job.ts';
import { type Keep, nothingKept } from '../job/memory.ts';
import type { Range } from '../tracks/track.ts';
import { cutSlab, edgeAt, extentOf, mergeSlabs, type Slab, slabArea } from './deposit.ts';

export interface WorkGround {
  readonly frame: Frame;
  readonly slabs: readonly Slab[];
  readonly extent: { readonly s: Range; readonly t: Range };
  /** Chainage range of each deposit, with the build-up block of the method for its class. */
  readonly deposits: readonly { readonly s: Range; readonly buildUp: BuildUp | undefined }[];
  /** Chainages that lie on the pavement; undefined where the length of the runway is missing. */
  readonly pavement: Range | undefined;
}

/** The ground of a plan; undefined where the text lacks what it takes to know it, or there is none. */
export function workGround(job: Job, plan: Plan, keep: Keep = nothingKept(job)): WorkGround | undefined {
  const { deposits, runway, method } = plan;
  const { from, to } = plan.work;
  const buildUps = method?.buildUps ?? [];
  return keep('ground', [deposits, runway, from, to, ...buildUps], known =>
    groundOf(known, { deposits, runway, from, to, buildUps }),
  );
}

/** All that the ground of a work is made from. */
interface Sources extends Pick<Plan, 'deposits' | 'runway'>, Pick<Plan['work'], 'from' | 'to'> {
  readonly buildUps: readonly BuildUp[];
}

function groundOf(job: Job, { deposits, runway, from, to, buildUps }: Sources): WorkGround | undefined {
  const frame = deposits[0] && frameOf(deposits[0]);
  if (!frame) return undefined;
  const lists: StationList[] = [];
  for (const deposit of deposits) {
    const on = frameOf(deposit);
    const stations = on && deposit.stations && inFrame(job, stationsOf(deposit), on, frame);
    if (!stations) return undefined;
    lists.push(stations);
  }
  const bounds: Range = [from?.value ?? -Infinity, to?.value ?? Infinity];
  const whole = mergeSlabs(lists.flatMap(slabsOfStations)).flatMap(slab => cutSlab(slab, bounds) ?? []);
  const slabs = excludedIn(job, frame).reduce(without, whole);
  const extent = extentOf(slabs);
  if (!extent) return undefined;
  return {
    frame,
    slabs,
    extent,
    deposits: deposits.map((deposit, i) => ({
      s: [Math.min(...lists[i]!.map(({ s }) => s)), Math.max(...lists[i]!.map(({ s }) => s))],
      buildUp: buildUpIn(buildUps, deposit),
    })),
    pavement: pavementOf(runway, frame),
  };
}

/** The build-up block of the method for a deposit's class. */
export function buildUpOf(plan: Plan, deposit: Deposit): BuildUp | undefined {
  return buildUpIn(plan.method?.buildUps ?? [], deposit);
}

function buildUpIn(buildUps: readonly BuildUp[], deposit: Deposit): BuildUp | undefined {
  const name = deposit.buildUp?.value;
  return buildUps.find(block => block.name.replaceAll('-', ' ') === name);
}

/** Slabs of a chainage range. */
export function slabsIn(ground: Pick<WorkGround, 'slabs'>, s: Range): readonly Slab[] {
  return ground.slabs.flatMap(slab => cutSlab(slab, s) ?? []);
}

function slabsOfStations(stations: StationList): readonly Slab[] {
  const slabs: Slab[] = [];
  for (let i = 1; i < stations.length; i++) {
    const [a, b] = [stations[i - 1]!, stations[i]!];
    const sound = Number.isFinite(a.s + b.s + a.left + a.right + b.left + b.right);
    if (sound && b.s > a.s) slabs.push({ s: [a.s, b.s], left: [a.left, b.left], right: [a.right, b.right] });
  }
  return slabs;
}

function pavementOf(runway: Plan['runway'], frame: Frame): Range | undefined {
  const length = (runway as Runway | undefined)?.length?.value;
  if (length === undefined) return undefined;
  const displaced = runway!.ends.find(end => end.name === frame.end)?.displaced?.value ?? 0;
  return [-displaced, length - displaced];
}

interface Rectangle {
  readonly s: Range;
  readonly t: Range;
}

/** Rectangles of the exclusions that are deducted, in a frame. */
function excludedIn(job: Job, frame: Frame): readonly Rectangle[] {
  return job.blocks.exclusions.flatMap(exclusion => {
    const on = frameOf(exclusion);
    if (!exclusion.deducted?.value || !on || on.runway.id !== frame.runway.id) return [];
    return (exclusion.stations?.value ?? []).flatMap(({ from, to, left, right }): Rectangle[] => {
      const corners = [
        { s: from, left, right },
        { s: to, left, right },
      ];
      const [a, b] = inFrame(job, corners, on, frame) ?? [];
      return a && b && b.s > a.s && a.right > a.left ? [{ s: [a.s, b.s], t: [a.left, a.right] }] : [];
    });
  });
}

/** Slabs less a rectangle: what lies before and behind it, and the strips on either side of it. */
function without(slabs: readonly Slab[], hole: Rectangle): readonly Slab[] {
  return slabs.flatMap(slab => {
    const inside = cutSlab(slab, hole.s);
    if (!inside) return [slab];
    const outside = [cutSlab(slab, [-Infinity, hole.s[0]]), cutSlab(slab, [hole.s[1], Infinity])];
    return [...outside, ...beside(inside, hole.t)].flatMap(each => (each && slabArea(each) > 0 ? [each] : []));
  });
}

/** The strips of a slab to the left and to the right of a band, cut where its edges enter and leave the band. */
function beside(slab: Slab, band: Range): readonly Slab[] {
  const [s0, s1] = slab.s;
  const cuts = [s0, s1];
  for (const edge of [slab.left, slab.right]) {
    for (const t of band) {
      const cut = s0 + ((s1 - s0) * (t - edge[0])) / (edge[1] - edge[0]);
      if (cut > s0 && cut < s1) cuts.push(cut);
    }
  }
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).flatMap((b, i) => {
    const a = cuts[i]!;
    if (!(b > a)) return [];
    const left: Range = [edgeAt(slab, slab.left, a), edgeAt(slab, slab.left, b)];
    const right: Range = [edgeAt(slab, slab.right, a), edgeAt(slab, slab.right, b)];
    const within = (t: number): Range => [
      Math.min(right[0], Math.max(left[0], t)),
      Math.min(right[1], Math.max(left[1], t)),
    ];
    return [
      { s: [a, b], left, right: within(band[0]) },
      { s: [a, b], left: within(band[1]), right },
    ] satisfies Slab[];
  });
}
