/**
 * Water: for each step that puts it on, for the work as a whole, and what has to be collected afterwards. Symbols: r rate
 * of water, A area, V volume, Q flow, n repetitions.
 */
import * as jets from '../formulas/jets.ts';
import * as water from '../formulas/water.ts';
import type { Jet, Plan, Runway } from '../job/job.ts';
import { workArea } from './area.ts';
import { time } from './coverage.ts';
import { classesOf, loadsOf, refillsOf, workDilutionWater, workMix } from './product.ts';
import {
  type Context,
  isMissing,
  leaf,
  missing,
  numberOf,
  type Owner,
  partOf,
  type Quantity,
  quantity,
  sum,
} from './quantity.ts';
import { type Does, machinesOf, noMachine, type StepOf, stepsOf, tankOf, widthOf } from './steps.ts';

/** Steps that put water on the pavement, and the name of their sum in the work. */
const sums = [
  ['pre-wet', 'preWetWater', 'pre-wetting'],
  ['keep-wet', 'keepWetWater', 'keeping wet'],
  ['rinse', 'rinseWater', 'rinsing'],
  ['jet', 'jetWater', 'jetting'],
  ['wash-down', 'washWater', 'washing the plant'],
] as const satisfies readonly (readonly [Does, string, string])[];

/** W.preWetWater … W.washWater, W.water, W.runoff. */
export function waterQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  const parts = sums.flatMap(([does, name, words]) => {
    return stepsOf(ctx, plan, does).length > 0 ? [sumOf(ctx, plan, does, name, words)] : [];
  });
  if (parts.length === 0 && stepsOf(ctx, plan, 'apply').length === 0) return [];
  return [...parts, workWater(ctx, plan), ...runoffQuantities(ctx, plan)];
}

function sumOf(ctx: Context, plan: Plan, does: Does, name: string, words: string): Quantity {
  const work = ctx.nameOf(plan.work);
  return ctx.once(`${work}.${name}`, () =>
    sum({
      path: `${work}.${name}`,
      label: `water for ${words} in ${work}`,
      symbol: 'V',
      of: 'V of the steps',
      kind: 'volume',
      inputs: stepsOf(ctx, plan, does).map(of => stepWater(ctx, of)),
      place: plan.work.heading,
    }),
  );
}

/** W.water: all that has to be brought, dilution water included. */
export function workWater(ctx: Context, plan: Plan): Quantity {
  const work = ctx.nameOf(plan.work);
  return ctx.once(`${work}.water`, () => {
    const dilution = stepsOf(ctx, plan, 'apply').length > 0 ? [workDilutionWater(ctx, plan)] : [];
    const parts = sums.flatMap(([does, name, words]) => {
      return stepsOf(ctx, plan, does).length > 0 ? [sumOf(ctx, plan, does, name, words)] : [];
    });
    // Wash water is seldom stated: what is not stated is left out and said so.
    const wash = parts.find(part => part.path === `${work}.washWater`);
    const unstated = wash && isMissing(wash);
    return sum({
      path: `${work}.water`,
      label: `water for ${work}`,
      symbol: 'V',
      of: 'V of all uses',
      kind: 'volume',
      inputs: [...dilution, ...parts.filter(part => !(unstated && part === wash))],
      place: plan.work.heading,
      ...(unstated && { note: 'without the washing of the plant, whose water is not stated' }),
    });
  });
}

// Steps

/** Water, flow, loads and refills of one step; nothing for a step without water. */
export function stepWaterQuantities(ctx: Context, of: StepOf): readonly Quantity[] {
  if (of.does === 'wash-down') return [stepWater(ctx, of)];
  if (!['pre-wet', 'keep-wet', 'rinse', 'jet'].includes(of.does)) return [];
  const loads = ctx.once(`${of.path}.loads`, () => {
    return loadsOf(of, `${of.path}.loads`, stepWater(ctx, of), tankOf(ctx, of));
  });
  return [
    stepWater(ctx, of),
    stepFlow(ctx, of),
    loads,
    ctx.once(`${of.path}.refills`, () => refillsOf(of, `${of.path}.refills`, loads)),
    ...(of.does === 'jet' ? jetQuantities(ctx, of) : []),
  ];
}

