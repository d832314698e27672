/**
 * Expressions to values. Total: what has no value comes out as `nothing`, with a problem at its place; chains and nesting
 * are bounded, so no text makes it overflow or hang.
 */
import type { Argument, Binary, Expression, Named, Phrase, Reference, Unary } from '../generated/ast.ts';
import {
  abs,
  add,
  compare,
  div,
  greatest,
  isProblem,
  KINDS,
  type KindName,
  kindNamed,
  least,
  type Magnitude,
  magnitudeName,
  magnitudeOf,
  mul,
  negate,
  plain,
  pow,
  roundTo,
  sqrt,
  sub,
  suggestUnits,
  toSi,
  type Unit,
  type UnitProblem,
} from '../units/index.ts';
import { functions } from '../vocabulary/functions.ts';
import type { Origin, Place } from '../vocabulary/given.ts';
import { nearestAll } from '../words/nearest.ts';
import { type Evaluated, type NumberValue, nameOfValue, nothing } from './evaluated.ts';
import type { Arguments, Layers, Scope } from './layers.ts';
import { placeOf, placeOfPart, textOf } from './places.ts';
import type { Problem } from './problem.ts';

/** What an expression may ask of the world around it. */
export interface World {
  readonly report: (problem: Problem) => void;
  /** Told where a value is wanted that can't be read, which has been said where it stands. */
  readonly doubt: () => void;
  /** A unit by its word; remembered, since a job says `m` a thousand times. */
  readonly unitOf: (word: string) => Unit | undefined;
  /** The block a name means, with its layers; undefined for what is no block or stands in a circle. */
  readonly layersOf: (named: Named, reference: Reference, scope: Scope) => Layers | undefined;
  /** The value of a property of a block, by its written word; undefined if the kind has no such property. */
  readonly propertyOf: (block: Layers, word: string, at: Place) => Evaluated | undefined;
  /** A nested block by name. */
  readonly nestedOf: (block: Layers, name: string) => Layers | undefined;
  /** A computed quantity of a block, `least` in `East.Soak.least`; undefined if it has none of that name. */
  readonly computedOf: (block: Layers, rest: readonly string[], at: Place) => Evaluated | undefined;
  /** Names that could be meant here. */
  readonly namesAt: (reference: Reference) => Iterable<string>;
}

const DEEPEST = 100;
const FUNCTIONS: readonly string[] = Object.keys(functions);

/** The value of an expression. A name that means nothing comes out as a word: the reader knows if a word is wanted. */
export function evaluate(expression: Expression, scope: Scope, world: World, depth = 0): Evaluated {
  if (depth > DEEPEST) {
    return fail(
      world,
      'too-deeply-nested',
      expression,
      'This goes through more than 100 steps, which no one could follow. Write a value, or split it up.',
    );
  }
  const inner = (each: Expression): Evaluated => evaluate(each, scope, world, depth + 1);
  switch (expression.$type) {
    case 'Quantity':
      return literal(expression.value, expression.unit, expression, world);
    case 'Text':
      return { is: 'text', text: expression.value };
    case 'DateLiteral':
      return { is: 'date', date: expression.value };
    case 'ClockLiteral':
      return clock(expression.value, expression, world);
    case 'RatioLiteral': {
      const [left, right] = expression.value.split(':').map(Number);
      return { is: 'ratio', left: left ?? 0, right: right ?? 0 };
    }
    case 'Group':
      return withoutLiteral(inner(expression.inner));
    case 'Unary':
      return unary(expression, inner, world);
    case 'Power': {
      const base = number(inner(expression.base), expression.base, world);
      const exponent = number(inner(expression.exponent), expression.exponent, world);
      return base && exponent ? result(pow(base.magnitude, exponent.magnitude), expression, world) : nothing;
    }
    case 'Binary':
      return binary(expression, inner, world);
    case 'Reference':
      return reference(expression, scope, world, depth);
    default:
      // A tree that recovery left half built.
      return nothing;
  }
}

/**
 * One value from a phrase: a single expression, or quantities of one kind side by side, each smaller than the one before
 * (`3 h 30 min`, `5 ft 6 in`), which add up. Undefined where the phrase is something else.
 */
