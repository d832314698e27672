/**
 * Quantities that come from tracks and exposure: bays, passes, turns, distances and times of each step with its turns and
 * trips; least and greatest soak, wet gap, residence and contacts with the place where they occur.
 *
 * Each is explained: its inputs are the numbers of the text that the tracks hang on. A clock whose speeds have tolerances
 * carries the interval that these leave (language/exposure/tolerances.ts).
 */
import type { Explained } from '../explain/explain.ts';
import type { CountAt, TimeAt } from '../exposure/exposure.ts';
import type { BayExposure, BayTracks, WorkTracks } from '../exposure/fromTracks.ts';
import { type Spread, spreadOf } from '../exposure/tolerances.ts';
import type { Plan } from '../job/job.ts';
import type { Review } from '../schedule/review.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { Activity } from '../tracks/fromPlan.ts';
import { fieldEfficiency } from '../tracks/turns.ts';
import { KINDS, type System, show } from '../units/index.ts';
import type { Given } from '../vocabulary/given.ts';
import { workArea, workLength } from './area.ts';
import { type Context, isMissing, leaf, partOf, type Quantity, quantity } from './quantity.ts';
import { leaderOf, machineCount, type StepOf, stepsOf, widthOf } from './steps.ts';

/** What the stages before know of the machines' movements. */
export interface Engine {
  readonly works: readonly WorkTracks[];
  readonly exposures: readonly BayExposure[];
  /** Only with it are there quantities of time and cost of the whole. */
  readonly schedule?: Schedule;
  readonly review?: Review;
}

const DRIVES = ['sweep', 'pre-wet', 'apply', 'keep-wet', 'agitate', 'rinse', 'jet', 'pick-up'] as const;

/** All tracked quantities of a work; none without tracks. */
export function trackedQuantities(ctx: Context, plan: Plan, engine: Engine | undefined): readonly Quantity[] {
  const work = engine?.works.find(each => each.plan === plan);
  if (!engine || !work || work.bays.length === 0) return [];
  const exposures = engine.exposures.filter(each => each.tracks.plan === plan);
  const unscheduled = engine.schedule?.built.works.find(each => each.plan === plan) ?? work;
  const tracked: Tracked = { ctx, plan, work, unscheduled, exposures, name: ctx.nameOf(plan.work) };
  return [
    bays(tracked),
    bayLength(tracked),
    ...stepsOf(ctx, plan, ...DRIVES).flatMap(of => ofStep(tracked, of)),
    workTime(tracked),
    ...clocks(tracked),
  ];
}

/** Where something occurs, for people: `chainage 350 m, 5.5 m left, bay 2`. */
export function placeText({ s, t }: { readonly s: number; readonly t: number }, system: System, bay?: number): string {
  const length = (value: number): string =>
    show(Math.abs(value) < 5e-4 ? 0 : value, KINDS.length, system, { digits: 4 });
  const side = Math.abs(t) < 5e-4 ? 'on the centreline' : `${length(Math.abs(t))} ${t < 0 ? 'left' : 'right'}`;
  return `chainage ${length(s)}, ${side}${bay === undefined ? '' : `, bay ${bay}`}`;
}

interface Tracked {
  readonly ctx: Context;
  readonly plan: Plan;
  readonly work: WorkTracks;
  /** The same without waits for machines and closures. */
  readonly unscheduled: WorkTracks;
  readonly exposures: readonly BayExposure[];
  readonly name: string;
}

// ── bays ─────────────────────────────────────────────────────────────────────────────────────────────────────────

function bays({ ctx, plan, work, name }: Tracked): Quantity {
  const path = `${name}.bays`;
  return ctx.once(path, () => {
    const said = plan.work.bays;
    const named = { path, label: `bays of ${name}`, symbol: 'n', kind: 'count' as const, place: plan.work.heading };
    const compute = (): number => work.bays.length;
    const part = (
      of: string,
      value: (v: NonNullable<typeof said>['value']) => number | undefined,
      kind: 'count' | 'length',
    ) =>
      partOf(said, value, {
        path: `${name}.bays.${of}`,
        label: `bays that ${name} says`,
        symbol: kind === 'count' ? 'n_w' : 'l_w',
        kind,
      });
    if (work.by === 'length') {
      const length = part('length', v => (v.by === 'length' ? v.length : undefined), 'length');
      return quantity({
        ...named,
        formula: 'n = ⌈(s_b − s_a) / l_w⌉, without stretches that hold no deposit',
        inputs: [length, workLength(ctx, plan)],
        compute,
        source: 'definition',
      });
    }
    if (work.by === 'auto') {
      const most = residenceLimit({ ctx, plan });
      return quantity({
        ...named,
        formula: 'n = fewest equal bays for which t_r ≤ t_max at every point',
        inputs: [...(most ? [most] : []), workLength(ctx, plan), ...speedsOf(ctx, plan)],
        compute,
        source: 'definition',
      });
    }
    const count = part('count', v => (v.by === 'count' ? v.count : undefined), 'count');
    return quantity({
      ...named,
      formula: 'n = n_w, without stretches that hold no deposit',
      inputs: [count],
      compute,
      source: 'definition',
    });
  });
}

