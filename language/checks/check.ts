/**
 * What a check is. One file each: `language/checks/<group>/<code>.ts` exports one `check({…})`. From it come the
 * finding, its page, the rule in other tools' formats, its tests (the examples) and its fixes.
 *
 * A check reads the job and the results. It never computes what a stage should, and never knows about the editor.
 */
import type { Explained } from '../explain/explain.ts';
import type { BayExposure, WorkTracks } from '../exposure/fromTracks.ts';
import type { Doubts, InDoubt } from '../job/doubts.ts';
import type { Job, Lookup } from '../job/job.ts';
import type { Keeper } from '../job/memory.ts';
import type { Review } from '../schedule/review.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { SourceId } from '../sources/sources.ts';
import type { System } from '../units/index.ts';
import type { BlockRef, Place } from '../vocabulary/given.ts';

export type Severity = 'error' | 'warning' | 'hint';

/** All that a check may read. */
export interface Results {
  readonly job: Job;
  /** Computed quantities by path. */
  readonly quantities: ReadonlyMap<string, Explained>;
  /** Who does what when; it may be impossible, or not found yet. */
  readonly schedule: Schedule;
  /** What it means: recall, odds, duties; why there is none. */
  readonly review: Review;
  /** Where each machine is, when; at the starts of the schedule where there is one. */
  readonly works: readonly WorkTracks[];
  /** What each point of each bay goes through. */
  readonly exposures: readonly BayExposure[];
  /** Looks a quantity up for a requirement, and tells what could not be computed from what there is not. */
  readonly lookup?: Lookup;
  /** The unit system in which messages show numbers. */
  readonly system: System;
  /** Text of the job's files, for fixes. */
  readonly textOf: (file: string) => string;
  /** Keeps what was tried for a cure from one text to the next. */
  readonly keep?: Keeper['keep'];
  /** The date on which waivers and ages are judged, ISO; the job's own date by default. */
  readonly asOf?: string;
  /** What hangs on something that can't be read; absent where everything can. */
  readonly doubt?: Doubt;
}

/** Which results are in doubt for what; blocks by their ids. */
export interface Doubt {
  readonly doubts: Doubts;
  readonly works: InDoubt;
  readonly schedule: InDoubt;
  /** Of the quantities of some path, and of those that have no value. */
  readonly quantity: (path: string) => InDoubt;
}

/** What a check reports. Message law: what is wrong, why, what to do, with the numbers in the author's units. */
export interface Report {
  readonly message: string;
  readonly place: Place;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
  /** The block it is about: a waiver names it (`waive CODE on North.Agitate`). */
  readonly about?: BlockRef;
  readonly fixes?: readonly Fix[];
  /** The text at `place` has no effect: editors grey it out. */
  readonly unused?: boolean;
}

export interface Fix {
  /** An order: 'Set the advance to half the swept width'. */
  readonly title: string;
  readonly edits: readonly Edit[];
  /** Keeps the meaning the author had in mind for certain, so 'fix all' may apply it. */
  readonly safe: boolean;
}

export interface Edit {
  readonly place: Place;
  readonly text: string;
}

export interface Check {
  readonly code: string;
  /** One short sentence: 'Broom overlap is under half the swept width'. */
  readonly title: string;
  readonly severity: Severity;
  /** Why it matters, for the page: two to four plain sentences. */
  readonly why: string;
  readonly source: SourceId;
  /** Language errors and the listed safety checks can't be waived. */
  readonly waivable: boolean;
  /** Part of the safety list: shown first, never waived. */
  readonly safety?: boolean;
  /** Its examples, which are its tests: the bad one has the finding, the good one has not. */
  readonly bad: Example;
  readonly good?: Example;
  /** Other findings that the bad example can't do without. */
  readonly alongside?: readonly string[];
  /** Reports what the stages before found in the text itself: that is never a consequence of what can't be read. */
  readonly ofText?: boolean;
  readonly find: (results: Results) => Iterable<Report>;
}

/**
 * An example: a whole text, or changes to one of the two common jobs of language/checks/example.ts (the chemical one, or
 * the one with water jets). With changes, the good example is the common job as it stands, unless another is given.
 * A whole text may hold several files: a line `// file: lib/plant.broom` begins the next one.
 */
export type Example = string | Changes | { readonly water: Changes };
export type Changes = readonly [from: string, to: string, ...more: string[]];

export function check(definition: Omit<Check, 'waivable'> & { readonly waivable?: boolean }): Check {
  return { waivable: definition.safety !== true, ...definition };
}

/** A finding as everyone outside sees it. */
export interface Finding extends Report {
  readonly code: string;
  readonly severity: Severity;
  readonly fixes: readonly Fix[];
  readonly waived?: { readonly reason: string; readonly by: string; readonly until?: string; readonly place: Place };
}
