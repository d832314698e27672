/**
 * How friction falls as rubber builds up: mu(N) = max(floor, mu0 − k·N).
 *
 * The only coefficient with a published basis comes from one concrete runway over 16 months with one device
 * (`trr-2068`): 0.05 µm of rubber a landing, friction down by 0.05 for 0.1 mm. It can't hold far out, so beyond its
 * range, and for other surfaces and devices, the answer is marked 'no published basis'.
 */
import type { Mark, SourceId } from '../sources/sources.ts';
import type { FrictionDevice } from './levels.ts';

/** Rubber laid down by a landing, m. Source: `trr-2068`. */
export const rubberPerLanding = 0.05e-6;

/** Loss of friction for a depth of rubber, 1/m. Source: `trr-2068`. */
export const frictionPerRubber = 0.05 / 0.1e-3;

/** Loss of friction a landing, k. */
export const frictionPerLanding = rubberPerLanding * frictionPerRubber;

/** Landings up to which the relation is used (0.3 mm of rubber). Source: `tool-policy`. */
export const validLandings = 6_000;

/** Friction below which the model never goes. Source: `tool-policy`: bare rubber still has some grip. */
export const frictionFloor = 0.1;

/** Where and with what the friction was measured. */
export interface GrowthContext {
  readonly device: FrictionDevice;
  readonly pavement: 'concrete' | 'asphalt';
  readonly grooved: boolean;
}

/** A predicted friction and whether anything published stands behind it. */
export interface FrictionForecast {
  readonly friction: number;
  readonly rubber: number;
  readonly basis: 'published' | 'no published basis';
  /** Why there is no basis. */
  readonly reasons: readonly string[];
  readonly source: SourceId;
  readonly mark: Mark;
}

/** Friction after a number of landings from a start value. Never the authority's rule for when to remove rubber. */
export function frictionAfter(start: number, landings: number, context: GrowthContext): FrictionForecast {
  const reasons = reasonsAgainst(landings, context);
  const basis = reasons.length === 0 ? 'published' : 'no published basis';
  return {
    friction: Math.min(start, Math.max(frictionFloor, start - frictionPerLanding * landings)),
    rubber: rubberPerLanding * landings,
    basis,
    reasons,
    source: basis === 'published' ? 'trr-2068' : 'tool-policy',
    mark: basis === 'published' ? 'published' : 'common practice, no source',
  };
}

/** Landings until friction falls from a start value to a level, and whether that is inside the model's range. */
export function landingsUntil(
  start: number,
  level: number,
  context: GrowthContext,
): { readonly landings: number; readonly basis: FrictionForecast['basis']; readonly reasons: readonly string[] } {
  const landings = Math.max(0, (start - level) / frictionPerLanding);
  const reasons = [
    ...reasonsAgainst(landings, context),
    ...(level < frictionFloor ? [`The model stops at ${frictionFloor}.`] : []),
  ];
  return { landings, basis: reasons.length === 0 ? 'published' : 'no published basis', reasons };
}

function reasonsAgainst(landings: number, context: GrowthContext): string[] {
  const reasons: string[] = [];
  if (landings > validLandings * (1 + 1e-9)) reasons.push('More landings than the study supports.');
  if (context.pavement !== 'concrete') reasons.push('The study was on concrete.');
  if (context.grooved) reasons.push('The study does not say how grooves change it.');
  if (context.device !== 'Surface Friction Tester') reasons.push('The study used another device.');
  return reasons;
}