function bayLength(tracked: Tracked): Quantity {
  const { ctx, plan, work, name } = tracked;
  const path = `${name}.bayLength`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `length of the longest bay of ${name}`,
      symbol: 'l',
      kind: 'length',
      formula: 'l = greatest length of the n bays',
      inputs: [workLength(ctx, plan), bays(tracked)],
      compute: () => Math.max(...work.bays.map(({ bay }) => bay.s[1] - bay.s[0])),
      source: 'geometry',
      place: plan.work.heading,
    }),
  );
}

/** Shortest of the limits on residence, as the text says it. */
function residenceLimit({ ctx, plan }: Pick<Tracked, 'ctx' | 'plan'>): Explained | undefined {
  const soak = stepsOf(ctx, plan, 'soak')[0];
  const limits = [
    ...(soak?.step.atMost ? [leaf(soak.owner, 'atMost', 't_max')] : []),
    ...(plan.product?.dwellMost
      ? [leaf({ path: ctx.nameOf(plan.product), block: plan.product }, 'dwellMost', 't_max')]
      : []),
  ].flatMap(each => (isMissing(each) ? [] : [each]));
  return limits.toSorted((a, b) => a.value - b.value)[0];
}

function speedsOf(ctx: Context, plan: Plan): readonly Quantity[] {
  return stepsOf(ctx, plan, 'apply', 'agitate', 'jet', 'rinse').map(of => leaf(of.owner, 'speed', 'v'));
}

// ── steps ────────────────────────────────────────────────────────────────────────────────────────────────────────

function activitiesOf({ work }: Tracked, of: StepOf): readonly Activity[] {
  return work.bays.flatMap(bay => bay.activities.filter(each => each.planned === of.planned));
}

function ofStep(tracked: Tracked, of: StepOf): readonly Quantity[] {
  const all = activitiesOf(tracked, of);
  const runs = all.flatMap(each => each.machines.map(machine => machine.run));
  if (runs.length === 0 || runs.every(run => run.passes.length === 0)) return [];
  const { ctx } = tracked;
  const place = of.step.heading;
  const leader = leaderOf(ctx, of);
  const over = [bays(tracked), machineCount(of)];
  const make = (name: string, formula: Omit<Parameters<typeof quantity>[0], 'path' | 'place'>): Quantity =>
    ctx.once(`${of.path}.${name}`, () => quantity({ ...formula, path: `${of.path}.${name}`, place }));
  const sum = (value: (run: (typeof runs)[number]) => number): number =>
    runs.reduce((total, run) => total + value(run), 0);

  const passes = make('passes', {
    label: `passes of ${of.path}, all machines and bays`,
    symbol: 'N_p',
    kind: 'count',
    formula: 'N_p = passes of each machine in each bay',
    inputs: [widthOf(ctx, of), ...over],
    compute: () => sum(run => run.passes.length),
    source: 'geometry',
  });
  const turns = make('turns', {
    label: `turns of ${of.path}, all machines and bays`,
    symbol: 'N_t',
    kind: 'count',
    formula: 'N_t = turns between the N_p passes',
    inputs: [passes],
    compute: () => sum(run => run.turns.length),
    source: 'geometry',
  });
  const turning = make('turning', {
    label: `length of the turns of ${of.path}`,
    symbol: 'D_t',
    kind: 'length',
    formula: 'D_t = Σ (π · R + d − 2 · R where d ≥ 2 · R, else R · (π + 4 · arccos((d + 2 · R) / (4 · R))))',
    inputs: [turns, ...(leader ? [leaf(leader, 'turningRadius', 'R')] : [])],
    compute: () => sum(run => run.distance.turning),
    source: 'geometry',
    note: 'd is the distance of the lanes; a machine that reverses takes R · (π + 2) − d instead of the loop',
  });
  const distance = make('distance', {
    label: `way of all machines of ${of.path}, trips to fill and empty left out`,
    symbol: 'D_a',
    kind: 'length',
    formula: 'D_a = Σ l of the passes + D_t + empty returns',
    inputs: [passes, bayLength(tracked), turning],
    compute: () => sum(run => run.distance.working + run.distance.turning + run.distance.returning),
    source: 'geometry',
  });
  const trips = make('trips', {
    label: `trips to fill or empty in ${of.path}`,
    symbol: 'N_f',
    kind: 'count',
    formula: 'N_f = times that a tank or hopper does not last for the next pass',
    inputs: [
      passes,
      ...(leader && 'tank' in leader.block && leader.block.tank ? [leaf(leader as never, 'tank' as never, 'T')] : []),
    ],
    compute: () => sum(run => run.trips.filter(trip => trip.why !== 'return').length),
    source: 'common-practice',
    note: 'every bay starts with a full tank and an empty hopper',
  });
  const time = make('time', {
    label: `time of ${of.path} in all bays, with turns and trips`,
    symbol: 't',
    kind: 'time',
    formula: 't = Σ (last end − first start) of the bays',
    inputs: [
      distance,
      leaf(of.owner, 'speed', 'v'),
      ...(leader ? [leaf(leader, 'turnSpeed', 'v_t'), leaf(leader, 'turnTime', 't_t')] : []),
      trips,
    ],
    compute: () => all.reduce((total, each) => total + each.end - each.start, 0),
    source: 'mechanics',
    note: 'bays one after another, without waiting for machines',
  });
  return [
    passes,
    turns,
    turning,
    distance,
    trips,
    time,
    ...efficiency(tracked, of, all, time),
    ...laid(tracked, of, all),
    ...contactsOf(tracked, of),
    ...rinsesOf(tracked, of),
  ];
}

