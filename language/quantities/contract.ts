/**
 * The `quantities` part of what `derive --format json` prints: a public contract. Values are in the unit that stands beside
 * them, in UCUM; the unit hangs on the kind of quantity only, never on the reader's system, so that a program may compare
 * two runs. `shown` is for people and follows the system.
 */
import { z } from 'zod';
import type { Explained } from '../explain/explain.ts';
import { shownValue, sourceText } from '../explain/render.ts';
import { fromSi, type KindName, parseUnit, quantityKind, type System, type Unit } from '../units/index.ts';

export const quantityResult = z.object({
  path: z.string().describe('How a spec refers to it: North.product'),
  label: z.string().describe('What it is, in a few words'),
  value: z.number().describe('Counted in the unit beside it'),
  least: z.number().optional().describe('Least value that tolerances and bands leave'),
  greatest: z.number().optional().describe('Greatest value that tolerances and bands leave'),
  unit: z.string().describe("UCUM code; '1' for plain numbers, an annotation such as {EUR} for money"),
  shown: z.string().describe('Value and unit for people, in the unit system of the job'),
  formula: z.string().optional().describe("In the trade's symbols; absent where the text states the value itself"),
  inputs: z.array(z.string()).describe('Paths of what the formula is computed from'),
  source: z.string().describe('Publication or practice behind the formula, and how well it is verified'),
  note: z.string().optional(),
});

export const quantitiesContract = z.array(quantityResult);

export type QuantityResult = z.infer<typeof quantityResult>;

/** Quantities by path as the contract prints them, in the same order. */
export function quantitiesResult(
  quantities: ReadonlyMap<string, Explained>,
  system: System,
  currency?: string,
): QuantityResult[] {
  return [...quantities.values()].map(each => {
    const { unit, convert } = unitOf(each.kind, currency);
    const { formula, interval, note } = each;
    return {
      path: each.path,
      label: each.label,
      value: convert(each.value),
      ...(interval && { least: convert(interval[0]), greatest: convert(interval[1]) }),
      unit,
      shown: shownValue(each, system, currency ? { currency } : {}),
      ...(formula !== undefined && { formula: rightSide(formula) }),
      inputs: each.inputs.map(input => input.path),
      source: sourceText(each),
      ...(note && { note }),
    };
  });
}

/** Seconds as in tracks and schedule; everything else in the metric unit that the trade uses for its kind. */
function unitOf(kind: KindName, currency: string | undefined): { unit: string; convert: (si: number) => number } {
  const described = quantityKind(kind);
  if (kind === 'time') return { unit: 's', convert: digits };
  const unit: Unit | undefined = currency ? inCurrency(described.metric, currency) : described.metric;
  if (!unit) return { unit: described.si, convert: digits };
  return { unit: unit.ucum, convert: si => digits(fromSi(si, unit)) };
}

/** `¤/L` in the currency of the job. */
function inCurrency(unit: Unit | undefined, currency: string): Unit | undefined {
  if (!unit?.symbol.includes('¤')) return unit;
  return parseUnit(unit.symbol.replace('¤', currency)) ?? unit;
}

/** Twelve digits: what is beyond is rounding, and 10 800 L must not read 10800.000000000002. */
function digits(value: number): number {
  return Number(value.toPrecision(12));
}

function rightSide(formula: string): string {
  return formula.slice(formula.indexOf('=') + 1).trim();
}