export function evaluateOne(phrase: Phrase, scope: Scope, world: World, depth = 0): Evaluated | undefined {
  const [first, ...rest] = phrase.parts;
  if (!first || phrase.limit !== undefined) return undefined;
  if (rest.length === 0) return evaluate(first, scope, world, depth);
  if (!phrase.parts.every(part => part.$type === 'Quantity' && part.unit !== undefined)) return undefined;
  let sum: Magnitude | undefined;
  let last = Infinity;
  let unit: string | undefined;
  for (const part of phrase.parts) {
    const value = evaluate(part, scope, world, depth);
    if (value.is !== 'number') return nothing;
    if (!(value.magnitude.si < last)) return undefined;
    last = value.magnitude.si;
    unit ??= value.unit;
    const next: Magnitude | UnitProblem = sum ? add(sum, value.magnitude) : value.magnitude;
    if (isProblem(next)) return undefined;
    sum = next;
  }
  return sum && { is: 'number', magnitude: sum, ...(unit && { unit }) };
}

// ── literals ─────────────────────────────────────────────────────────────────────────────────────────────────────

function literal(digits: string, unitText: string | undefined, node: Expression, world: World): Evaluated {
  const unit = unitText === undefined ? undefined : world.unitOf(unitText);
  if (unitText !== undefined && !unit) {
    unknownUnit(unitText, placeOfPart(node, 'unit'), world);
    return nothing;
  }
  const magnitude = magnitudeOf(digits, unit);
  if (!Number.isFinite(magnitude.si)) {
    return fail(world, 'wrong-value', node, `${digits} is too large to compute with. Check the number of digits.`);
  }
  return { is: 'number', magnitude, literal: digits, ...(unit && { unit: unit.symbol }) };
}

export function unknownUnit(word: string, place: Place, world: Pick<World, 'report'>, kind?: KindName): void {
  const meant = suggestUnits(word, kind && KINDS[kind]);
  world.report({
    code: 'unknown-unit',
    message: `'${word}' is no unit that is known here.${meant[0] ? ` Did you mean ${meant.slice(0, 3).join(' or ')}?` : ''}`,
    place,
    ...(meant.length > 0 && { data: { meant } }),
  });
}

function clock(written: string, node: Expression, world: World): Evaluated {
  const [hours = 0, minutes = 0, seconds = 0] = written.split(':').map(Number);
  if (hours > 24 || minutes > 59 || seconds > 59 || (hours === 24 && minutes + seconds > 0)) {
    return fail(world, 'wrong-value', node, `${written} is no time of day. Clock times run from 00:00 to 24:00.`);
  }
  return { is: 'clock', minutes: hours * 60 + minutes + seconds / 60 };
}

// ── operators ────────────────────────────────────────────────────────────────────────────────────────────────────

function unary(expression: Unary, inner: (each: Expression) => Evaluated, world: World): Evaluated {
  const { operand, operator } = expression;
  if (operator === 'not') {
    const value = inner(operand);
    if (value.is === 'nothing') return nothing;
    if (value.is !== 'truth')
      return fail(world, 'wrong-value', operand, `'not' wants yes or no, but this is ${nameOfValue(value)}.`);
    return { is: 'truth', value: !value.value };
  }
  // A sign before a temperature literal belongs to the reading: −5 °C is five degrees of frost, not minus a temperature.
  if (operand.$type === 'Quantity') {
    const value = literal(operand.value, operand.unit, operand, world);
    if (value.is !== 'number') return value;
    const unit = operand.unit === undefined ? undefined : world.unitOf(operand.unit);
    const si = unit ? toSi(`-${operand.value}`, unit) : -value.magnitude.si;
    return { ...value, magnitude: { ...value.magnitude, si }, literal: `-${operand.value}` };
  }
  const value = number(inner(operand), operand, world);
  if (!value) return nothing;
  const negated = result(negate(value.magnitude), expression, world);
  if (negated.is !== 'number' || !value.interval) return negated;
  return { ...negated, interval: [-value.interval[1], -value.interval[0]] };
}

