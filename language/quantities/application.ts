/**
 * Putting liquid on with a boom: coats, flow, nozzles, pressure. Symbols: r rate of mix, v speed, b width, Q flow of the
 * boom, q flow of one nozzle, p pressure, ρ density, n coats or nozzles.
 *
 * Nozzle points are for water, so the flow is corrected by the root of the relative density before pressure is read.
 */
import { type Explained, input } from '../explain/explain.ts';
import * as application from '../formulas/application.ts';
import { waterDensity } from '../formulas/jets.ts';
import type { Sprayer } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';
import { subscript } from './deposits.ts';
import { extremeRate, productOf } from './product.ts';
import { type Context, leaf, missing, type Owner, type Quantity, quantity } from './quantity.ts';
import { machinesOf, noMachine, type StepOf } from './steps.ts';

/** Coats, flow, nozzle flow and pressure of an apply step; of further machines, where they differ, under their names. */
export function applicationQuantities(ctx: Context, of: StepOf): readonly Quantity[] {
  const sprayers = machinesOf(ctx, of, 'sprayer', 'water-truck');
  const first = sprayers[0];
  if (!first) return [coatsOf(ctx, of), noMachine(of, `${of.path}.flow`, `flow of ${of.path}`)];
  const others = sprayers.slice(1).filter(other => other.block.id !== first.block.id);
  return [
    coatsOf(ctx, of),
    ...nozzleQuantities(ctx, of, first, of.path),
    ...others.flatMap(other => nozzleQuantities(ctx, of, other, `${of.path}.${other.path}`)),
  ];
}

