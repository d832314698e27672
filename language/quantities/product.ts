/**
 * What goes on the pavement as mix: rate, mix, product, dilution water, loads. Symbols: r rate of mix, V volume of mix,
 * c share of product in the mix, T usable tank, A area.
 *
 * A build-up block of the method changes the rate of deposits of its class. A work that removes several classes has a
 * rate, an area and a mix for each of them, and the sums.
 */
import * as application from '../formulas/application.ts';
import type { BuildUp, Deposit, Plan, Product } from '../job/job.ts';
import type { Given } from '../vocabulary/given.ts';
import { classArea, workArea } from './area.ts';
import {
  type Context,
  isMissing,
  leaf,
  missing,
  type Owner,
  partOf,
  type Quantity,
  quantity,
  sum,
} from './quantity.ts';
import { machineCount, type StepOf, stepsOf, tankOf } from './steps.ts';

/** The deposits of one class of build-up, heaviest first among the classes of a plan. */
export interface BuildUpClass {
  readonly name: string;
  readonly deposits: readonly Deposit[];
  readonly heavier: readonly Deposit[];
  readonly buildUp: BuildUp | undefined;
}

/** W.rate, W.mix, W.product and the rest, for a work that applies a product; nothing for one that does not. */
export function productQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  const steps = stepsOf(ctx, plan, 'apply');
  if (steps.length === 0) return [];
  const contingency = ctx.job.blocks.jobs[0]?.contingency;
  return [
    workRate(ctx, plan),
    workMix(ctx, plan),
    workProduct(ctx, plan),
    ...(contingency && contingency.value > 0 ? [ordered(ctx, plan)] : []),
    workDilutionWater(ctx, plan),
    workLoads(ctx, plan, 'loads'),
    workLoads(ctx, plan, 'refills'),
    ...(steps.length === 1 ? [areaPerLoad(ctx, steps[0]!, ctx.nameOf(plan.work))] : []),
  ];
}

/** The same for one step; a plan with several classes has those of each class too. */
export function applyStepProduct(ctx: Context, of: StepOf): readonly Quantity[] {
  const classes = classesOf(ctx, of.plan);
  return [
    ...(classes.length > 1
      ? classes.flatMap(each => [classRate(ctx, of, each), areaOfClass(ctx, of.plan, each), classMix(ctx, of, each)])
      : []),
    stepRate(ctx, of),
    stepMix(ctx, of),
    stepProduct(ctx, of),
    stepDilutionWater(ctx, of),
    stepLoads(ctx, of),
    stepRefills(ctx, of),
    areaPerLoad(ctx, of, of.path),
  ];
}

// Classes of build-up

const heaviness = ['very heavy', 'heavy', 'medium', 'light'];

/** Classes of a plan's deposits that the method treats differently, heaviest first; one where it makes no difference. */
export function classesOf(ctx: Context, plan: Plan): readonly BuildUpClass[] {
  return ctx.keep(`classes ${plan.work.id}`, () => classesIn(plan));
}

function classesIn(plan: Plan): readonly BuildUpClass[] {
  const blocks = plan.method?.buildUps ?? [];
  const named = (deposit: Deposit): string => deposit.buildUp?.value ?? 'no class';
  const blockOf = (name: string): BuildUp | undefined => blocks.find(block => block.name.replaceAll('-', ' ') === name);
  const names = [...new Set(plan.deposits.map(named))].toSorted((a, b) => heaviness.indexOf(a) - heaviness.indexOf(b));
  const alike = names.every(name => blockOf(name) === blockOf(names[0]!));
  if (alike) return [{ name: names[0] ?? '', deposits: plan.deposits, heavier: [], buildUp: blockOf(names[0] ?? '') }];
  return names.map((name, i) => ({
    name: name.replaceAll(' ', '-'),
    deposits: plan.deposits.filter(deposit => named(deposit) === name),
    heavier: plan.deposits.filter(deposit => names.slice(0, i).includes(named(deposit))),
    buildUp: blockOf(name),
  }));
}

function areaOfClass(ctx: Context, plan: Plan, of: BuildUpClass): Quantity {
  const several = classesOf(ctx, plan).length > 1;
  return several ? classArea(ctx, plan, of.name, of.deposits, of.heavier) : workArea(ctx, plan);
}

// Rate