function binary(expression: Binary, inner: (each: Expression) => Evaluated, world: World): Evaluated {
  const { operator } = expression;
  if (operator === 'and' || operator === 'or') {
    const left = inner(expression.left);
    const right = inner(expression.right);
    if (left.is === 'nothing' || right.is === 'nothing') return nothing;
    if (left.is !== 'truth' || right.is !== 'truth') {
      const [wrong, node] = left.is !== 'truth' ? [left, expression.left] : [right, expression.right];
      return fail(world, 'wrong-value', node, `'${operator}' joins two conditions, but this is ${nameOfValue(wrong)}.`);
    }
    return { is: 'truth', value: operator === 'and' ? left.value && right.value : left.value || right.value };
  }
  if (isComparison(operator)) return comparison(expression, inner(expression.left), inner(expression.right), world);
  const left = number(inner(expression.left), expression.left, world);
  const right = number(inner(expression.right), expression.right, world);
  if (!left || !right) return nothing;
  if (operator === '±') return tolerance(left, right, expression, world);
  return arithmetic(operator, left, right, expression, world);
}

export function isComparison(operator: string): boolean {
  return ['<', '<=', '>', '>=', '=', '!='].includes(operator);
}

/** The truth of a comparison of two values. */
export function comparison(expression: Binary, left: Evaluated, right: Evaluated, world: World): Evaluated {
  const { operator } = expression;
  if (left.is === 'nothing' || right.is === 'nothing') return nothing;
  if (left.is === 'number' && right.is === 'number') {
    const order = compare(left.magnitude, right.magnitude);
    if (typeof order !== 'number') return unitProblem(order, expression, world);
    return { is: 'truth', value: holds(operator, order) };
  }
  const [a, b] = [plainOf(left), plainOf(right)];
  if (a === undefined || b === undefined || left.is !== right.is) {
    return fail(
      world,
      'wrong-value',
      expression,
      `${nameOfValue(left)} can't be compared with ${nameOfValue(right)}. Compare two values of one kind.`,
    );
  }
  return { is: 'truth', value: holds(operator, a < b ? -1 : a > b ? 1 : 0) };
}

function holds(operator: string, order: -1 | 0 | 1): boolean {
  switch (operator) {
    case '<':
      return order < 0;
    case '<=':
      return order <= 0;
    case '>':
      return order > 0;
    case '>=':
      return order >= 0;
    case '=':
      return order === 0;
    default:
      return order !== 0;
  }
}

function plainOf(value: Evaluated): string | number | undefined {
  if (value.is === 'text') return value.text;
  if (value.is === 'word') return value.word;
  if (value.is === 'date') return value.date;
  if (value.is === 'clock') return value.minutes;
  if (value.is === 'truth') return value.value ? 1 : 0;
  return undefined;
}

const OPERATIONS: Readonly<Record<string, (a: Magnitude, b: Magnitude) => Magnitude | UnitProblem>> = {
  '+': add,
  '-': sub,
  '*': mul,
  '/': div,
};

function arithmetic(
  operator: string,
  left: NumberValue,
  right: NumberValue,
  node: Expression,
  world: World,
): Evaluated {
  const operation = OPERATIONS[operator];
  if (!operation) return nothing;
  const value = result(operation(left.magnitude, right.magnitude), node, world);
  if (value.is !== 'number' || (!left.interval && !right.interval)) return value;
  // The extremes of + − × ÷ over two intervals lie at their corners (a divisor that spans zero has no bound).
  const [a, b] = [left.interval ?? same(left), right.interval ?? same(right)];
  if (operator === '/' && b[0] <= 0 && b[1] >= 0) return value;
  const corners: number[] = [];
  for (const x of a) {
    for (const y of b) {
      const corner = operation({ ...left.magnitude, si: x }, { ...right.magnitude, si: y });
      if (!isProblem(corner)) corners.push(corner.si);
    }
  }
  return { ...value, interval: [Math.min(...corners), Math.max(...corners)] };
}

function same(value: NumberValue): readonly [number, number] {
  return [value.magnitude.si, value.magnitude.si];
}