/** Field efficiency of a step: useful time over total time. */
function efficiency(tracked: Tracked, of: StepOf, all: readonly Activity[], time: Quantity): readonly Quantity[] {
  const { ctx, plan } = tracked;
  const path = `${of.path}.efficiency`;
  const rounds = all[0]?.rounds ?? 1;
  const convoy = of.does === 'agitate' || of.does === 'rinse';
  const next = of.does === 'agitate' && of.step.tandem?.value.lane === 'next';
  const width = Math.min(...all.flatMap(each => each.machines.map(machine => machine.width)));
  return [
    ctx.once(path, () =>
      quantity({
        path,
        label: `field efficiency of ${of.path}`,
        symbol: 'E',
        kind: 'share',
        formula: 'E = m · A / (w · v · n) / t',
        inputs: [
          quantity({
            path: `${of.path}.rounds`,
            label: `times that ${of.path} goes over the ground`,
            symbol: 'm',
            kind: 'count',
            formula: 'm = coats, passes, or runs of circuits out and in',
            inputs: [],
            compute: () => rounds,
            source: 'definition',
            place: of.step.heading,
          }),
          workArea(ctx, plan),
          convoy ? { ...widthLike(of, width), symbol: 'w' } : widthOf(ctx, of),
          leaf(of.owner, 'speed', 'v'),
          machineCount(of),
          time,
        ],
        compute: (m, area, w, v, n, t) => m! * fieldEfficiency(area!, w! * (convoy && !next ? 1 : n!), v!, t!),
        source: 'asae-ep496',
        place: of.step.heading,
        note: convoy && !next ? 'the machines of a convoy share one lane: n = 1' : 'useful time over total time',
      }),
    ),
  ];
}

function widthLike(of: StepOf, width: number): Explained {
  return {
    path: `${of.path}.laneWidth`,
    label: `width of the lane that ${of.path} works`,
    symbol: 'w',
    kind: 'length',
    value: width,
    formula: 'w = least swept width of the convoy',
    inputs: [],
    source: 'geometry',
    place: of.step.heading,
  };
}

/** Mix that the passes of an apply step really lay, swaths over the edges of the deposit and overlaps included. */
function laid({ ctx }: Tracked, of: StepOf, all: readonly Activity[]): readonly Quantity[] {
  if (of.does !== 'apply') return [];
  const path = `${of.path}.laid`;
  return [
    ctx.once(path, () =>
      quantity({
        path,
        label: `mix that the passes of ${of.path} lay`,
        symbol: 'V_l',
        kind: 'volume',
        formula: 'V_l = Σ r · b · l of the passes',
        inputs: [leaf(of.owner, 'overlap', 'o'), widthOf(ctx, of)],
        compute: () =>
          all.reduce((sum, each) => sum + each.machines.reduce((of, { run }) => of + run.used / 1000, 0), 0),
        source: 'definition',
        place: of.step.heading,
        note: 'bays are sprayed as rectangles; overlaps get it twice',
      }),
    ),
  ];
}

