/**
 * How a step covers the ground: swept width, advance, overlap, lanes or circuits, driving time, theoretical capacity.
 * Without turns, refills and bays: those belong to the tracks. Symbols: b machine width, w swept width, o overlap,
 * a advance, N lanes, C circuits, L length, v speed, n machines, m repetitions.
 */
import * as brooms from '../formulas/brooms.ts';
import type { Broom } from '../job/job.ts';
import { circuitOffsets, lanesFromCentreline, lanesNeeded } from '../tracks/lanes.ts';
import { coatsOf } from './application.ts';
import { workArea, workLength, workReach } from './area.ts';
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
} from './quantity.ts';
import { machineCount, machinesOf, type StepOf, widthOf } from './steps.ts';

const LANES = ['sweep', 'pre-wet', 'apply', 'keep-wet', 'jet', 'pick-up'];
const CIRCUITS = ['agitate', 'rinse'];

/** Coverage of a step in which machines drive; nothing for the others. */
export function coverageQuantities(ctx: Context, of: StepOf): readonly Quantity[] {
  if (LANES.includes(of.does)) return [lanes(ctx, of), drivenLength(ctx, of), time(ctx, of), productionRate(ctx, of)];
  if (!CIRCUITS.includes(of.does)) return [];
  return [
    swept(ctx, of),
    advance(ctx, of),
    overlap(ctx, of),
    overlapShare(ctx, of),
    circuits(ctx, of),
    lanes(ctx, of),
    ...(of.does === 'agitate' ? [contacts(ctx, of)] : []),
    ...(broomOf(ctx, of)?.block.pattern ? [contactTime(ctx, of)] : []),
    drivenLength(ctx, of),
    time(ctx, of),
    productionRate(ctx, of),
  ];
}

// Brooms

/** The broom of a step; in a rinse convoy it may follow the truck. */
function broomOf(ctx: Context, of: StepOf): Owner<Broom> | undefined {
  return machinesOf(ctx, of, 'broom')[0];
}

/** Swept width of one broom, w = b · cos a. Angles are in turns. Source: `geometry`. */
export function broomSwept(ctx: Context, broom: Owner<Broom>): Quantity {
  const path = `${broom.path}.swept`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `swept width of ${broom.path}`,
      symbol: 'w',
      kind: 'length',
      formula: 'w = b · cos α',
      inputs: [leaf(broom, 'width', 'b'), leaf(broom, 'angle', 'α')],
      compute: (width, angle) => brooms.sweptWidth(width!, angle! * 2 * Math.PI),
      source: 'geometry',
      place: broom.block.heading,
    }),
  );
}

/** Swept width of a step: the narrowest of its brooms; without a broom, the width of the machine. */
function swept(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.swept`;
  return ctx.once(path, () => {
    const all = machinesOf(ctx, of, 'broom').map(broom => broomSwept(ctx, broom));
    const label = `swept width in ${of.path}`;
    const named = {
      path,
      label,
      symbol: 'w',
      kind: 'length' as const,
      source: 'geometry' as const,
      place: of.step.heading,
    };
    if (all.length === 0) return quantity({ ...named, formula: 'w = b', inputs: [widthOf(ctx, of)], compute: b => b });
    const different = all.filter((each, i) => all.findIndex(other => other.path === each.path) === i);
    if (different.length === 1) {
      const broom = broomOf(ctx, of)!;
      return quantity({
        ...named,
        formula: 'w = b · cos α',
        inputs: [leaf(broom, 'width', 'b'), leaf(broom, 'angle', 'α')],
        compute: (width, angle) => brooms.sweptWidth(width!, angle! * 2 * Math.PI),
      });
    }
    return quantity({
      ...named,
      formula: 'w = least w',
      inputs: different,
      compute: (...widths) => Math.min(...widths),
    });
  });
}

/** How much wider each circuit is. */
function advance(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.advance`;
  return ctx.once(path, () => {
    const given = of.step.advance;
    const named = {
      path,
      label: `advance of each circuit in ${of.path}`,
      symbol: 'a',
      kind: 'length' as const,
      place: of.step.heading,
    };
    if (!given) {
      return missing(path, named.label, { clause: `the advance of ${of.path} is missing`, place: of.step.heading });
    }
    if (given.value.of === 'length') {
      const length = partOf(given, value => (value.of === 'length' ? value.length : undefined), {
        path: `${of.path}.advance`,
        label: named.label,
        symbol: 'a',
        kind: 'length',
      });
      return length;
    }
    const share = partOf(given, value => (value.of === 'length' ? undefined : value.share), {
      path: `${of.path}.advanceShare`,
      label: `advance as a share of the ${given.value.of} width`,
      symbol: 'h',
      kind: 'number',
    });
    const nominal = given.value.of === 'nominal';
    const broom = broomOf(ctx, of);
    return quantity({
      ...named,
      formula: nominal ? 'a = h · b' : 'a = h · w',
      inputs: [share, nominal ? (broom ? leaf(broom, 'width', 'b') : widthOf(ctx, of)) : swept(ctx, of)],
      compute: (part, width) => part! * width!,
      source: 'common-practice',
    });
  });
}