/** `11.3 km/h ± 10 %`, `35 min ± 2 min`. */
function tolerance(left: NumberValue, right: NumberValue, node: Expression, world: World): Evaluated {
  const share = right.unit === '%' && left.unit !== '%';
  const half = share ? Math.abs(left.magnitude.si) * right.magnitude.si : right.magnitude.si;
  if (!share) {
    const fits = sub(left.magnitude, right.magnitude);
    if (isProblem(fits)) return unitProblem(fits, node, world);
  }
  if (half < 0) return fail(world, 'wrong-value', node, 'A tolerance is written as a positive number: ± 10 %.');
  const { literal: _, ...rest } = left;
  return { ...rest, interval: [left.magnitude.si - half, left.magnitude.si + half] };
}

// ── names and calls ──────────────────────────────────────────────────────────────────────────────────────────────

function reference(node: Reference, scope: Scope, world: World, depth: number): Evaluated {
  const named = node.head.ref;
  const word = node.head.$refText;
  if (!named) {
    if (node.call) return call(node, scope, world, depth);
    if (node.tail.length === 0) {
      // An own property: `overlap: width / 2`.
      const own = scope.owner && world.propertyOf(scope.owner, word, placeOf(node));
      return own ?? { is: 'word', word };
    }
    return unknownName(node, world);
  }
  if (named.$type === 'Parameter') {
    const value = parameter(named, scope, world, depth);
    return node.tail.length === 0
      ? value
      : value.is === 'block'
        ? member(value.layers, node, 0, world)
        : unknownName(node, world);
  }
  let start = 0;
  let block: Named = named;
  if (named.$type === 'Use') {
    const next = node.tail[0]?.ref;
    if (!next) return unknownName(node, world);
    block = next;
    start = 1;
  }
  const layers = world.layersOf(block, node, scope);
  return layers ? member(layers, node, start, world) : nothing;
}

/** Down the path from a block: nested blocks, then a property or a computed quantity. */
function member(block: Layers, node: Reference, start: number, world: World): Evaluated {
  let at = block;
  for (let i = start; i < node.tail.length; i++) {
    const name = node.tail[i]!.$refText;
    const inside = world.nestedOf(at, name);
    if (inside) {
      at = inside;
      continue;
    }
    const place = placeOfPart(node, 'tail', i);
    if (i === node.tail.length - 1) {
      const value = world.propertyOf(at, name, place);
      if (value) return withoutLiteral(value);
    }
    const rest = node.tail.slice(i).map(each => each.$refText);
    const computed = world.computedOf(at, rest, place);
    return computed ?? nothing;
  }
  return { is: 'block', layers: at };
}

function parameter(named: Named & { $type: 'Parameter' }, scope: Scope, world: World, depth: number): Evaluated {
  const binding = scope.arguments.get(named);
  if (binding) {
    if (binding.wrong) {
      world.doubt();
      return nothing;
    }
    const value = evaluateOne(binding.value, binding.scope, world, depth + 1) ?? {
      is: 'word' as const,
      word: textOf(binding.value),
    };
    return came(
      value,
      { by: 'argument', parameter: named.name, place: placeOf(binding.value) },
      placeOf(binding.value),
    );
  }
  if (!named.default) return nothing;
  const value =
    evaluateOne(named.default, { arguments: scope.arguments, owner: undefined }, world, depth + 1) ?? nothing;
  return came(value, { by: 'parameter default', parameter: named.name }, placeOf(named.default));
}

function came(value: Evaluated, origin: Origin, place: Place): Evaluated {
  if (value.is !== 'number') return value;
  const { literal: _, ...rest } = value;
  return { ...rest, origin: value.origin ?? origin, place: value.place ?? place };
}

function withoutLiteral(value: Evaluated): Evaluated {
  if (value.is !== 'number' || value.literal === undefined) return value;
  const { literal: _, ...rest } = value;
  return rest;
}