// ── exposure ─────────────────────────────────────────────────────────────────────────────────────────────────────

interface At<T> {
  readonly at: T;
  readonly bay: BayTracks;
}

function extreme<T>(
  exposures: readonly BayExposure[],
  value: (of: BayExposure['exposure']) => T | null | undefined,
  better: (a: T, b: T) => boolean,
): At<T> | undefined {
  let best: At<T> | undefined;
  for (const { tracks, exposure } of exposures) {
    const at = value(exposure);
    if (at !== null && at !== undefined && (!best || better(at, best.at))) best = { at, bay: tracks };
  }
  return best;
}

const less = (a: TimeAt, b: TimeAt): boolean => a.seconds < b.seconds - 1e-9;
const more = (a: TimeAt, b: TimeAt): boolean => a.seconds > b.seconds + 1e-9;
const fewer = (a: CountAt, b: CountAt): boolean => a.count < b.count;

/** The three clocks of a work, each with its place. */
function clocks(tracked: Tracked): readonly Quantity[] {
  const { ctx, plan, exposures, name } = tracked;
  const soak = stepsOf(ctx, plan, 'soak')[0];
  const stem = soak?.path ?? `${name}.soak`;
  const spreads = exposures.flatMap(each => spreadOf(ctx.job, each.tracks) ?? []);
  const lag = lagOf(tracked);
  const speeds = speedsOf(ctx, plan);
  const rest = [...(lag ? [lag] : []), bayLength(tracked), ...speeds];
  const clock = (
    path: string,
    label: string,
    symbol: string,
    formula: string,
    found: At<TimeAt> | undefined,
    spread: (of: Spread) => readonly [number, number] | undefined,
    inputs: readonly Quantity[],
  ): readonly Quantity[] => {
    if (!found) return [];
    const made = ctx.once(path, () => {
      const result = quantity({
        path,
        label,
        symbol,
        kind: 'time',
        formula,
        inputs,
        monotone: false,
        compute: () => found.at.seconds,
        source: 'geometry',
        place: soak?.step.heading ?? plan.work.heading,
        note: `at ${placeText(found.at, ctx.job.system, found.bay.bay.number)}`,
      });
      const ranges = spreads.flatMap(each => spread(each) ?? []);
      return isMissing(result) || ranges.length === 0
        ? result
        : { ...result, interval: [Math.min(...ranges), Math.max(...ranges)] as const };
    });
    return [made];
  };
  return [
    ...(lag ? [lag] : []),
    ...clock(
      `${stem}.least`,
      `shortest soak of any point of ${name}`,
      't_s',
      't_s = least (t_tool − t_full) over all points',
      extreme(exposures, each => each.soak?.least, less),
      each => each.leastSoak,
      rest,
    ),
    ...clock(
      `${stem}.greatest`,
      `longest soak of any point of ${name}`,
      't_s',
      't_s = greatest (t_tool − t_full) over all points',
      extreme(exposures, each => each.soak?.greatest, more),
      each => each.greatestSoak,
      rest,
    ),
    ...clock(
      `${name}.wetGap`,
      `longest time since any wetting until the last agitation in ${name}`,
      't_w',
      't_w = greatest gap between wettings up to the last agitation, over all points',
      extreme(exposures, each => each.wetGap?.greatest, more),
      each => each.wetGap,
      rest,
    ),
    ...clock(
      `${name}.residence`,
      `longest time from first product to last rinse in ${name}`,
      't_r',
      't_r = greatest (t_rinse − t_product) over all points',
      extreme(exposures, each => each.residence?.greatest, more),
      each => each.residence,
      rest,
    ),
  ];
}