/** Water of a step: its rate over the area of the work. */
export function stepWater(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.water`;
  return ctx.once(path, () => {
    if (of.does === 'wash-down') return washWater(ctx, of, path);
    const named = { path, label: `water for ${of.path}`, symbol: 'V', kind: 'volume' as const, place: of.step.heading };
    const idle = leftOut(ctx, of);
    if (idle)
      return quantity({
        ...named,
        formula: 'V = 0',
        inputs: idle.inputs,
        compute: () => 0,
        source: 'common-practice',
        note: idle.note,
      });
    const only = of.step.when ? { note: 'only where the pavement is in the temperature range of the step' } : {};
    if (of.does === 'keep-wet') {
      return quantity({
        ...named,
        formula: 'V = r · A · n',
        inputs: [waterRate(ctx, of), workArea(ctx, of.plan), repeats(ctx, of)],
        compute: (rate, area, n) => water.waterVolume(rate!, area!) * n!,
        source: 'definition',
        ...only,
      });
    }
    return quantity({
      ...named,
      formula: 'V = r · A',
      inputs: [waterRate(ctx, of), workArea(ctx, of.plan)],
      compute: (rate, area) => water.waterVolume(rate!, area!),
      source: 'definition',
      ...only,
    });
  });
}

/** Rate of water of a step: as stated, or what the jet's nozzles deliver. */
function waterRate(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.rate`;
  return ctx.once(path, () => {
    const named = {
      path,
      label: `rate of water of ${of.path}`,
      symbol: 'r',
      kind: 'application rate' as const,
      place: of.step.heading,
    };
    const jet = machinesOf(ctx, of, 'jet')[0];
    if (!of.step.rate && of.does === 'jet' && jet) {
      return quantity({
        ...named,
        formula: 'r = Q · m / (v · b)',
        inputs: [
          nozzlesFlow(ctx, of, jet),
          leaf(of.owner, 'passes', 'm'),
          leaf(of.owner, 'speed', 'v'),
          leaf(jet, 'width', 'b'),
        ],
        compute: (flow, passes, speed, width) => (flow! * passes!) / (speed! * width!),
        source: 'sprayer-manual-metric',
        note: 'the rate is not stated: it is what the nozzles deliver',
      });
    }
    return partOf(of.step.rate, ({ rate }) => rate, named);
  });
}

/** A step bound to pavement temperatures is left out where the pavement is planned outside of them. */
function leftOut(ctx: Context, of: StepOf): { inputs: readonly Quantity[]; note: string } | undefined {
  const conditions = ctx.job.blocks.conditions[0];
  const when = of.step.when?.value;
  if (!when || !conditions?.surface) return undefined;
  const { value } = conditions.surface;
  if (value >= (when.least ?? Number.NEGATIVE_INFINITY) && value <= (when.most ?? Number.POSITIVE_INFINITY))
    return undefined;
  const surface = leaf({ path: ctx.nameOf(conditions), block: conditions }, 'surface', 'T_s');
  return {
    inputs: [surface],
    note: `left out: the pavement is outside ${of.step.when!.text}, for which the step is meant`,
  };
}

/** How often a keep-wet step comes while the product soaks: after every interval that ends before the soak does. */
function repeats(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.repeats`;
  return ctx.once(path, () => {
    const soak = stepsOf(ctx, of.plan, 'soak')[0];
    if (!soak) {
      return missing(path, `repeats of ${of.path}`, {
        clause: `a soak step beside ${of.path} is missing`,
        place: of.step.heading,
      });
    }
    return quantity({
      path,
      label: `times ${of.path} is done during the least soak`,
      symbol: 'n',
      kind: 'count',
      formula: 'n = max(0, ⌈t_s / t_e⌉ − 1)',
      inputs: [soakOf(ctx, soak), leaf(of.owner, 'every', 't_e')],
      compute: (soaking, every) => Math.max(0, Math.ceil(soaking! / every! - 1e-9) - 1),
      source: 'common-practice',
      place: of.step.heading,
      note: 'a longer soak needs more of them',
    });
  });
}

/** The least soak of a work: as the step says, or the longest that the build-up of its deposits asks for. */
function soakOf(ctx: Context, soak: StepOf): Quantity {
  const own = classesOf(ctx, soak.plan).flatMap(({ buildUp }) =>
    buildUp?.soak
      ? [leaf({ path: `${ctx.nameOf(soak.plan.work)}.${buildUp.name}`, block: buildUp }, 'soak', 't_s')]
      : [],
  );
  const all = [...own, leaf(soak.owner, 'atLeast', 't_s')];
  // A build-up's soak takes the place of the step's; where only some classes have one, the longest governs.
  const those = own.length === classesOf(ctx, soak.plan).length ? own : all;
  return those.reduce((most, each) => ((numberOf(each) ?? Infinity) > (numberOf(most) ?? Infinity) ? each : most));
}

/** Flow of a step's spray bar or jet that puts its rate on. */
function stepFlow(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.flow`;
  return ctx.once(path, () => {
    const named = { path, label: `flow in ${of.path}`, symbol: 'Q', kind: 'flow' as const, place: of.step.heading };
    if (of.does === 'rinse') {
      return quantity({
        ...named,
        formula: 'Q = V / t',
        inputs: [stepWater(ctx, of), time(ctx, of)],
        compute: (volume, duration) => volume! / duration!,
        source: 'mechanics',
        note: 'so that the water of the step lasts for all its circuits',
      });
    }
    const passes = of.step.passes && of.does !== 'keep-wet' ? [leaf(of.owner, 'passes', 'm')] : [];
    return quantity({
      ...named,
      formula: passes.length > 0 ? 'Q = r · v · b / m' : 'Q = r · v · b',
      inputs: [waterRate(ctx, of), leaf(of.owner, 'speed', 'v'), widthOf(ctx, of), ...passes],
      compute: (rate, speed, width, m = 1) => (rate! * speed! * width!) / m,
      source: 'sprayer-manual-metric',
    });
  });
}

