/** Jobs by hand, from the vocabulary alone: the text `6 m` for a number, the model's own value for everything else. */
import type { AnyBlock, Blocks, Job, Plan, PlannedStep } from '../../../language/job/job.ts';
import type { System } from '../../../language/units/index.ts';
import { parseQuantity } from '../../../language/units/index.ts';
import type { BlockHead, BlockRef, Given, Place } from '../../../language/vocabulary/given.ts';
import { kinds, topKinds } from '../../../language/vocabulary/index.ts';

export type Values = Readonly<Record<string, unknown>>;
export type Block = BlockHead & Readonly<Record<string, unknown>>;

let position = 0;

/** A block of a kind. A string where a number belongs is read as a quantity; `±` gives an interval: `6 m ± 10 %`. */
export function block(kind: string, name: string, values: Values = {}): Block {
  const described = kinds.get(kind);
  if (!described) throw new Error(`no such kind: ${kind}`);
  position += 100;
  const place: Place = { file: 'job.broom', start: position, end: position + 90 };
  const properties: Record<string, unknown> = {};
  for (const [key, property] of Object.entries(described.properties)) {
    properties[key] = key in values ? given(property.type, values[key], place) : undefined;
    if (!(key in values) && property.default) {
      const { value, text } = property.default;
      properties[key] = { value, text, place, literal: false, origin: { by: 'default', source: property.source } };
    }
  }
  const children = Object.fromEntries(Object.keys(described.blocks).map(key => [key, values[key] ?? []]));
  for (const key of Object.keys(values)) {
    if (!(key in described.properties) && !(key in children)) throw new Error(`${kind} has no ${key}`);
  }
  return { kind, id: `${kind} ${name}`, name, place, heading: place, fromLibrary: false, ...properties, ...children };
}

function given(type: { is: string }, value: unknown, place: Place): Given<unknown> {
  const base = { place, literal: true, origin: { by: 'own line' as const } };
  if (type.is !== 'quantity' || typeof value !== 'string') {
    const rows = Array.isArray(value) && type.is === 'table' ? value.map(row => ({ place, ...row })) : value;
    return { value: rows, text: String(value), ...base };
  }
  const [written, tolerance] = value.split('±').map(part => part.trim());
  const read = parseQuantity(written!);
  if (!read) throw new Error(`not a quantity: ${value}`);
  const share = tolerance === undefined ? undefined : Number(tolerance.replace('%', '')) / 100;
  return {
    value: read.si,
    text: value,
    ...(read.unit && { unit: read.unit.symbol }),
    ...(share !== undefined && { interval: [read.si * (1 - share), read.si * (1 + share)] as const }),
    ...base,
  };
}

/** SI value of a quantity, for values that are not numbers by themselves (`{ rate: si('0.5 L/m2'), of: 'mix' }`). */
export function si(text: string): number {
  const read = parseQuantity(text);
  if (!read) throw new Error(`not a quantity: ${text}`);
  return read.si;
}

export function ref(of: BlockHead): BlockRef {
  return { kind: of.kind, id: of.id, name: of.name };
}

/** A job of blocks. Plans are made from the works: their steps' `by` and `with` name machines. */
export function job(blocks: readonly Block[], system: System = 'metric'): Job {
  const byKind = Object.fromEntries(
    Object.entries(topKinds).map(([key, kind]) => [key, blocks.filter(each => each.kind === kind.kind)]),
  ) as unknown as Blocks;
  const byId = new Map(blocks.map(each => [each.id, each as unknown as AnyBlock]));
  const plans = byKind.works.map((work): Plan => {
    const deposits = (work.removes?.value ?? []).map(each => byId.get(each.id)) as unknown as Plan['deposits'];
    const method = work.method && (byId.get(work.method.value.id) as Plan['method']);
    const on = deposits[0]?.on?.value;
    const runway = on && (byId.get(on.runway.id) as Plan['runway']);
    const product = work.product && (byId.get(work.product.value.id) as Plan['product']);
    const bound = (named: Given<BlockRef | readonly BlockRef[]> | undefined): PlannedStep['machines'] =>
      (named ? [named.value].flat() : []).flatMap(each => {
        const machine = byId.get(each.id);
        return machine ? [{ count: 1, machine: machine as never, place: work.place }] : [];
      });
    const steps = (method?.steps ?? []).map(step => ({ step, machines: bound(step.by), with: bound(step.with) }));
    return { work, deposits, runway, end: runway?.ends[0], product, method, steps, bindings: new Map() };
  });
  return {
    file: 'job.broom',
    isLibrary: false,
    system,
    date: undefined,
    blocks: byKind,
    byId,
    plans,
    requirements: [],
    waivers: [],
    problems: [],
    unused: { uses: [], blocks: new Set(), parameters: [] },
    doubts: [],
  };
}

/** A rectangle from chainage to chainage, half its width to either side. */
export function stations(from: number, to: number, left: number, right: number): readonly Values[] {
  return [
    { chainage: from, left, right },
    { chainage: to, left, right },
  ];
}
