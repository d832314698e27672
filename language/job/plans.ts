/** Plans: each work with its method called, its machines bound to the roles, its deposits, runway and product found. */
import { blockName, findProperty, type Layers, type Scope } from '../evaluate/layers.ts';
import { placeOfPart } from '../evaluate/places.ts';
import type { Problem } from '../evaluate/problem.ts';
import { withArticle } from '../evaluate/readers.ts';
import type { Reference } from '../generated/ast.ts';
import { KINDS, type KindName, type System, showBeside } from '../units/index.ts';
import { kebab, machines as machinesProperty } from '../vocabulary/define.ts';
import type { BlockHead, BlockRef, Given, Place } from '../vocabulary/given.ts';
import { kinds, propertyOf, propertyTable } from '../vocabulary/index.ts';
import { nearestAll } from '../words/nearest.ts';
import type {
  AnyBlock,
  BoundMachine,
  Deposit,
  Machine,
  Method,
  Plan,
  PlannedStep,
  Product,
  Role,
  Runway,
  Step,
  Work,
} from './job.ts';
import type { Models } from './models.ts';

export interface PlanContext {
  readonly models: Models;
  readonly byId: Map<string, AnyBlock>;
  readonly report: (problem: Problem) => void;
  readonly system: System;
}

/** How a work binds a role: the same way of writing as any list of machines. */
const binding = machinesProperty('The machines that take this role.');

export function planOf(layers: Layers, work: Work, context: PlanContext): Plan {
  const { models, byId } = context;
  const deposits = (work.removes?.value ?? []).flatMap(ref => (byId.get(ref.id) as Deposit | undefined) ?? []);
  const method = methodOf(layers, work, context);
  const roles = method ? models.nestedOf(method.layers).filter(each => each.node.kind === 'role') : [];
  const { bindings, inDoubt } = bindingsOf(layers, work, method?.model, roles, context);
  const steps = method ? method.model.steps.map(step => plannedStep(step, bindings, inDoubt, byId)) : [];
  const product = work.product ?? steps.find(each => each.step.product)?.step.product;
  const doubts = doubtsOf(work, deposits, method?.model, inDoubt.size > 0);
  return {
    work,
    deposits,
    ...groundOf(deposits, byId),
    product: product && (byId.get(product.value.id) as Product | undefined),
    method: method?.model,
    steps,
    bindings,
    ...(doubts.length > 0 && { doubts }),
  };
}

/** What of a plan is in doubt, since something can't be read that it is brought together from. */
function doubtsOf(
  work: Work,
  deposits: readonly Deposit[],
  method: Method | undefined,
  bindings: boolean,
): readonly (keyof Plan)[] {
  const is = (block: BlockHead | undefined, key: string): boolean => block?.doubts?.includes(key) ?? false;
  const ground = is(work, 'removes');
  const called = is(work, 'method');
  const steps = called || is(method, 'steps');
  const product =
    is(work, 'product') || (!work.product && (steps || (method?.steps.some(step => is(step, 'product')) ?? false)));
  return [
    ...(ground ? (['deposits'] as const) : []),
    ...(ground || deposits.some(each => is(each, 'on')) ? (['runway', 'end'] as const) : []),
    ...(product ? (['product'] as const) : []),
    ...(called ? (['method'] as const) : []),
    ...(steps ? (['steps'] as const) : []),
    ...(called || bindings || is(method, 'roles') ? (['bindings'] as const) : []),
  ];
}

/** The runway and end that all deposits agree on. */
function groundOf(deposits: readonly Deposit[], byId: ReadonlyMap<string, AnyBlock>): Pick<Plan, 'runway' | 'end'> {
  const first = deposits[0]?.on?.value;
  const agree =
    first && deposits.every(each => each.on?.value.runway.id === first.runway.id && each.on.value.end === first.end);
  const runway = agree ? (byId.get(first.runway.id) as Runway | undefined) : undefined;
  return { runway, end: runway?.ends.find(each => each.name === first?.end) };
}