/** The product of an apply step: the step's own, else the work's. */
export function productOf(ctx: Context, of: StepOf): Owner<Product> | undefined {
  const own = of.step.product?.value;
  const block = own ? ctx.job.byId.get(own.id) : of.plan.product;
  return block?.kind === 'product' ? { path: ctx.nameOf(block), block: block as Product } : undefined;
}

/** Share of product in the mix. */
function dilution(ctx: Context, of: StepOf): Quantity {
  const product = productOf(ctx, of);
  if (!product) {
    const clause = `the product of ${of.path} is missing`;
    return missing(`${of.path}.product`, 'product', { clause, place: of.plan.work.heading });
  }
  const { block, path } = product;
  return partOf(block.dilution, ({ share }) => share, {
    path: `${path}.dilution`,
    label: `share of product in the mix of ${path}`,
    symbol: 'c',
    kind: 'share',
    place: block.heading,
  });
}

/** Rate of mix for one class of build-up, in all coats together. */
export function classRate(ctx: Context, of: StepOf, each: BuildUpClass): Quantity {
  const single = classesOf(ctx, of.plan).length === 1;
  const own = each.buildUp?.rate;
  const stem = own ? `${ctx.nameOf(of.plan.work)}.${each.buildUp!.name}` : of.path;
  const path = single ? `${of.path}.rate` : `${of.path}.${each.name}.rate`;
  return ctx.once(path, () => {
    const given: Given<{ rate: number; of: string }> | undefined = own ?? of.step.rate;
    const isOfProduct = given?.value.of === 'product';
    const text = partOf(given, value => value.rate, {
      path: `${stem}.${isOfProduct ? 'productRate' : 'rate'}`,
      label: `${isOfProduct ? 'rate of product' : 'rate of mix'} of ${stem}`,
      symbol: isOfProduct ? 'r_p' : 'r',
      kind: 'application rate',
      place: of.step.heading,
    });
    const label = `rate of mix of ${of.path}`;
    if (isOfProduct) {
      return quantity({
        path,
        label,
        symbol: 'r',
        kind: 'application rate',
        formula: 'r = r_p / c',
        inputs: [text, dilution(ctx, of)],
        compute: (rate, share) => application.mixRate(rate!, share!),
        source: 'definition',
        place: of.step.heading,
      });
    }
    if (isMissing(text) || text.path === path) return text;
    return quantity({
      path,
      label,
      symbol: 'r',
      kind: 'application rate',
      formula: 'r = r_b',
      inputs: [{ ...text, symbol: 'r_b' }],
      compute: rate => rate,
      source: 'common-practice',
      place: of.step.heading,
      ...(own && { note: `the build-up ${each.buildUp!.name} puts its own rate in place of the step's` }),
    });
  });
}

/** Rate of mix of a step; the mean over the area where classes of build-up differ. */
export function stepRate(ctx: Context, of: StepOf): Quantity {
  const classes = classesOf(ctx, of.plan);
  if (classes.length === 1) return classRate(ctx, of, classes[0]!);
  const path = `${of.path}.rate`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `mean rate of mix of ${of.path}`,
      symbol: 'r',
      kind: 'application rate',
      formula: 'r = V / A',
      inputs: [stepMix(ctx, of), workArea(ctx, of.plan)],
      compute: (volume, size) => volume! / size!,
      source: 'definition',
      place: of.step.heading,
    }),
  );
}

/** The greatest or least rate of mix among the classes: the one loads pump and nozzles, the other dries first. */
export function extremeRate(
  ctx: Context,
  of: StepOf,
  which: 'greatest' | 'least',
): { rate: Quantity; class: BuildUpClass } {
  const rates = classesOf(ctx, of.plan).map(each => ({ rate: classRate(ctx, of, each), class: each }));
  const sign = which === 'greatest' ? 1 : -1;
  // A rate that is missing makes the extreme missing.
  const value = (each: { rate: Quantity }): number => (isMissing(each.rate) ? Infinity : sign * each.rate.value);
  return rates.reduce((most, each) => (value(each) > value(most) ? each : most));
}

function workRate(ctx: Context, plan: Plan): Quantity {
  const path = `${ctx.nameOf(plan.work)}.rate`;
  return ctx.once(path, () =>
    sum({
      path,
      label: `rate of mix of ${ctx.nameOf(plan.work)}`,
      symbol: 'r',
      of: 'r of the steps that apply',
      kind: 'application rate',
      inputs: stepsOf(ctx, plan, 'apply').map(of => stepRate(ctx, of)),
      place: plan.work.heading,
    }),
  );
}