/** What neighbouring circuits overlap. Negative where a strip is missed. */
function overlap(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.overlap`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `overlap of neighbouring circuits in ${of.path}`,
      symbol: 'o',
      kind: 'length',
      formula: 'o = w − a',
      inputs: [swept(ctx, of), advance(ctx, of)],
      compute: (width, pitch) => width! - pitch!,
      source: 'geometry',
      place: of.step.heading,
    }),
  );
}

function overlapShare(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.overlapShare`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `overlap in ${of.path}, as a share of the swept width`,
      symbol: 'e',
      kind: 'share',
      formula: 'e = (w − a) / w',
      inputs: [swept(ctx, of), advance(ctx, of)],
      compute: (width, pitch) => brooms.overlapShare(width!, pitch!),
      source: 'geometry',
      place: of.step.heading,
    }),
  );
}

/** Fewest contacts of a point away from the edges, over all runs and followers. */
function contacts(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.contacts`;
  return ctx.once(path, () => {
    const followers = of.step.tandem?.value.lane === 'next' ? 1 : (numberOf(machineCount(of)) ?? 1);
    return quantity({
      path,
      label: `fewest contacts in ${of.path} away from the edges`,
      symbol: 'N_c',
      kind: 'count',
      formula: followers > 1 ? 'N_c = ⌊w / a⌋ · m · n' : 'N_c = ⌊w / a⌋ · m',
      inputs: [swept(ctx, of), advance(ctx, of), repetitions(ctx, of), ...(followers > 1 ? [machineCount(of)] : [])],
      compute: (width, pitch, runs, n = 1) =>
        (brooms.interiorContacts(width!, pitch!)?.least ?? Number.NaN) * runs! * n,
      source: 'geometry',
      place: of.step.heading,
      note: 'at the edges there are fewer; the exposure of each point counts them all',
    });
  });
}

/** Time that bristles touch a point in one pass. */
function contactTime(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.contactTime`;
  const broom = broomOf(ctx, of)!;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `time of contact of one pass in ${of.path}`,
      symbol: 't_c',
      kind: 'time',
      formula: 't_c = x / v',
      inputs: [leaf(broom, 'pattern', 'x'), leaf(of.owner, 'speed', 'v')],
      compute: (pattern, speed) => brooms.contactTime(pattern!, speed!),
      source: 'geometry',
      place: of.step.heading,
    }),
  );
}

// Lanes and circuits

/** Whether the members of a convoy of brooms take neighbouring lanes. */
function spreads(of: StepOf): boolean {
  return of.does === 'agitate' && of.step.tandem?.value.lane === 'next';
}

