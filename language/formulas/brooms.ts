/**
 * Rotary brooms: what an angled broom sweeps, how far it may advance, how often the bristles touch a point.
 * SI: m, m/s; angles in radians, measured from square across the direction of travel; rotation in revolutions per second.
 */
import { floorForgiving } from './counting.ts';

/** Width swept by a broom turned by an angle, w·cos a, m. Source: `geometry`. */
export function sweptWidth(width: number, angle: number): number {
  return width * Math.cos(angle);
}

/** What 'half a broom' means: half of what is swept, or half of the broom's nominal width. */
export type HalfOf = 'swept' | 'nominal';

/** Advance between neighbouring circuits of half a broom, m. Source: `common-practice`. */
export function halfBroomAdvance(width: number, angle: number, half: HalfOf): number {
  return (half === 'swept' ? sweptWidth(width, angle) : width) / 2;
}

/** Overlap left between neighbouring lanes as a share of the swept width; negative where a strip is missed. */
export function overlapShare(swept: number, advance: number): number {
  return (swept - advance) / swept;
}

/** Contacts across the interior of a field of equal lanes, away from its edges. */
export interface InteriorContacts {
  readonly least: number;
  readonly most: number;
  /** Share of the interior (0 to 1) that has only the least number of contacts. */
  readonly shareAtLeast: number;
}

/**
 * Contacts of one set of equally spaced lanes: a point is under ⌊s/a⌋ or one more of them.
 * An angled broom that advances half its nominal width leaves part of the interior with a single contact.
 * Source: `geometry`. `undefined` unless both are positive.
 */
export function interiorContacts(swept: number, advance: number): InteriorContacts | undefined {
  if (!(swept > 0 && advance > 0) || !Number.isFinite(swept / advance)) return undefined;
  const lanes = swept / advance;
  const least = floorForgiving(lanes);
  const more = Math.max(0, lanes - least);
  return more < 1e-9 ? { least, most: least, shareAtLeast: 1 } : { least, most: least + 1, shareAtLeast: 1 - more };
}

/** Kinds of broom with a published contact pattern (the strip the bristle tips polish when run standing still). */
export type PatternBroom = 'main broom' | 'walk or ride sweeper';

/** Published ranges of the contact pattern, m. Sources: `broom-pattern-guide`, `walk-sweeper-guide`. */
export const contactPatterns = {
  'main broom': { from: 2 * 0.0254, to: 4 * 0.0254, source: 'broom-pattern-guide' },
  'walk or ride sweeper': { from: 0.05, to: 0.11, source: 'walk-sweeper-guide' },
} as const satisfies Record<PatternBroom, { from: number; to: number; source: string }>;

/** Whether a pattern is too light (tips miss), right, or too heavy (bristle sides do the work and wear). */
export function contactPatternFit(pattern: number, broom: PatternBroom): 'too light' | 'right' | 'too heavy' {
  const { from, to } = contactPatterns[broom];
  const slack = 1e-9;
  return pattern < from - slack ? 'too light' : pattern > to + slack ? 'too heavy' : 'right';
}

/** Time a point is under the bristles in one pass, pattern over ground speed, s. Source: `geometry`. */
export function contactTime(pattern: number, speed: number): number {
  return pattern / speed;
}

/** Speed of the bristle tips, π·D·n, m/s, n in revolutions per second. Source: `geometry`. */
export function tipSpeed(diameter: number, rotation: number): number {
  return Math.PI * diameter * rotation;
}

/**
 * Bristle strikes a point receives: passes × rows of bristle × revolutions during one contact. Source: `geometry`.
 * @param rows rows of bristle round the core
 */
export function strikes(passes: number, rows: number, rotation: number, pattern: number, speed: number): number {
  return passes * rows * rotation * contactTime(pattern, speed);
}
