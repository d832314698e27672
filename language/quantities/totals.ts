/** Totals of the job. A total with a part that can't be computed is missing too: a sum that leaves something out misleads. */
import { areaOutside } from '../formulas/geometry.ts';
import type { Plan } from '../job/job.ts';
import type { KindName } from '../units/index.ts';
import { excludedIn, groundOf, workArea } from './area.ts';
import { inFrame } from './frame.ts';
import { workMix, workProduct } from './product.ts';
import { type Context, isMissing, leaf, type Quantity, quantity, sum } from './quantity.ts';
import { stepsOf } from './steps.ts';
import { workRunoff, workWater } from './water.ts';

/** Job.area, Job.mix, Job.product, Job.water, Job.runoff, Job.cost.… */
export function totalQuantities(ctx: Context): readonly Quantity[] {
  const { plans } = ctx.job;
  if (plans.length === 0) return [];
  const applying = plans.filter(plan => stepsOf(ctx, plan, 'apply').length > 0);
  const wetting = plans.filter(
    plan => stepsOf(ctx, plan, 'apply', 'pre-wet', 'keep-wet', 'rinse', 'jet', 'wash-down').length > 0,
  );
  const contingency = ctx.job.blocks.jobs[0]?.contingency;
  const product = total(
    ctx,
    'product',
    'V_p',
    'product for the job, undiluted',
    'volume',
    applying.map(plan => workProduct(ctx, plan)),
  );
  const water = total(
    ctx,
    'water',
    'V_w',
    'water for the job',
    'volume',
    wetting.map(plan => workWater(ctx, plan)),
  );
  return [
    jobArea(ctx),
    ...(applying.length > 0
      ? [
          total(
            ctx,
            'mix',
            'V',
            'mix for the job',
            'volume',
            applying.map(plan => workMix(ctx, plan)),
          ),
          product,
        ]
      : []),
    ...(wetting.length > 0
      ? [
          water,
          total(
            ctx,
            'runoff',
            'V_r',
            'liquid to collect, at most',
            'volume',
            wetting.map(plan => workRunoff(ctx, plan)),
          ),
        ]
      : []),
    ...(contingency && contingency.value > 0
      ? [
          ...(applying.length > 0 ? [ordered(ctx, 'productOrdered', 'product to order', product)] : []),
          ...(wetting.length > 0 ? [ordered(ctx, 'waterOrdered', 'water to order', water)] : []),
        ]
      : []),
  ];
}

/** Materials and area payments over all works, and what the job block says once; nothing without rates. */
export function costTotals(ctx: Context, ofWorks: readonly Quantity[]): readonly Quantity[] {
  const block = ctx.job.blocks.costs[0];
  const ends = (name: string): readonly Quantity[] => ofWorks.filter(each => each.path.endsWith(`.cost.${name}`));
  const materials = ends('materials');
  const areas = ends('area');
  return [
    ...(materials.length > 0
      ? [total(ctx, 'cost.materials', 'K', 'cost of materials for the job', 'money', materials)]
      : []),
    ...(areas.length > 0 ? [total(ctx, 'cost.area', 'K', 'payment by area for the job', 'money', areas)] : []),
    ...(block?.mobilisation
      ? [
          total(ctx, 'cost.mobilisation', 'K', 'mobilisation', 'money', [
            leaf({ path: ctx.nameOf(block), block }, 'mobilisation', 'K₁'),
          ]),
        ]
      : []),
  ];
}

function total(
  ctx: Context,
  name: string,
  symbol: string,
  label: string,
  kind: KindName,
  inputs: readonly Quantity[],
): Quantity {
  return ctx.once(`Job.${name}`, () => {
    const place = ctx.job.blocks.jobs[0]?.heading;
    return sum({
      path: `Job.${name}`,
      label,
      symbol,
      of: `${symbol} of the works`,
      kind,
      inputs,
      ...(place && { place }),
    });
  });
}

/** Ground of all works together; what two works share counts once. */
function jobArea(ctx: Context): Quantity {
  return ctx.once('Job.area', () => {
    const areas = ctx.job.plans.map(plan => workArea(ctx, plan));
    const added = areas.reduce((sum, each) => sum + (isMissing(each) ? Number.NaN : each.value), 0);
    const shared = added - mergedArea(ctx, ctx.job.plans);
    const place = ctx.job.blocks.jobs[0]?.heading;
    const overlap =
      shared > 1e-9 * added
        ? [
            quantity({
              path: 'Job.overlap',
              label: 'area in more than one work',
              symbol: 'A_o',
              kind: 'area',
              formula: 'A_o = area in more than one work',
              inputs: areas,
              compute: () => shared,
              source: 'geometry',
            }),
          ]
        : [];
    return quantity({
      path: 'Job.area',
      label: 'area of the job',
      symbol: 'A',
      kind: 'area',
      formula: overlap.length > 0 ? 'A = Σ A of the works − A_o' : 'A = Σ A of the works',
      inputs: [...areas, ...overlap],
      compute: (...values) => values.reduce((sum, value, i) => (i < areas.length ? sum + value : sum - value), 0),
      source: 'geometry',
      ...(place && { place }),
    });
  });
}

function mergedArea(ctx: Context, plans: readonly Plan[]): number {
  const grounds = plans.flatMap(plan => {
    const ground = groundOf(ctx, plan);
    return 'clause' in ground ? [] : [ground];
  });
  const runways = new Set(grounds.map(ground => ground.frame.runway.id));
  let sum = 0;
  for (const id of runways) {
    const here = grounds.filter(ground => ground.frame.runway.id === id);
    const { frame } = here[0]!;
    const stations = here.flatMap(({ deposits, frame: own }) =>
      deposits.map(each => inFrame(ctx.job, each, own, frame)),
    );
    // Without the runway's length two frames can't be brought together: then nothing is merged.
    if (stations.some(each => each === undefined)) return Number.NaN;
    sum += areaOutside(
      stations.filter(each => each !== undefined),
      excludedIn(ctx.job, frame),
    );
  }
  return sum;
}

function ordered(ctx: Context, name: string, label: string, of: Quantity): Quantity {
  const job = ctx.job.blocks.jobs[0]!;
  return ctx.once(`Job.${name}`, () =>
    quantity({
      path: `Job.${name}`,
      label: `${label}, with contingency`,
      symbol: 'V_o',
      kind: 'volume',
      formula: `V_o = ${isMissing(of) ? 'V' : of.symbol} · (1 + k)`,
      inputs: [of, leaf({ path: ctx.nameOf(job), block: job }, 'contingency', 'k')],
      compute: (volume, share) => volume! * (1 + share!),
      source: 'definition',
      place: job.heading,
    }),
  );
}