/** Circuits round the centreline, by the same rule as the tracks. */
function circuits(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.circuits`;
  return ctx.once(path, () => {
    const spread = spreads(of);
    return quantity({
      path,
      label: `circuits of ${of.path}`,
      symbol: 'C',
      kind: 'count',
      formula: spread ? 'C = ⌈(greatest t − w / 2 + a / 2) / (n · a)⌉' : 'C = ⌈(greatest t − w / 2 + a / 2) / a⌉',
      inputs: [
        workReach(ctx, of.plan, 'left'),
        workReach(ctx, of.plan, 'right'),
        swept(ctx, of),
        advance(ctx, of),
        ...(spread ? [machineCount(of)] : []),
      ],
      compute: (left, right, width, pitch, n = 1) => {
        const laid = circuitOffsets(Math.max(left!, right!), width!, pitch!);
        return laid.problem ? Number.NaN : Math.ceil(laid.lanes.length / n);
      },
      source: 'geometry',
      place: of.step.heading,
      note: 'over the greatest reach from the centreline; the first lane is centred at half the advance',
    });
  });
}

/** Lanes of a step; of circuits two each. */
function lanes(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.lanes`;
  return ctx.once(path, () => {
    const named = {
      path,
      label: `lanes of ${of.path}`,
      symbol: 'N',
      kind: 'count' as const,
      source: 'geometry' as const,
      place: of.step.heading,
    };
    if (CIRCUITS.includes(of.does)) {
      return quantity({ ...named, formula: 'N = 2 · C', inputs: [circuits(ctx, of)], compute: n => 2 * n! });
    }
    const inputs = [
      workReach(ctx, of.plan, 'left'),
      workReach(ctx, of.plan, 'right'),
      widthOf(ctx, of),
      leaf(of.owner, 'overlap', 'o'),
    ];
    const note = 'over the greatest width of the work';
    if (alternates(of)) {
      return quantity({
        ...named,
        formula: 'N = ⌈(t_l − o / 2) / (b − o)⌉ + ⌈(t_r − o / 2) / (b − o)⌉',
        inputs,
        compute: (left, right, width, over) => {
          const { lanes: laid, problem } = lanesFromCentreline([0 - left!, right!], width!, over!);
          return problem ? Number.NaN : laid.left.length + laid.right.length;
        },
        note,
      });
    }
    return quantity({
      ...named,
      formula: 'N = ⌈(t_l + t_r − o) / (b − o)⌉',
      inputs,
      compute: (left, right, width, over) => (width! > over! ? lanesNeeded(left! + right!, width!, over!) : Number.NaN),
      note,
    });
  });
}

function alternates(of: StepOf): boolean {
  return of.does === 'apply' && of.step.pattern?.value !== 'lane by lane';
}

/** How often the ground is gone over: coats, passes, runs of circuits. */
function repetitions(ctx: Context, of: StepOf): Quantity {
  if (of.does === 'apply') return rename(coatsOf(ctx, of), 'm');
  const path = `${of.path}.repetitions`;
  return ctx.once(path, () => {
    const named = {
      path,
      label: `repetitions of ${of.path}`,
      symbol: 'm',
      kind: 'count' as const,
      place: of.step.heading,
    };
    if (of.does !== 'agitate') {
      const { passes } = of.step;
      if (!passes)
        return quantity({ ...named, formula: 'm = 1', inputs: [], compute: () => 1, source: 'common-practice' });
      return quantity({
        ...named,
        formula: 'm = p',
        inputs: [leaf(of.owner, 'passes', 'p')],
        compute: p => p,
        source: 'definition',
      });
    }
    const buildUp = of.plan.method?.buildUps.filter(
      block =>
        block.cycles && of.plan.deposits.some(deposit => deposit.buildUp?.value === block.name.replaceAll('-', ' ')),
    );
    const all = (buildUp ?? []).map(block =>
      leaf({ path: `${ctx.nameOf(of.plan.work)}.${block.name}`, block }, 'cycles', 'c'),
    );
    const cycles = all.length > 0 ? all : [leaf(of.owner, 'cycles', 'c')];
    const back = of.step.returns?.value !== false;
    const most = cycles.length > 1 ? 'greatest c' : 'c';
    return quantity({
      ...named,
      label: `runs of ${of.path}, outward and inward`,
      formula: back ? `m = 2 · ${most}` : `m = ${most}`,
      inputs: cycles,
      compute: (...values) => (back ? 2 : 1) * Math.max(...values),
      source: 'definition',
    });
  });
}

