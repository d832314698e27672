/**
 * Evaporation and how long a film lasts, under the conditions the job is planned for. Two published formulas, both for
 * water; real evaporation lies within about ± 40 % of the estimate, which is carried as an interval. A warning, never proof.
 */
import * as evaporation from '../formulas/evaporation.ts';
import type { Plan } from '../job/job.ts';
import { extremeRate } from './product.ts';
import { type Context, isMissing, leaf, missing, partOf, type Quantity, quantity } from './quantity.ts';
import { type StepOf, stepsOf } from './steps.ts';

const kelvin = 273.15;
/** 1 m of water is 1000 kg on a square metre. */
const kilogramsPerMetre = 1000;

/** W.evaporation (Menzel) and W.evaporationUno, for a work that wets the pavement. */
export function weatherQuantities(ctx: Context, plan: Plan): readonly Quantity[] {
  if (stepsOf(ctx, plan, 'apply', 'pre-wet', 'keep-wet').length === 0) return [];
  return [workEvaporation(ctx, plan, 'menzel'), workEvaporation(ctx, plan, 'uno')];
}

const methods = {
  menzel: {
    name: 'evaporation',
    words: 'Menzel',
    formula: 'E = 0.315 · (e_s − h · e_a) · (0.253 + 0.060 · u), kPa and km/h',
    source: 'menzel-si',
    rate: evaporation.menzelEvaporation,
  },
  uno: {
    name: 'evaporationUno',
    words: 'Uno',
    formula: 'E = 5 · ((T_s + 18)^2.5 − h · (T_a + 18)^2.5) · (u + 4) · 10⁻⁶, °C and km/h',
    source: 'uno-si',
    rate: evaporation.unoEvaporation,
  },
} as const;

/** Evaporation of water from the pavement; the interval holds the band of ± 40 %. */
export function workEvaporation(ctx: Context, plan: Plan, method: keyof typeof methods): Quantity {
  const { name, words, formula, source, rate } = methods[method];
  const path = `${ctx.nameOf(plan.work)}.${name}`;
  return ctx.once(path, () => {
    const label = `evaporation of water, ${words}`;
    const block = ctx.job.blocks.conditions[0];
    if (!block) return missing(path, label, { clause: 'the conditions of the job are missing' });
    const owner = { path: ctx.nameOf(block), block };
    const air = leaf(owner, 'air', 'T_a');
    const notes = ['for water; within about ± 40 %'];
    if (!block.surface) notes.push('pavement taken as warm as the air, since its temperature is not given');
    const height = block.windHeight?.value ?? 0.5;
    if (height > 1)
      notes.push('wind measured higher than the 0.5 m of the formula and not converted: it evaporates less than that');
    const result = quantity({
      path,
      label,
      symbol: 'E',
      kind: 'evaporation rate',
      formula,
      inputs: [
        block.surface ? leaf(owner, 'surface', 'T_s') : air,
        air,
        leaf(owner, 'humidity', 'h'),
        leaf(owner, 'wind', 'u'),
      ],
      compute: (surface, warm, humidity, wind) =>
        kilogramsPerMetre *
        rate({
          surfaceTemperature: surface! - kelvin,
          airTemperature: warm! - kelvin,
          humidity: humidity!,
          wind: wind!,
        }),
      source,
      place: plan.work.heading,
      note: notes.join('; '),
    });
    if (isMissing(result)) return result;
    const [low, high] = result.interval ?? [result.value, result.value];
    const band = evaporation.evaporationBand;
    // Dew (a negative rate) is widened away from the estimate too.
    const bounds = [low * (1 - band), low * (1 + band), high * (1 - band), high * (1 + band)];
    return { ...result, interval: [Math.min(...bounds), Math.max(...bounds)] };
  });
}

/** W.Step.filmLife: how long the film that a step leaves stays wet. */
export function filmLife(ctx: Context, of: StepOf): readonly Quantity[] {
  if (!['apply', 'pre-wet', 'keep-wet'].includes(of.does)) return [];
  const path = `${of.path}.filmLife`;
  return [
    ctx.once(path, () => {
      const label = `life of the film of ${of.path}`;
      const rate = workEvaporation(ctx, of.plan, 'menzel');
      if (!isMissing(rate) && rate.value <= 0) {
        return missing(path, label, {
          clause: 'nothing evaporates under the conditions of the job',
          place: of.step.heading,
        });
      }
      return quantity({
        path,
        label,
        symbol: 't_f',
        kind: 'time',
        formula: 't_f = r · 1000 kg/m³ / E',
        inputs: [filmOf(ctx, of), rate],
        compute: (depth, speed) => (depth! * kilogramsPerMetre) / speed!,
        source: 'mechanics',
        place: of.step.heading,
        note: 'for water, with the band of ± 40 % of the evaporation; a product dries otherwise',
      });
    }),
  ];
}

/** The film that dries first: where classes of build-up differ, that of the smallest rate. */
function filmOf(ctx: Context, of: StepOf): Quantity {
  if (of.does === 'apply') return extremeRate(ctx, of, 'least').rate;
  return partOf(of.step.rate, ({ rate }) => rate, {
    path: `${of.path}.rate`,
    label: `rate of water of ${of.path}`,
    symbol: 'r',
    kind: 'application rate',
    place: of.step.heading,
  });
}