function call(node: Reference, scope: Scope, world: World, depth: number): Evaluated {
  const name = node.head.$refText;
  if (!FUNCTIONS.includes(name)) {
    const meant = nearestAll(name, FUNCTIONS);
    return fail(
      world,
      'unknown-name',
      node,
      `There is no function '${name}'.${meant[0] ? ` Did you mean ${meant[0]}?` : ` There are ${FUNCTIONS.join(', ')}.`}`,
      meant.length > 0 ? { meant } : undefined,
    );
  }
  const values: NumberValue[] = [];
  for (const argument of node.arguments) {
    const value = number(argumentValue(argument, scope, world, depth), argument.value.parts[0] ?? node, world);
    if (!value) return nothing;
    values.push(value);
  }
  const [first, second] = values;
  if (
    !first ||
    (values.length > 2 && name !== 'min' && name !== 'max') ||
    (second && (name === 'sqrt' || name === 'abs'))
  ) {
    return fail(
      world,
      'wrong-value',
      node,
      `${name}(…) has ${values.length} values, which it can't take. ${USAGE[name] ?? ''}`.trim(),
    );
  }
  const list = values.map(each => each.magnitude);
  switch (name) {
    case 'min':
      return result(least(list), node, world);
    case 'max':
      return result(greatest(list), node, world);
    case 'sqrt':
      return result(sqrt(first.magnitude), node, world);
    case 'abs':
      return result(abs(first.magnitude), node, world);
    default:
      return result(
        roundTo(name as 'ceil' | 'floor' | 'round', first.magnitude, second?.magnitude ?? plain(1)),
        node,
        world,
      );
  }
}

const USAGE: Readonly<Record<string, string>> = {
  ceil: 'Write ceil(4.2), or ceil(4.2 m, 0.5 m) to round up to steps of 0.5 m.',
  floor: 'Write floor(4.2), or floor(4.2 m, 0.5 m) to round down to steps of 0.5 m.',
  round: 'Write round(4.2), or round(4.2 m, 0.5 m) to round to steps of 0.5 m.',
};

function argumentValue(argument: Argument, scope: Scope, world: World, depth: number): Evaluated {
  return evaluateOne(argument.value, scope, world, depth + 1) ?? nothing;
}

function unknownName(node: Reference, world: World): Evaluated {
  const word = node.head.$refText;
  const meant = nearestAll(word, [...world.namesAt(node)]);
  const place = placeOfPart(node, 'head');
  world.report({
    code: 'unknown-name',
    message: `There is nothing called '${word}' here.${meant[0] ? ` Did you mean ${meant[0]}?` : ' Define it in this file, or bring it in with use "…".'}`,
    place,
    ...(meant.length > 0 && { data: { meant } }),
  });
  return nothing;
}

// ── helpers ──────────────────────────────────────────────────────────────────────────────────────────────────────

function number(value: Evaluated, node: Expression, world: World): NumberValue | undefined {
  if (value.is === 'number') return value;
  if (value.is === 'word' && node.$type === 'Reference') {
    unknownName(node, world);
  } else if (value.is !== 'nothing') {
    fail(world, 'wrong-value', node, `This is ${nameOfValue(value)}, but a number is needed to compute with.`);
  }
  return undefined;
}

function result(value: Magnitude | UnitProblem, node: Expression, world: World): Evaluated {
  if (isProblem(value)) return unitProblem(value, node, world);
  if (!Number.isFinite(value.si))
    return fail(world, 'wrong-value', node, 'The result is too large to compute with. Check the numbers.');
  return { is: 'number', magnitude: value };
}

function unitProblem(problem: UnitProblem, node: Expression, world: World): Evaluated {
  const message = problem.message;
  return fail(
    world,
    'wrong-dimension',
    node,
    `${message[0]?.toUpperCase() ?? ''}${message.slice(1)}. Check the units.`,
  );
}

function fail(world: World, code: string, node: Expression, message: string, data?: Problem['data']): Evaluated {
  world.report({ code, message, place: placeOf(node), ...(data && { data }) });
  return nothing;
}

/** The name of a magnitude's kind, for messages. */
export function describe(magnitude: Magnitude): string {
  return magnitudeName(magnitude);
}

/** The kind of quantity that words name, as in a parameter's type: `application rate`. */
export function kindOfWords(words: readonly string[]): KindName | undefined {
  const name = words.join(' ');
  return kindNamed(name) && name in KINDS ? (name as KindName) : undefined;
}

export type { Arguments };