/** Straight length that the machines drive together: all lanes, all repetitions. */
function drivenLength(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.drivenLength`;
  return ctx.once(path, () => {
    const named = {
      path,
      label: `straight length driven in ${of.path}`,
      symbol: 'D',
      kind: 'length' as const,
      source: 'geometry' as const,
      place: of.step.heading,
    };
    const length = workLength(ctx, of.plan);
    if (of.does === 'rinse') {
      const first = times(of, 'firstCircuit', 'm₁');
      const each = times(of, 'eachCircuit', 'm');
      return quantity({
        ...named,
        formula: 'D = 2 · L · (m₁ + (C − 1) · m)',
        inputs: [length, first, circuits(ctx, of), each],
        compute: (along, once, n, again) => 2 * along! * (once! + (n! - 1) * again!),
        note: 'with the usual number of repetitions',
      });
    }
    return quantity({
      ...named,
      formula: 'D = N · L · m',
      inputs: [lanes(ctx, of), length, repetitions(ctx, of)],
      compute: (n, along, runs) => n! * along! * runs!,
    });
  });
}

function times(of: StepOf, key: 'firstCircuit' | 'eachCircuit', symbol: string): Quantity {
  const words = key === 'firstCircuit' ? 'first circuit' : 'each wider circuit';
  return partOf(of.step[key], value => value.usual, {
    path: `${of.path}.${key === 'firstCircuit' ? 'first-circuit' : 'each-circuit'}`,
    label: `times of the ${words} of ${of.path}`,
    symbol,
    kind: 'count',
    place: of.step.heading,
  });
}

/** Machines that share the lanes; the members of a broom or rinse convoy drive behind each other and share nothing. */
function sharing(of: StepOf): boolean {
  return !CIRCUITS.includes(of.does);
}

/** Driving time on the straights. */
export function time(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.drivingTime`;
  return ctx.once(path, () => {
    const inputs = [drivenLength(ctx, of), leaf(of.owner, 'speed', 'v'), ...(sharing(of) ? [machineCount(of)] : [])];
    return quantity({
      path,
      label: `driving time of ${of.path}`,
      symbol: 't',
      kind: 'time',
      formula: sharing(of) ? 't = D / (v · n)' : 't = D / v',
      inputs,
      compute: (driven, speed, n = 1) => driven! / (speed! * n),
      source: 'mechanics',
      place: of.step.heading,
      note: 'on the straights, without turns, refills and waiting',
    });
  });
}

/** Theoretical capacity: the area finished in a time, at field efficiency 1. Source: `asae-ep496`. */
function productionRate(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.productionRate`;
  return ctx.once(path, () => {
    const named = {
      path,
      label: `theoretical capacity of ${of.path}`,
      symbol: 'C_t',
      kind: 'area rate' as const,
      source: 'asae-ep496' as const,
      place: of.step.heading,
      note: 'field efficiency 1: no turns, no refills',
    };
    const speed = leaf(of.owner, 'speed', 'v');
    if (of.does === 'agitate') {
      const spread = spreads(of);
      return quantity({
        ...named,
        formula: spread ? 'C_t = v · a · n / m' : 'C_t = v · a / m',
        inputs: [speed, advance(ctx, of), repetitions(ctx, of), ...(spread ? [machineCount(of)] : [])],
        compute: (v, pitch, runs, n = 1) => (v! * pitch! * n) / runs!,
      });
    }
    if (of.does === 'rinse') {
      return quantity({
        ...named,
        formula: 'C_t = A / t',
        inputs: [workArea(ctx, of.plan), time(ctx, of)],
        compute: (area, duration) => area! / duration!,
      });
    }
    return quantity({
      ...named,
      formula: 'C_t = v · (b − o) · n / m',
      inputs: [speed, widthOf(ctx, of), leaf(of.owner, 'overlap', 'o'), machineCount(of), repetitions(ctx, of)],
      compute: (v, width, over, n, runs) => (v! * (width! - over!) * n!) / runs!,
    });
  });
}

function rename(quantity: Quantity, symbol: string): Quantity {
  return isMissing(quantity) ? quantity : { ...quantity, symbol };
}