/** Lag from the start of spraying to the start of the first tool that gives every point its soak. */
function lagOf(tracked: Tracked): Quantity | undefined {
  const { ctx, plan, work } = tracked;
  const tool = stepsOf(ctx, plan, 'agitate', 'jet')[0];
  const soak = stepsOf(ctx, plan, 'soak')[0];
  const lags = work.bays.flatMap(bay => bay.lags.filter(each => each.why === 'dwell at every point'));
  if (!tool || !soak || lags.length === 0) return undefined;
  const path = `${tool.path}.lag`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `least lag from the start of spraying to the start of ${tool.path}`,
      symbol: 'Δ',
      kind: 'time',
      formula: 'Δ = t_min − least (t_tool − t_full) with both started together',
      inputs: [
        soakLimit(tracked, soak),
        bayLength(tracked),
        ...stepsOf(ctx, plan, 'apply').map(of => leaf(of.owner, 'speed', 'v')),
        leaf(tool.owner, 'speed', 'v'),
      ],
      monotone: false,
      compute: () => Math.max(...lags.map(each => each.least ?? 0)),
      source: 'geometry',
      place: tool.step.heading,
      note: 'the greatest of the bays',
    }),
  );
}

function soakLimit({ ctx, plan, work }: Tracked, soak: StepOf): Quantity {
  const classes = work.bays.flatMap(({ bay }) => bay.classes).filter(each => each?.soak);
  const longest = classes.toSorted((a, b) => b!.soak!.value - a!.soak!.value)[0];
  const own = leaf(soak.owner, 'atLeast', 't_min');
  if (!longest || (!isMissing(own) && own.value > longest.soak!.value)) return own;
  return leaf({ path: `${ctx.nameOf(plan.work)}.${longest.name}`, block: longest }, 'soak', 't_min');
}

function contactsOf({ ctx, exposures, name }: Tracked, of: StepOf): readonly Quantity[] {
  if (of.does !== 'agitate') return [];
  const least = extreme(exposures, each => each.contacts.least, fewer);
  const most = extreme(
    exposures,
    each => each.contacts.most,
    (a, b) => a.count > b.count,
  );
  const count = (which: 'least' | 'most', found: At<CountAt> | undefined): readonly Quantity[] => {
    if (!found) return [];
    const path = `${of.path}.contacts.${which}`;
    return [
      ctx.once(path, () =>
        quantity({
          path,
          label: `${which === 'least' ? 'fewest' : 'most'} contacts of any point of ${name}`,
          symbol: which === 'least' ? 'N_least' : 'N_most',
          kind: 'count',
          formula: `N = ${which === 'least' ? 'fewest' : 'most'} bands over a point, in all runs`,
          inputs: [widthOf(ctx, of), machineCount(of), leaf(of.owner, 'cycles', 'c')],
          compute: () => found.at.count,
          source: 'geometry',
          place: of.step.heading,
          note: `at ${placeText(found.at, ctx.job.system, found.bay.bay.number)}`,
        }),
      ),
    ];
  };
  return [...count('least', least), ...count('most', most)];
}

function rinsesOf({ ctx, exposures }: Tracked, of: StepOf): readonly Quantity[] {
  if (of.does !== 'rinse') return [];
  const least = extreme(exposures, each => each.rinsesAtCentreline?.least, fewer);
  if (!least) return [];
  const path = `${of.path}.rinses`;
  const first = of.step.firstCircuit as Given<{ usual: number }> | undefined;
  return [
    ctx.once(path, () =>
      quantity({
        path,
        label: `rinse passes over the centreline in ${of.path}`,
        symbol: 'N_r',
        kind: 'count',
        formula: 'N_r = fewest bands of the rinse over a point of the centreline',
        inputs: [
          partOf(first, value => value.usual, {
            path: `${of.path}.first-circuit`,
            label: `times of the first circuit of ${of.path}`,
            symbol: 'm₁',
            kind: 'count',
          }),
        ],
        compute: () => least.at.count,
        source: 'geometry',
        place: of.step.heading,
        note: 'both passes of a circuit overlap there',
      }),
    ),
  ];
}

/** From the first movement of a work to its last on the runway, bays and steps one after another. */
function workTime({ ctx, plan, unscheduled, name }: Tracked): Quantity {
  const path = `${name}.time`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `time of ${name} on the runway, bays one after another`,
      symbol: 't_W',
      kind: 'time',
      formula: 't_W = Σ t of steps and soaks of all bays',
      inputs: stepsOf(ctx, plan, ...DRIVES).flatMap(of => {
        const time = ctx.once(`${of.path}.time`, () => ({ path: '', label: '', lacks: [] }));
        return isMissing(time) ? [] : [time];
      }),
      compute: () => unscheduled.end - unscheduled.start,
      source: 'definition',
      place: plan.work.heading,
      note: 'without a schedule: nothing is done at the same time',
    }),
  );
}