/** The method with the work's arguments put in, under the work's own id, so that `North.Agitate` is a step of its own. */
function methodOf(
  layers: Layers,
  work: Work,
  { models, byId }: PlanContext,
): { readonly layers: Layers; readonly model: Method } | undefined {
  const found = findProperty(layers, 'method');
  const value = found?.node.value;
  const part = value?.$type === 'List' ? value.items[0]?.parts[0] : undefined;
  if (!found || part?.$type !== 'Reference' || !work.method) return undefined;
  const named = part.tail.at(-1)?.ref ?? part.head.ref;
  if (named?.$type !== 'Block') return undefined;
  const scope: Scope = { arguments: found.layer.arguments, owner: layers };
  const method = models.called(part as Reference, named, scope, work.id);
  const model = method && (models.modelOf(method) as Method | undefined);
  if (!method || !model) return undefined;
  for (const each of [...model.steps, ...model.roles, ...model.buildUps]) byId.set(each.id, each);
  return { layers: method, model };
}

function bindingsOf(
  layers: Layers,
  work: Work,
  method: Method | undefined,
  roles: readonly Layers[],
  context: PlanContext,
): { readonly bindings: Plan['bindings']; readonly inDoubt: ReadonlySet<string> } {
  const { models, byId, report } = context;
  const bound = new Map<string, readonly BoundMachine[]>();
  const inDoubt = new Set<string>();
  for (const layer of roles) {
    const role = models.modelOf(layer) as Role;
    const found = findProperty(layers, role.name);
    if (!found) {
      if (models.mayBeMeant(layers, role.name)) {
        inDoubt.add(role.name);
        continue;
      }
      report({
        code: 'role-not-bound',
        message: `${work.name} does not say which machine is the ${role.name} of its method, ${withArticle(role.machine?.value ?? 'machine')}. Add ${role.name}: and the name of ${withArticle(role.machine?.value ?? 'machine')}.`,
        place: work.method?.place ?? work.heading,
        related: [{ place: role.heading, message: 'the role is asked for here' }],
        about: work,
        data: { property: role.name },
      });
      continue;
    }
    const reading = models.readAs(layers, found, binding);
    if (reading.inDoubt) inDoubt.add(role.name);
    const value = reading.given as
      | Given<readonly { count: number; machine: { id: string; name: string } }[]>
      | undefined;
    if (!value) continue;
    const machines = value.value.flatMap(({ count, machine }): BoundMachine[] => {
      const model = byId.get(machine.id) as Machine | undefined;
      return model ? [{ count, machine: model, place: value.place }] : [];
    });
    bound.set(role.name, machines);
    holdAgainst(role, machines, reading.inDoubt, value.place, work, context);
  }
  const rolesKnown = method !== undefined && !work.doubts?.includes('method') && !method.doubts?.includes('roles');
  unknownBindings(layers, work, roles, rolesKnown, context);
  return { bindings: bound, inDoubt };
}

/** A role that the method does not have: a misspelt property, or one of another method. */
function unknownBindings(
  layers: Layers,
  work: Work,
  roles: readonly Layers[],
  /** Otherwise there may be roles besides, and only what is surely misspelt is said. */
  rolesKnown: boolean,
  { report }: PlanContext,
): void {
  const kind = kinds.get('work');
  if (!kind) return;
  const names = roles.map(each => blockName(each.node));
  for (const layer of layers.layers) {
    for (const entry of layer.node.entries) {
      if (entry.$type !== 'Property' || names.includes(entry.name) || propertyOf(kind, entry.name)) continue;
      const meant = nearestAll(entry.name, [...names, ...propertyTable(kind).keys()]);
      if (!rolesKnown && meant.length === 0) continue;
      report({
        code: 'unknown-property',
        message: `${work.name} has no property '${entry.name}', and its method has no such role.${meant[0] ? ` Did you mean ${meant[0]}?` : names.length > 0 ? ` The roles are ${names.join(', ')}.` : ''}`,
        place: placeOfPart(entry, 'name'),
        about: work,
        ...(meant.length > 0 && { data: { meant } }),
      });
    }
  }
}

const LIMITS: readonly (readonly [key: 'width' | 'tank' | 'pressure', kind: KindName])[] = [
  ['width', 'length'],
  ['tank', 'volume'],
  ['pressure', 'pressure'],
];