function washWater(ctx: Context, of: StepOf, path: string): Quantity {
  const pads = ctx.job.blocks.airports.flatMap(airport => airport.washPads);
  const pad = pads.length === 1 ? pads[0] : undefined;
  const each =
    of.step.water || !pad?.water
      ? leaf(of.owner, 'water', 'V₁')
      : leaf({ path: ctx.nameOf(pad), block: pad }, 'water', 'V₁');
  return quantity({
    path,
    label: `water for ${of.path}`,
    symbol: 'V',
    kind: 'volume',
    formula: 'V = V₁ · n',
    inputs: [each, washedMachines(ctx, of)],
    compute: (one, n) => one! * n!,
    source: 'definition',
    place: of.step.heading,
  });
}

/** The machines that are washed: those that the step names, else all of the work. */
function washedMachines(_: Context, of: StepOf): Quantity {
  const named = [...of.planned.machines, ...of.planned.with];
  const all = of.plan.steps.flatMap(step => [...step.machines, ...step.with]);
  const counts = new Map<string, number>();
  for (const { machine, count } of named.length > 0 ? named : all) {
    counts.set(machine.id, Math.max(count, counts.get(machine.id) ?? 0));
  }
  const path = `${of.path}.machines`;
  if (counts.size === 0) return noMachine(of, path, 'machines');
  return quantity({
    path,
    label: named.length > 0 ? `machines of ${of.path}` : 'machines of the work',
    symbol: 'n',
    kind: 'count',
    formula: 'n = number of machines',
    inputs: [],
    compute: () => [...counts.values()].reduce((a, b) => a + b, 0),
    source: 'definition',
    place: of.step.heading,
  });
}

// Jets

/** Power, jet speed and force of a jet step. Losses and the pump's own are left out of the hydraulic power. */
function jetQuantities(ctx: Context, of: StepOf): readonly Quantity[] {
  const jet = machinesOf(ctx, of, 'jet')[0];
  if (!jet) return [];
  const flow = stepFlow(ctx, of);
  const place = of.step.heading;
  const pressure = leaf(of.owner, 'pressure', 'p');
  const make = (name: string, formula: Omit<Parameters<typeof quantity>[0], 'path' | 'place'>): Quantity => {
    const path = `${of.path}.${name}`;
    return ctx.once(path, () => quantity({ ...formula, path, place }));
  };
  return [
    ...(jet.block.nozzles && jet.block.bore ? [nozzlesFlow(ctx, of, jet)] : []),
    ...(jet.block.nozzles
      ? [
          make('nozzleFlow', {
            label: `flow of one nozzle in ${of.path}`,
            symbol: 'q',
            kind: 'flow',
            formula: 'q = Q / n',
            inputs: [flow, leaf(jet, 'nozzles', 'n')],
            compute: (all, n) => all! / n!,
            source: 'mechanics',
          }),
        ]
      : []),
    make('power', {
      label: `hydraulic power in ${of.path}`,
      symbol: 'P',
      kind: 'power',
      formula: 'P = Q · p',
      inputs: [flow, pressure],
      compute: (q, p) => jets.hydraulicPower(q!, p!),
      source: 'hydraulic-power-pages',
    }),
    make('shaftPower', {
      label: `power at the pump shaft in ${of.path}`,
      symbol: 'P_s',
      kind: 'power',
      formula: 'P_s = Q · p / η',
      inputs: [flow, pressure, leaf(jet, 'efficiency', 'η')],
      compute: (q, p, efficiency) => jets.shaftPower(q!, p!, efficiency!),
      source: 'hydraulic-power-pages',
    }),
    make('jetSpeed', {
      label: `speed of the jets in ${of.path}`,
      symbol: 'v_j',
      kind: 'speed',
      formula: 'v_j = √(2 · p / 1000 kg/m³)',
      inputs: [pressure],
      compute: p => jets.jetSpeed(p!),
      source: 'mechanics',
      note: 'without losses, as the jet leaves the nozzle',
    }),
    make('force', {
      label: `force of all jets in ${of.path}`,
      symbol: 'F',
      kind: 'force',
      formula: 'F = Q · √(2 · 1000 kg/m³ · p)',
      inputs: [flow, pressure],
      compute: (q, p) => jets.jetForce(q!, p!),
      source: 'mechanics',
      note: 'the greatest push on a flat surface square to the jets; losses make it less',
    }),
  ];
}

