/**
 * One frame for everything on a runway. Chainage counts from a landing threshold in the direction of landing, offsets are
 * right positive; seen from the other end s' = L − s and t' = −t, with L between the two landing thresholds.
 */
import { fromOtherEnd, type StationList, stationsFromDistances } from '../formulas/geometry.ts';
import type { BlockRef, Given } from '../vocabulary/given.ts';
import type { Deposit, Job, Runway } from './job.ts';

/** A runway and the end from which chainage counts. */
export interface Frame {
  readonly runway: BlockRef;
  readonly end: string;
}

/** Stations of a deposit in its own frame; none where the text has none. */
export function stationsOf(deposit: Deposit): StationList {
  const rows = deposit.stations?.value ?? [];
  return stationsFromDistances(rows.map(({ chainage, left, right }) => ({ s: chainage, left, right })));
}

/** The frame that a block is given in. */
export function frameOf(block: {
  readonly on: Given<{ runway: BlockRef; end: string }> | undefined;
}): Frame | undefined {
  return block.on?.value;
}

/** Stations in another frame of the same runway; undefined when the length that it takes is missing. */
export function inFrame(job: Job, stations: StationList, from: Frame, to: Frame): StationList | undefined {
  if (from.runway.id !== to.runway.id) return undefined;
  if (from.end === to.end) return stations;
  const length = betweenThresholds(job, to.runway);
  return length === undefined ? undefined : fromOtherEnd(stations, length);
}

/** Distance of the two landing thresholds, m. */
export function betweenThresholds(job: Job, runway: BlockRef): number | undefined {
  const block = job.byId.get(runway.id);
  if (block?.kind !== 'runway') return undefined;
  const { length, ends } = block as Runway;
  return length && length.value - ends.reduce((sum, end) => sum + (end.displaced?.value ?? 0), 0);
}
