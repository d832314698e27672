/** Cost that needs no schedule: materials and what is paid by area. Hours of plant and crew come with the schedule. */
import type { Plan } from '../job/job.ts';
import { workArea } from './area.ts';
import { productOf, stepProduct } from './product.ts';
import { type Context, leaf, type Quantity, quantity, sum } from './quantity.ts';
import { stepsOf } from './steps.ts';
import { workRunoff, workWater } from './water.ts';

/** W.cost.product, W.cost.water, W.cost.disposal, W.cost.area, W.cost.materials; each where its rate is given. */
export function costQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  const work = ctx.nameOf(plan.work);
  const block = ctx.job.blocks.costs[0];
  const owner = block && { path: ctx.nameOf(block), block };
  const wets = stepsOf(ctx, plan, 'apply', 'pre-wet', 'keep-wet', 'rinse', 'jet', 'wash-down').length > 0;
  const make = (name: string, label: string, symbols: string, inputs: readonly Quantity[]): Quantity => {
    const path = `${work}.cost.${name}`;
    return ctx.once(path, () =>
      quantity({
        path,
        label: `${label} of ${work}`,
        symbol: 'K',
        kind: 'money',
        formula: `K = ${symbols}`,
        inputs,
        compute: (amount, price) => amount! * price!,
        source: 'definition',
        place: plan.work.heading,
      }),
    );
  };
  const products = stepsOf(ctx, plan, 'apply').flatMap(of => {
    const product = productOf(ctx, of);
    if (!product?.block.price) return [];
    return [{ of, cost: [stepProduct(ctx, of), leaf(product, 'price', 'k')] }];
  });
  const materials: Quantity[] = products.map(({ of, cost }) => {
    const name = products.length === 1 ? 'product' : `product.${of.step.name || of.does}`;
    return make(name, 'cost of product', 'V_p · k', cost);
  });
  if (owner?.block.water && wets)
    materials.push(make('water', 'cost of water', 'V · k', [workWater(ctx, plan), leaf(owner, 'water', 'k')]));
  if (owner?.block.disposal && wets) {
    materials.push(
      make('disposal', 'cost of disposal', 'V_r · k', [workRunoff(ctx, plan), leaf(owner, 'disposal', 'k')]),
    );
  }
  const paid =
    owner?.block.paidBy?.value === 'area' && owner.block.rate && plan.work.measured?.value !== false
      ? [make('area', 'payment by area', 'A · k', [workArea(ctx, plan), leaf(owner, 'rate', 'k')])]
      : [];
  if (materials.length === 0) return paid;
  const total = ctx.once(`${work}.cost.materials`, () =>
    sum({
      path: `${work}.cost.materials`,
      label: `cost of materials of ${work}`,
      symbol: 'K',
      of: 'K of product, water and disposal',
      kind: 'money',
      inputs: materials,
      place: plan.work.heading,
      note: 'of those whose rates are given; plant, crew and closures come with the schedule',
    }),
  );
  return [...materials, total, ...paid];
}