/** Coats of an apply step: as the build-up or the step says, else as many as the surface takes at a time, else one. */
export function coatsOf(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.coats`;
  return ctx.once(path, () => {
    const { rate, class: governing } = extremeRate(ctx, of, 'greatest');
    const { buildUp } = governing;
    const named = { path, label: `coats of ${of.path}`, symbol: 'n', kind: 'count' as const, place: of.step.heading };
    const said = buildUp?.coats
      ? leaf({ path: `${ctx.nameOf(of.plan.work)}.${buildUp.name}`, block: buildUp }, 'coats', 'n_s')
      : of.step.coats
        ? leaf(of.owner, 'coats', 'n_s')
        : undefined;
    if (said) {
      const formula = 'n = n_s';
      return quantity({
        ...named,
        formula,
        inputs: [{ ...said, path: `${said.path}` }],
        compute: n => n,
        source: 'common-practice',
      });
    }
    if (of.step.passRate) {
      return quantity({
        ...named,
        formula: 'n = ⌈r / r₁⌉',
        inputs: [rate, leaf(of.owner, 'passRate', 'r₁')],
        compute: (whole, single) => application.coats(whole!, single!),
        source: 'common-practice',
      });
    }
    const note = 'neither coats nor the greatest rate of one pass are given';
    return quantity({ ...named, formula: 'n = 1', inputs: [], compute: () => 1, source: 'common-practice', note });
  });
}

function nozzleQuantities(
  ctx: Context,
  of: StepOf,
  machine: Owner & { block: ReturnType<typeof machinesOf<'sprayer' | 'water-truck'>>[number]['block'] },
  at: string,
): readonly Quantity[] {
  const flow = boomFlow(ctx, of, machine, at);
  const { block } = machine;
  if (block.kind !== 'sprayer') return [flow];
  const sprayer = { path: machine.path, block: block as Sprayer };
  if (!sprayer.block.nozzles && !sprayer.block.nozzlePoints) return [flow];
  return [flow, nozzleFlow(ctx, of, sprayer, at, flow), pressure(ctx, of, sprayer, at, flow)];
}

/** Flow of one boom in one coat, Q = r · v · b / n. */
function boomFlow(ctx: Context, of: StepOf, machine: Owner<Sprayer> | Owner, at: string): Quantity {
  const path = `${at}.flow`;
  return ctx.once(path, () => {
    const coats = coatsOf(ctx, of);
    const several = 'value' in coats && coats.value !== 1;
    const governing = extremeRate(ctx, of, 'greatest');
    return quantity({
      path,
      label: `flow of the boom in ${of.path}`,
      symbol: 'Q',
      kind: 'flow',
      formula: several ? 'Q = r · v · b / n' : 'Q = r · v · b',
      inputs: [
        governing.rate,
        leaf(of.owner, 'speed', 'v'),
        leaf(machine as Owner<Sprayer>, 'width', 'b'),
        ...(several || !('value' in coats) ? [coats] : []),
      ],
      compute: (rate, speed, width, n = 1) => application.boomFlow(rate!, speed!, width!) / n,
      source: 'sprayer-manual-metric',
      place: of.step.heading,
    });
  });
}

function nozzleFlow(ctx: Context, of: StepOf, machine: Owner<Sprayer>, at: string, flow: Quantity): Quantity {
  const path = `${at}.nozzleFlow`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `flow of one nozzle in ${of.path}`,
      symbol: 'q',
      kind: 'flow',
      formula: 'q = Q / n',
      inputs: [flow, leaf(machine, 'nozzles', 'n')],
      compute: (whole, n) => application.flowPerNozzle(whole!, n!),
      source: 'mechanics',
      place: of.step.heading,
    }),
  );
}

/** Pressure at the nozzles, read from the calibration points for water; see the file's head for the density. */
function pressure(ctx: Context, of: StepOf, machine: Owner<Sprayer>, at: string, flow: Quantity): Quantity {
  const path = `${at}.pressure`;
  return ctx.once(path, () => {
    const label = `nozzle pressure in ${of.path}`;
    const points = machine.block.nozzlePoints;
    if (!points) {
      const clause = `the nozzle points of ${machine.path} are missing`;
      return missing(path, label, { clause, place: machine.block.heading });
    }
    const fault = application.calibrationFault(points.value);
    if (fault) {
      const clause = `the nozzle points of ${machine.path} can't be used (${fault})`;
      return missing(path, label, { clause, place: points.place });
    }
    const mix = nozzleFlow(ctx, of, machine, at, flow);
    const product = productOf(ctx, of);
    const water = product?.block.density ? equivalentFlow(ctx, of, product, at, mix) : mix;
    const pointLeaves = leavesOfPoints(machine, points);
    const read = (q: number) => application.calibratedPressure(points.value, q);
    const range = 'value' in water ? read(water.value)?.range : 'inside';
    const symbol = 'value' in water ? water.symbol : 'q';
    return quantity({
      path,
      label,
      symbol: 'p',
      kind: 'pressure',
      formula: `p = p of the nozzle points at ${symbol}, linear in √p`,
      inputs: [water, ...pointLeaves],
      compute: q => read(q!)?.value ?? Number.NaN,
      source: 'sprayer-maker-page',
      place: of.step.heading,
      ...(range !== 'inside' && {
        note: `${range} the calibrated points; continued from the nearest one by the root law`,
      }),
    });
  });
}

/** Flow of water that drives the same pressure as the mix does, q · √(ρ / 1000 kg/m³). */
function equivalentFlow(
  ctx: Context,
  of: StepOf,
  product: NonNullable<ReturnType<typeof productOf>>,
  at: string,
  mix: Quantity,
): Quantity {
  const path = `${at}.waterFlow`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: 'flow of water at the same pressure',
      symbol: 'q_w',
      kind: 'flow',
      formula: 'q_w = q · √(ρ / 1000 kg/m³)',
      inputs: [mix, leaf(product, 'density', 'ρ')],
      compute: (q, density) => application.equivalentWaterFlow(q!, density! / waterDensity),
      source: 'mechanics',
      place: of.step.heading,
    }),
  );
}

function leavesOfPoints(machine: Owner<Sprayer>, points: NonNullable<Sprayer['nozzlePoints']>): readonly Explained[] {
  return points.value.flatMap((row, i) => {
    const cell = (value: number): Given<number> => {
      return { value, text: '', place: row.place, origin: points.origin, literal: false };
    };
    const at = `${machine.path}.nozzle-points.${i + 1}`;
    return [
      input(
        `${at}.pressure`,
        `pressure of nozzle point ${i + 1}`,
        `p${subscript(i + 1)}`,
        'pressure',
        cell(row.pressure),
      ),
      input(`${at}.flow`, `flow of nozzle point ${i + 1}`, `q${subscript(i + 1)}`, 'flow', cell(row.flow)),
    ];
  });
}