// Volumes

function classMix(ctx: Context, of: StepOf, each: BuildUpClass): Quantity {
  const single = classesOf(ctx, of.plan).length === 1;
  const path = single ? `${of.path}.mix` : `${of.path}.${each.name}.mix`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: single ? `mix for ${of.path}` : `mix for ${of.path}, ${each.name} build-up`,
      symbol: 'V',
      kind: 'volume',
      formula: 'V = r · A',
      inputs: [classRate(ctx, of, each), areaOfClass(ctx, of.plan, each)],
      compute: (rate, size) => rate! * size!,
      source: 'alberta-606-1',
      place: of.step.heading,
      note: 'by area; what overlapping passes and swaths beyond the edge take comes on top',
    }),
  );
}

/** Mix of a step over all classes. */
export function stepMix(ctx: Context, of: StepOf): Quantity {
  const classes = classesOf(ctx, of.plan);
  if (classes.length === 1) return classMix(ctx, of, classes[0]!);
  const path = `${of.path}.mix`;
  return ctx.once(path, () =>
    sum({
      path,
      label: `mix for ${of.path}`,
      symbol: 'V',
      of: 'V of the classes',
      kind: 'volume',
      inputs: classes.map(each => classMix(ctx, of, each)),
      place: of.step.heading,
    }),
  );
}

export function stepProduct(ctx: Context, of: StepOf): Quantity {
  return share(ctx, of, `${of.path}.product`, `product for ${of.path}, undiluted`, stepMix(ctx, of), 'product');
}

export function stepDilutionWater(ctx: Context, of: StepOf): Quantity {
  return share(ctx, of, `${of.path}.dilutionWater`, `dilution water for ${of.path}`, stepMix(ctx, of), 'water');
}

function share(
  ctx: Context,
  of: StepOf,
  path: string,
  label: string,
  mix: Quantity,
  what: 'product' | 'water',
): Quantity {
  return ctx.once(path, () =>
    quantity({
      path,
      label,
      symbol: what === 'product' ? 'V_p' : 'V_w',
      kind: 'volume',
      formula: what === 'product' ? 'V_p = c · V' : 'V_w = (1 − c) · V',
      inputs: [mix, dilution(ctx, of)],
      compute: (volume, part) => application.mixVolumes(volume!, part!)[what],
      source: 'definition',
      place: of.step.heading,
    }),
  );
}

/** W.mix: of its one apply step, or of all of them. */
export function workMix(ctx: Context, plan: Plan): Quantity {
  const name = ctx.nameOf(plan.work);
  const steps = stepsOf(ctx, plan, 'apply');
  const single = steps.length === 1 && classesOf(ctx, plan).length === 1;
  return ctx.once(`${name}.mix`, () =>
    single
      ? quantity({
          path: `${name}.mix`,
          label: `mix for ${name}`,
          symbol: 'V',
          kind: 'volume',
          formula: 'V = r · A',
          inputs: [workRate(ctx, plan), workArea(ctx, plan)],
          compute: (rate, size) => rate! * size!,
          source: 'alberta-606-1',
          place: plan.work.heading,
          note: 'by area; what overlapping passes and swaths beyond the edge take comes on top',
        })
      : total(
          ctx,
          plan,
          'mix',
          'V',
          `mix for ${name}`,
          steps.map(of => stepMix(ctx, of)),
        ),
  );
}

/** W.product, undiluted. */
export function workProduct(ctx: Context, plan: Plan): Quantity {
  const name = ctx.nameOf(plan.work);
  const steps = stepsOf(ctx, plan, 'apply');
  const label = `product for ${name}, undiluted`;
  if (steps.length === 1) return share(ctx, steps[0]!, `${name}.product`, label, workMix(ctx, plan), 'product');
  return ctx.once(`${name}.product`, () =>
    total(
      ctx,
      plan,
      'product',
      'V_p',
      label,
      steps.map(of => stepProduct(ctx, of)),
    ),
  );
}

/** W.dilutionWater. */
export function workDilutionWater(ctx: Context, plan: Plan): Quantity {
  const name = ctx.nameOf(plan.work);
  const steps = stepsOf(ctx, plan, 'apply');
  const label = `dilution water for ${name}`;
  if (steps.length === 1) return share(ctx, steps[0]!, `${name}.dilutionWater`, label, workMix(ctx, plan), 'water');
  return ctx.once(`${name}.dilutionWater`, () =>
    total(
      ctx,
      plan,
      'dilutionWater',
      'V_w',
      label,
      steps.map(of => stepDilutionWater(ctx, of)),
    ),
  );
}

