/**
 * The typed job: everything the text says, evaluated, with its place and origin. All later stages read this and never
 * the text. Plain, immutable data; anything may be missing, because broken text has to stay useful.
 */
import type { Problem } from '../evaluate/problem.ts';
import type { System } from '../units/index.ts';
import type { Model } from '../vocabulary/define.ts';
import type { BlockRef, Given, Place } from '../vocabulary/given.ts';
import type { topKinds } from '../vocabulary/index.ts';
import type { buildUp, role, step } from '../vocabulary/method.ts';
import type { end } from '../vocabulary/runway.ts';
import type { Unused } from './unused.ts';

export type { Problem } from '../evaluate/problem.ts';

export type TopKey = keyof typeof topKinds;
export type Blocks = { readonly [K in TopKey]: readonly Model<(typeof topKinds)[K]>[] };

export type Airport = Blocks['airports'][number];
export type Runway = Blocks['runways'][number];
export type RunwayEnd = Model<typeof end>;
export type Deposit = Blocks['deposits'][number];
export type Product = Blocks['products'][number];
export type Sprayer = Blocks['sprayers'][number];
export type Broom = Blocks['brooms'][number];
export type WaterTruck = Blocks['waterTrucks'][number];
export type Sweeper = Blocks['sweepers'][number];
export type Magnet = Blocks['magnets'][number];
export type Jet = Blocks['jets'][number];
export type Machine = Sprayer | Broom | WaterTruck | Sweeper | Magnet | Jet;
export type Method = Blocks['methods'][number];
export type Role = Model<typeof role>;
export type Step = Model<typeof step>;
export type BuildUp = Model<typeof buildUp>;
export type Work = Blocks['works'][number];
export type Closure = Blocks['closures'][number];
export type Crew = Blocks['crews'][number];
export type Survey = Blocks['surveys'][number];
export type AnyBlock = Blocks[TopKey][number] | RunwayEnd | Role | Step | BuildUp;

export interface Job {
  /** Address of the file that is the job (or the library that is looked at by itself). */
  readonly file: string;
  /** A file without a job block is a library: it is checked block by block, and asked for no runway. */
  readonly isLibrary: boolean;
  /** The unit system in which results are shown: the author's own, unless the job block says. */
  readonly system: System;
  /** The job's own date, ISO; waivers are judged on it unless the caller says another. */
  readonly date: string | undefined;
  /** Top-level blocks: the file's own first, then those of the libraries that the job uses, each once. */
  readonly blocks: Blocks;
  readonly byId: ReadonlyMap<string, AnyBlock>;
  /** One for each work: the method with its arguments put in, the machines bound to its roles. */
  readonly plans: readonly Plan[];
  readonly requirements: readonly Requirement[];
  readonly waivers: readonly Waiver[];
  /** What the stages so far found: syntax, names, units, values. Each code has a check file. */
  readonly problems: readonly Problem[];
  /** What nothing in the file itself refers to. */
  readonly unused: Unused;
  /** Lists of blocks that may lack one, because its kind can't be read; and what of the job itself hangs on that. */
  readonly doubts: readonly (TopKey | 'date' | 'plans')[];
}

/** A work with everything it refers to brought together. */
export interface Plan {
  readonly work: Work;
  readonly deposits: readonly Deposit[];
  /** The runway and end of the deposits; undefined when they are missing or do not agree. */
  readonly runway: Runway | undefined;
  readonly end: RunwayEnd | undefined;
  readonly product: Product | undefined;
  /** The method as this work calls it: every step property has the arguments put in. */
  readonly method: Method | undefined;
  readonly steps: readonly PlannedStep[];
  /** Role name → machines bound by the work. */
  readonly bindings: ReadonlyMap<string, readonly BoundMachine[]>;
  /** What of it hangs on something that can't be read; absent where nothing does. */
  readonly doubts?: readonly (keyof Plan)[];
}

export interface PlannedStep {
  readonly step: Step;
  /** The machines that do it (`by`), and those of the same convoy (`with`). */
  readonly machines: readonly BoundMachine[];
  readonly with: readonly BoundMachine[];
  /** What of it hangs on something that can't be read; absent where nothing does. */
  readonly doubts?: readonly (keyof PlannedStep)[];
}

export interface BoundMachine {
  readonly count: number;
  readonly machine: Machine;
  /** The property of the work that binds it, or the step's own `by`. */
  readonly place: Place;
}

export interface Requirement {
  /** Still a tree: it is evaluated when the results are there. */
  readonly place: Place;
  readonly text: string;
  readonly reason: string | undefined;
  /** The block it stands in, if any. */
  readonly owner: BlockRef | undefined;
  /** Evaluates the condition; `lookup` gives computed quantities by path. Total. */
  readonly evaluate: (lookup: Lookup) => RequirementResult;
}

/** Gives a computed quantity by path (`North.product`), 'unknown' if there is none of that name, or 'missing' if it could not be computed. */
export type Lookup = (path: string) => LookedUp | 'unknown' | 'missing';
export interface LookedUp {
  readonly value: number;
  /** Name of the quantity's kind in language/units. */
  readonly kind: string;
}

export type RequirementResult =
  | { readonly holds: boolean; readonly left?: string; readonly right?: string; readonly operator?: string }
  | { readonly problem: Problem }
  /** `inDoubt`: it can't be read, which is said where it stands. */
  | { readonly missing: string; readonly inDoubt?: boolean };

export interface Waiver {
  readonly place: Place;
  readonly check: string;
  readonly checkPlace: Place;
  readonly target: { readonly path: string; readonly place: Place; readonly id: string | undefined } | undefined;
  readonly condition: Requirement | undefined;
  readonly reason: string | undefined;
  readonly signatory: string | undefined;
  readonly until: string | undefined;
  /** Stands in a library: it says nothing about the job. */
  readonly fromLibrary: boolean;
}

/** The values of several properties when none is missing, else undefined: `const v = complete(runway, 'length', 'width')`. */
export function complete<M extends object, K extends keyof M>(
  block: M | undefined,
  ...keys: K[]
): { readonly [N in K]: NonNullable<M[N]> extends Given<infer T> ? T : never } | undefined {
  if (!block) return undefined;
  const values: Record<PropertyKey, unknown> = {};
  for (const key of keys) {
    const given = block[key] as Given<unknown> | undefined;
    if (given === undefined) return undefined;
    values[key] = given.value;
  }
  return values as { readonly [N in K]: NonNullable<M[N]> extends Given<infer T> ? T : never };
}