/** Flow that a jet's nozzles deliver at the pressure of the step. */
function nozzlesFlow(ctx: Context, of: StepOf, jet: Owner<Jet>): Quantity {
  const path = `${of.path}.nozzlesDeliver`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `flow that the nozzles deliver at the pressure of ${of.path}`,
      symbol: 'Q',
      kind: 'flow',
      formula: 'Q = n · C_d · (π / 4) · d² · √(2 · p / 1000 kg/m³)',
      inputs: [
        leaf(jet, 'nozzles', 'n'),
        leaf(jet, 'discharge', 'C_d'),
        leaf(jet, 'bore', 'd'),
        leaf(of.owner, 'pressure', 'p'),
      ],
      compute: (n, coefficient, bore, pressure) => n! * jets.nozzleFlow(bore!, pressure!, coefficient!),
      source: 'fire-service-hydraulics',
      place: of.step.heading,
    }),
  );
}

// What has to be collected

/**
 * W.runoff: the liquid that has to be collected. Evaporation and what wheels carry off are not stated anywhere, so it is an
 * upper bound; where the texture depth is known, what the texture can hold gives the lower bound. Source: `mechanics`.
 */
function runoffQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  const work = ctx.nameOf(plan.work);
  const held = textureHolds(ctx, plan);
  const runoff = workRunoff(ctx, plan);
  const environment = ctx.job.blocks.environments[0];
  if (!environment?.recovered) return [...(held ? [held] : []), runoff];
  const collect = ctx.once(`${work}.toRecover`, () =>
    quantity({
      path: `${work}.toRecover`,
      label: `water to recover in ${work}`,
      symbol: 'V_c',
      kind: 'volume',
      formula: 'V_c = k · V_r',
      inputs: [leaf({ path: ctx.nameOf(environment), block: environment }, 'recovered', 'k'), runoff],
      compute: (share, volume) => share! * volume!,
      source: 'definition',
      place: plan.work.heading,
    }),
  );
  return [...(held ? [held] : []), runoff, collect];
}

export function workRunoff(ctx: Context, plan: Plan): Quantity {
  const work = ctx.nameOf(plan.work);
  return ctx.once(`${work}.runoff`, () => {
    const mix = stepsOf(ctx, plan, 'apply').length > 0 ? [workMix(ctx, plan)] : [];
    const parts = sums.flatMap(([does, name, words]) => {
      return does !== 'wash-down' && stepsOf(ctx, plan, does).length > 0 ? [sumOf(ctx, plan, does, name, words)] : [];
    });
    const applied = quantity({
      path: `${work}.runoff`,
      label: `liquid to collect in ${work}, at most`,
      symbol: 'V_r',
      kind: 'volume',
      formula: 'V_r = Σ V put on the pavement',
      inputs: [...mix, ...parts],
      compute: (...volumes) => {
        const all = volumes.reduce((total, volume) => total + volume, 0);
        return water.runoffToCollect({ applied: all, evaporated: 0, retained: 0, trackedOff: 0 });
      },
      source: 'mechanics',
      place: plan.work.heading,
      note: 'upper bound: nothing evaporates, nothing stays in the texture',
    });
    const held = textureHolds(ctx, plan);
    const retained = held && numberOf(held);
    if (isMissing(applied) || !retained) return applied;
    const [low, high] = applied.interval ?? [applied.value, applied.value];
    return {
      ...applied,
      interval: [water.runoffToCollect({ applied: low, evaporated: 0, retained, trackedOff: 0 }), high],
      note: `${applied.note}; the lower bound leaves the texture full (${work}.retained), still without evaporation`,
    };
  });
}

/** W.retained: the most that the texture can hold; undefined where no texture depth is given. */
function textureHolds(ctx: Context, plan: Plan): Quantity | undefined {
  // By the deposits' own words: the plan names no runway where they count from different ends of it.
  const named = plan.deposits[0]?.on?.value.runway;
  const block = named && ctx.job.byId.get(named.id);
  const runway = block?.kind === 'runway' ? (block as Runway) : undefined;
  if (!runway?.texture) return undefined;
  const work = ctx.nameOf(plan.work);
  return ctx.once(`${work}.retained`, () =>
    quantity({
      path: `${work}.retained`,
      label: `most that the texture can hold in ${work}`,
      symbol: 'V_t',
      kind: 'volume',
      formula: 'V_t = d · A',
      inputs: [leaf({ path: ctx.nameOf(runway), block: runway }, 'texture', 'd'), workArea(ctx, plan)],
      compute: (depth, area) => water.textureStorage(depth!, area!),
      source: 'geometry',
      place: plan.work.heading,
    }),
  );
}
