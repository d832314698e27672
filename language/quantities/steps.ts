/** Steps of a plan, with the paths under which authors know them, and the machines that do them. */
import type { Broom, Jet, Machine, Plan, PlannedStep, Sprayer, Step, Sweeper, WaterTruck } from '../job/job.ts';
import type { BlockHead } from '../vocabulary/given.ts';
import { type Context, leaf, missing, type Owner, type Quantity, quantity } from './quantity.ts';

export type Does = NonNullable<Step['does']>['value'];

/** A step within its work: everything the topics need to name and compute it. */
export interface StepOf {
  readonly plan: Plan;
  readonly planned: PlannedStep;
  readonly step: Step;
  readonly does: Does;
  /** `North.Spray`. */
  readonly path: string;
  readonly owner: Owner<Step>;
}

/** The steps of a work in order; a step that does not say what it does is left out. */
export function stepsOf(ctx: Context, plan: Plan, ...only: readonly Does[]): readonly StepOf[] {
  const all = ctx.keep(`steps ${plan.work.id}`, () => namedSteps(ctx, plan));
  return only.length === 0 ? all : all.filter(of => only.includes(of.does));
}

function namedSteps(ctx: Context, plan: Plan): readonly StepOf[] {
  const work = ctx.nameOf(plan.work);
  const times = new Map<string, number>();
  return plan.steps.flatMap(planned => {
    const { step } = planned;
    const does = step.does?.value;
    if (!does) return [];
    const named = step.name || does;
    const earlier = times.get(named) ?? 0;
    times.set(named, earlier + 1);
    // The second step of a name is told apart, so that no quantity hides another.
    const path = `${work}.${named}${earlier > 0 ? earlier + 1 : ''}`;
    return { plan, planned, step, does, path, owner: { path, block: step } };
  });
}

interface MachineKinds {
  sprayer: Sprayer;
  broom: Broom;
  'water-truck': WaterTruck;
  sweeper: Sweeper;
  jet: Jet;
}

/** The machines of the kinds, by whom the step is done; each as an owner of its properties. */
export function machinesOf<K extends keyof MachineKinds>(
  ctx: Context,
  of: StepOf,
  ...kinds: readonly K[]
): readonly (Owner<MachineKinds[K]> & { readonly count: number })[] {
  return [...of.planned.machines, ...of.planned.with].flatMap(({ machine, count }) =>
    (kinds as readonly string[]).includes(machine.kind)
      ? [{ path: ctx.nameOf(machine), block: machine as BlockHead as MachineKinds[K], count }]
      : [],
  );
}

/** The first machine that does the step, of any kind with a width. */
export function leaderOf(ctx: Context, of: StepOf): (Owner<Machine> & { readonly count: number }) | undefined {
  const first = of.planned.machines[0];
  return first && { path: ctx.nameOf(first.machine), block: first.machine, count: first.count };
}

/** How many machines do the step. */
export function machineCount(of: StepOf): Quantity {
  const { machines } = of.planned;
  const path = `${of.path}.machines`;
  if (machines.length === 0) return noMachine(of, path, 'machines');
  const count = machines.reduce((total, bound) => total + bound.count, 0);
  return quantity({
    path,
    label: `machines of ${of.path}`,
    symbol: 'n',
    kind: 'count',
    formula: 'n = machines bound to the step',
    inputs: [],
    compute: () => count,
    source: 'definition',
    place: machines[0]!.place,
  });
}

/** The missing machine of a step, as a gap of a quantity that needs it. */
export function noMachine(of: StepOf, path: string, label: string): Quantity {
  return missing(path, label, { clause: `the machine of ${of.path} is missing`, place: of.step.heading });
}

/** Working width of the machine that leads the step. */
export function widthOf(ctx: Context, of: StepOf): Quantity {
  const leader = leaderOf(ctx, of);
  if (!leader) return noMachine(of, `${of.path}.width`, 'width');
  return leaf(leader, 'width', 'b');
}

/** Usable tank of the machines of a step; where they differ, the smallest, which gives loads on the safe side. */
export function tankOf(ctx: Context, of: StepOf): Quantity {
  const tanks = machinesOf(ctx, of, 'sprayer', 'water-truck', 'jet').map(machine => leaf(machine, 'tank', 'T'));
  const first = tanks[0];
  if (!first)
    return missing(`${of.path}.tank`, 'tank', {
      clause: `a machine with a tank in ${of.path} is missing`,
      place: of.step.heading,
    });
  const size = (tank: Quantity): number => ('value' in tank ? tank.value : Number.NaN);
  const smallest = tanks.reduce((least, tank) => (size(tank) < size(least) ? tank : least), first);
  if (!('value' in smallest) || tanks.every(tank => size(tank) === size(smallest))) return smallest;
  return { ...smallest, note: 'the smallest of the tanks in this step' };
}