function total(
  ctx: Context,
  plan: Plan,
  name: string,
  symbol: string,
  label: string,
  inputs: readonly Quantity[],
): Quantity {
  return sum({
    path: `${ctx.nameOf(plan.work)}.${name}`,
    label,
    symbol,
    of: `${symbol} of the steps`,
    kind: 'volume',
    inputs,
    place: plan.work.heading,
  });
}

/** W.productOrdered: product with the contingency of the job. */
function ordered(ctx: Context, plan: Plan): Quantity {
  const name = ctx.nameOf(plan.work);
  const job = ctx.job.blocks.jobs[0]!;
  return ctx.once(`${name}.productOrdered`, () =>
    quantity({
      path: `${name}.productOrdered`,
      label: `product to order for ${name}, with contingency`,
      symbol: 'V_o',
      kind: 'volume',
      formula: 'V_o = V_p · (1 + k)',
      inputs: [workProduct(ctx, plan), leaf({ path: ctx.nameOf(job), block: job }, 'contingency', 'k')],
      compute: (volume, part) => volume! * (1 + part!),
      source: 'definition',
      place: plan.work.heading,
    }),
  );
}

// Loads

/** Tank loads of a step: of mix where it applies, of water elsewhere. */
export function loadsOf(of: StepOf, path: string, volume: Quantity, tank: Quantity): Quantity {
  return quantity({
    path,
    label: `tank loads of ${of.path}`,
    symbol: 'N',
    kind: 'count',
    formula: `N = ⌈${isMissing(volume) ? 'V' : volume.symbol} / T⌉`,
    inputs: [volume, tank],
    compute: (whole, load) => application.tankLoads(whole!, load!).count,
    source: 'pesticide-safety-text',
    place: of.step.heading,
    note: 'the last load may be partial',
  });
}

/** Refills on the way: the machines start with full tanks. */
export function refillsOf(of: StepOf, path: string, loads: Quantity): Quantity {
  return quantity({
    path,
    label: `refills of ${of.path}`,
    symbol: 'N_r',
    kind: 'count',
    formula: 'N_r = max(0, N − n)',
    inputs: [loads, machineCount(of)],
    compute: (all, machines) => Math.max(0, all! - machines!),
    source: 'common-practice',
    place: of.step.heading,
    note: 'every machine starts with a full tank; topping up before a coat or a bay is not counted',
  });
}

function stepLoads(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.loads`;
  return ctx.once(path, () => loadsOf(of, path, stepMix(ctx, of), tankOf(ctx, of)));
}

function stepRefills(ctx: Context, of: StepOf): Quantity {
  const path = `${of.path}.refills`;
  return ctx.once(path, () => refillsOf(of, path, stepLoads(ctx, of)));
}

function workLoads(ctx: Context, plan: Plan, what: 'loads' | 'refills'): Quantity {
  const name = ctx.nameOf(plan.work);
  const steps = stepsOf(ctx, plan, 'apply');
  const symbol = what === 'loads' ? 'N' : 'N_r';
  return ctx.once(`${name}.${what}`, () =>
    sum({
      path: `${name}.${what}`,
      label: `${what === 'loads' ? 'tank loads of mix' : 'refills of mix'} for ${name}`,
      symbol,
      of: `${symbol} of the steps that apply`,
      kind: 'count',
      inputs: steps.map(of => (what === 'loads' ? stepLoads(ctx, of) : stepRefills(ctx, of))),
      place: plan.work.heading,
    }),
  );
}

function areaPerLoad(ctx: Context, of: StepOf, at: string): Quantity {
  const path = `${at}.areaPerLoad`;
  return ctx.once(path, () =>
    quantity({
      path,
      label: `area that one full load of ${of.path} covers`,
      symbol: 'A_T',
      kind: 'area',
      formula: 'A_T = T / r',
      inputs: [tankOf(ctx, of), extremeRate(ctx, of, 'greatest').rate],
      compute: (tank, rate) => application.areaPerLoad(tank!, rate!),
      source: 'turf-supplier-sheet',
      place: of.step.heading,
    }),
  );
}