/** Does a machine meet what the role asks for? */
function holdAgainst(
  role: Role,
  machines: readonly BoundMachine[],
  /** There may be more of them. */
  inDoubt: boolean,
  place: Place,
  work: Work,
  { report, system }: PlanContext,
): void {
  const related = [{ place: role.heading, message: `what ${role.name} has to be` }];
  const wanted = role.machine?.value ?? 'machine';
  const number = machines.reduce((sum, each) => sum + each.count, 0);
  if (role.number && number < role.number.value && !inDoubt) {
    report({
      code: 'role-limit',
      message: `${role.name} needs at least ${role.number.value} machines, but ${work.name} binds ${number}. Add machines, or change the role.`,
      place,
      related,
      about: work,
    });
  }
  for (const { machine } of machines) {
    if (role.machine && wanted !== machine.kind) {
      report({
        code: 'role-kind',
        message: `${role.name} has to be ${withArticle(wanted)}, but ${machine.name} is ${withArticle(machine.kind)}.`,
        place,
        related,
        about: work,
      });
      continue;
    }
    for (const [key, quantity] of LIMITS) {
      const limit = role[key]?.value as { least?: number; most?: number } | undefined;
      const has = extent((machine as unknown as Record<string, Given<unknown> | undefined>)[key]?.value);
      if (!limit || !has) continue;
      const short = limit.least !== undefined && has.most < limit.least - 1e-9;
      const over = limit.most !== undefined && has.least > limit.most + 1e-9;
      if (!short && !over) continue;
      const [shown, shownLimit] = showBeside(
        short ? has.most : has.least,
        (short ? limit.least : limit.most)!,
        KINDS[quantity],
        system,
      );
      report({
        code: 'role-limit',
        message: `${machine.name} has ${kebab(key)} ${shown}, but ${role.name} asks for ${short ? 'at least' : 'at most'} ${shownLimit}. Bind another machine, or change the role.`,
        place,
        related,
        about: work,
      });
    }
    const bristles = (machine as { bristles?: Given<string> }).bristles?.value;
    if (role.bristles && bristles !== undefined && !role.bristles.value.includes(bristles as 'steel')) {
      report({
        code: 'role-limit',
        message: `${machine.name} has ${bristles} bristles, but ${role.name} asks for ${role.bristles.value.join(' or ')}. Bind another machine, or change the role.`,
        place,
        related,
        about: work,
      });
    }
  }
}

function extent(value: unknown): { least: number; most: number } | undefined {
  if (typeof value === 'number') return { least: value, most: value };
  if (typeof value !== 'object' || value === null) return undefined;
  const { least, most } = value as { least?: number; most?: number };
  return { least: least ?? 0, most: most ?? Infinity };
}

function plannedStep(
  step: Step,
  bindings: ReadonlyMap<string, readonly BoundMachine[]>,
  inDoubt: ReadonlySet<string>,
  byId: ReadonlyMap<string, AnyBlock>,
): PlannedStep {
  const machinesOf = (refs: readonly BlockRef[], place: Place): readonly BoundMachine[] =>
    refs.flatMap(({ kind, id, name }): readonly BoundMachine[] => {
      if (kind === 'role') return bindings.get(name) ?? [];
      const machine = byId.get(id) as Machine | undefined;
      return machine ? [{ count: 1, machine, place }] : [];
    });
  const isInDoubt = (key: 'by' | 'with', refs: readonly BlockRef[] = []): boolean =>
    step.doubts?.includes(key) || refs.some(({ kind, name }) => kind === 'role' && inDoubt.has(name));
  const doubts = [
    ...(isInDoubt('by', step.by?.value) ? (['machines'] as const) : []),
    ...(isInDoubt('with', step.with && [step.with.value]) ? (['with'] as const) : []),
  ];
  return {
    step,
    machines: step.by ? machinesOf(step.by.value, step.by.place) : [],
    with: step.with ? machinesOf([step.with.value], step.with.place) : [],
    ...(doubts.length > 0 && { doubts }),
  };
}
