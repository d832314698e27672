/**
 * Judging a friction survey over lengths: 500 ft segments (FAA), a rolling 100 m mean (UK CAA), runway average and
 * 100 m stretches (Transport Canada). A survey is one run: readings along one line at one speed with one device.
 *
 * Chainages in m. Means are weighted by length, so readings need not be of equal length; gaps between readings count
 * for nothing in a mean over a length that holds them (rolling means are exact where there are no gaps).
 */
import type { Mark, SourceId } from '../sources/sources.ts';
import { type FrictionGrade, grade, isBelow } from './classify.ts';
import { type FrictionBasis, type FrictionDevice, type FrictionLevels, findFrictionLevels } from './levels.ts';

/** The mean friction between two chainages, as the device logged it. */
export interface FrictionReading {
  readonly from: number;
  readonly to: number;
  readonly value: number;
}

/** A stretch that a rule picked out. */
export interface FrictionFinding {
  readonly rule: FrictionRule;
  readonly action: FrictionAction;
  readonly from: number;
  readonly to: number;
  readonly mean: number;
  readonly source: SourceId;
  readonly mark: Mark;
}

/** The rules, named for what they look at. */
export type FrictionRule =
  | 'below maintenance, short'
  | 'below maintenance, 1,000 ft or more'
  | 'below minimum, 500 ft'
  | 'below minimum, neighbours sound'
  | 'new surface below design'
  | 'rolling mean below maintenance'
  | 'rolling mean below minimum'
  | 'runway average'
  | '100 m stretch';

/** What a rule asks for. */
export type FrictionAction =
  | 'monitor more often'
  | 'corrective action'
  | 'immediate corrective action'
  | 'reject surface'
  | 'engineer to review'
  | 'programme maintenance';

/** A judged survey, or why it can't be judged. */
export type SurveyResult =
  | { readonly findings: readonly FrictionFinding[]; readonly levels: FrictionLevels | undefined }
  | { readonly problem: 'no readings' | 'no published level' };

/**
 * Judges one run by the rules of a basis: 500 ft segments for the FAA, a rolling 100 m mean for ICAO and CAP 683, runway
 * average and 100 m stretches for TP 312. 'no published level' means that the basis has no row for the device at that
 * speed, which is not a pass.
 * @param speed test speed, m/s
 */
export function evaluateSurvey(
  readings: readonly FrictionReading[],
  basis: FrictionBasis | 'TP 312',
  device: FrictionDevice,
  speed: number,
): SurveyResult {
  if (usable(readings).length === 0) return { problem: 'no readings' };
  if (basis === 'TP 312') return { findings: evaluateTransportCanada(readings), levels: undefined };
  const levels = findFrictionLevels(basis, device, speed);
  if (!levels) return { problem: 'no published level' };
  return {
    findings: basis === 'FAA' ? evaluateFaaSegments(readings, levels) : evaluateRollingMean(readings, levels),
    levels,
  };
}

const foot = 0.3048;
/** Length of an FAA segment, 500 ft, m. */
export const faaSegment = 500 * foot;
const slack = 1e-6;

// Means over lengths

/** Mean of readings between two chainages, weighted by length; `undefined` where there is no reading. */
export function meanBetween(readings: readonly FrictionReading[], from: number, to: number): number | undefined {
  let length = 0;
  let sum = 0;
  for (const reading of readings) {
    const overlap = Math.min(to, reading.to) - Math.max(from, reading.from);
    if (!(overlap > 0)) continue;
    length += overlap;
    sum += overlap * reading.value;
  }
  return length > 0 ? sum / length : undefined;
}

/**
 * Readings averaged over consecutive stretches of a length, from the first reading's start. The last stretch may be
 * short. Stretches without any reading are left out.
 */
export function averageOver(readings: readonly FrictionReading[], length: number): readonly FrictionReading[] {
  const run = usable(readings);
  const start = run[0]?.from;
  const end = run.reduce((furthest, reading) => Math.max(furthest, reading.to), Number.NEGATIVE_INFINITY);
  if (start === undefined || !(length > 0) || (end - start) / length > 1e6) return [];
  const stretches: FrictionReading[] = [];
  for (let i = 0; start + i * length < end - slack; i++) {
    const from = start + i * length;
    const to = Math.min(end, from + length);
    const value = meanBetween(run, from, to);
    if (value !== undefined) stretches.push({ from, to, value });
  }
  return stretches;
}

/** Readings that have a length and a value, in order of chainage. */
function usable(readings: readonly FrictionReading[]): readonly FrictionReading[] {
  return readings
    .filter(r => Number.isFinite(r.from) && Number.isFinite(r.to) && Number.isFinite(r.value) && r.from < r.to)
    .toSorted((a, b) => a.from - b.from);
}

// FAA: 500 ft segments

/**
 * Judges 500 ft segment means by the FAA's rules (`faa-12c-survey-rules`). Pass readings of any length: they are averaged
 * over 500 ft first.
 *
 * - a run of segments below maintenance and shorter than 1,000 ft, not all below minimum: monitor more often;
 * - a run of 1,000 ft or more below maintenance: corrective action;
 * - a 500 ft segment below minimum with its neighbours below maintenance: immediate corrective action. At the end of a
 *   survey the one neighbour there is decides;
 * - a segment below minimum whose neighbours are sound is not covered by the published rules: an engineer must look.
 * @param newSurface a new or resurfaced grooved or porous surface: each segment must also reach the design level
 */
export function evaluateFaaSegments(
  readings: readonly FrictionReading[],
  levels: FrictionLevels,
  newSurface = false,
): readonly FrictionFinding[] {
  const segments = averageOver(readings, faaSegment);
  const source = 'faa-12c-survey-rules';
  const published: Mark = 'published, second hand';
  const memory: Mark = 'from memory';
  const findings: FrictionFinding[] = [];

  for (const run of runsBelow(segments, levels.maintenance)) {
    const from = run[0]!.from;
    const to = run.at(-1)!.to;
    const mean = meanBetween(run, from, to)!;
    if (to - from >= 2 * faaSegment - slack) {
      const rule = 'below maintenance, 1,000 ft or more';
      findings.push({ rule, action: 'corrective action', from, to, mean, source, mark: published });
    } else if (!run.every(segment => isBelow(segment.value, levels.minimum))) {
      const rule = 'below maintenance, short';
      findings.push({ rule, action: 'monitor more often', from, to, mean, source, mark: published });
    }
  }

  segments.forEach((segment, i) => {
    if (!isBelow(segment.value, levels.minimum)) return;
    const { from, to, value: mean } = segment;
    const neighbours = [segments[i - 1], segments[i + 1]].filter(neighbour => neighbour !== undefined);
    const spread =
      neighbours.length > 0 &&
      neighbours.every(neighbour => isBelow(neighbour.value, levels.maintenance)) &&
      to - from >= faaSegment - slack;
    findings.push(
      spread
        ? // The clause on neighbours is remembered, so the finding as a whole is no better than that.
          { rule: 'below minimum, 500 ft', action: 'immediate corrective action', from, to, mean, source, mark: memory }
        : {
            rule: 'below minimum, neighbours sound',
            action: 'engineer to review',
            from,
            to,
            mean,
            source: 'tool-policy',
            mark: 'common practice, no source',
          },
    );
  });

  if (newSurface) {
    for (const { from, to, value: mean } of segments) {
      if (!isBelow(mean, levels.design)) continue;
      findings.push({
        rule: 'new surface below design',
        action: 'reject surface',
        from,
        to,
        mean,
        source,
        mark: published,
      });
    }
  }
  return findings.toSorted((a, b) => a.from - b.from || a.to - b.to);
}

/** Runs of adjoining segments below a level. */
function runsBelow(segments: readonly FrictionReading[], level: number): FrictionReading[][] {
  const runs: FrictionReading[][] = [];
  let previous: FrictionReading | undefined;
  for (const segment of segments) {
    if (isBelow(segment.value, level)) {
      const adjoins = previous && isBelow(previous.value, level) && segment.from - previous.to < slack;
      if (adjoins) runs.at(-1)!.push(segment);
      else runs.push([segment]);
    }
    previous = segment;
  }
  return runs;
}

// Rolling mean

/** The least rolling mean and where its window lies; `short` where the run is shorter than the window. */
export interface RollingMean {
  readonly least: number;
  readonly from: number;
  readonly to: number;
  readonly short: boolean;
}

/**
 * Least mean over any window of a length, exact: the mean is piecewise linear in the window's place, so its extremes
 * lie where the window starts or ends at the edge of a reading. `undefined` without readings.
 */
export function leastRollingMean(readings: readonly FrictionReading[], window: number): RollingMean | undefined {
  const run = usable(readings);
  const profile = cumulative(run);
  if (!profile || !(window > 0)) return undefined;
  const { start, end, edges } = profile;
  if (end - start < window - slack) {
    return { least: profile.mean(start, end), from: start, to: end, short: true };
  }
  const starts = edges
    .flatMap(edge => [edge, edge - window])
    .filter(s => s >= start - slack && s + window <= end + slack);
  const windows = starts.map(from => ({
    least: profile.mean(from, from + window),
    from,
    to: from + window,
    short: false,
  }));
  return windows.reduce<RollingMean | undefined>(
    // A window that lies in a gap has no mean.
    (best, w) => (Number.isFinite(w.least) && !(best && w.least >= best.least - 1e-12) ? w : best),
    undefined,
  );
}

/**
 * Judges a run by a rolling mean (100 m unless told) against a row's maintenance and minimum levels, as CAP 683 does and as
 * the ICAO notion of a significant portion, about 100 m, suggests.
 * Each finding covers all windows that fail together. Source: the row's.
 */
export function evaluateRollingMean(
  readings: readonly FrictionReading[],
  levels: FrictionLevels,
  window = 100,
): readonly FrictionFinding[] {
  const below = (level: number, rule: FrictionRule, action: FrictionAction): FrictionFinding[] =>
    stretchesBelow(readings, level, window).map(({ from, to, least }) => {
      return { rule, action, from, to, mean: least, source: levels.source, mark: levels.mark };
    });
  const minimum = below(levels.minimum, 'rolling mean below minimum', 'immediate corrective action');
  const maintenance = below(levels.maintenance, 'rolling mean below maintenance', 'corrective action');
  return [...minimum, ...maintenance];
}

/** Stretches covered by windows whose mean is below a level, each with the least mean in it. */
function stretchesBelow(
  readings: readonly FrictionReading[],
  level: number,
  window: number,
): { from: number; to: number; least: number }[] {
  const profile = cumulative(usable(readings));
  const overall = leastRollingMean(readings, window);
  if (!profile || !overall) return [];
  if (overall.short) return isBelow(overall.least, level) ? [{ ...overall }] : [];
  const { start, end, edges } = profile;
  const starts = [...new Set(edges.flatMap(edge => [edge, edge - window]))]
    .filter(s => s >= start && s <= end - window)
    .concat(start, end - window)
    .sort((a, b) => a - b);
  const stretches: { from: number; to: number; least: number }[] = [];
  for (let i = 0; i < starts.length; i++) {
    const s = starts[i]!;
    const mean = profile.mean(s, s + window);
    if (!isBelow(mean, level)) continue;
    // Widen to where the mean, linear between neighbouring starts, crosses the level.
    const before = i > 0 ? crossing(profile.mean, starts[i - 1]!, s, window, level) : s;
    const after = i + 1 < starts.length ? crossing(profile.mean, starts[i + 1]!, s, window, level) : s;
    const last = stretches.at(-1);
    if (last && before <= last.to - window + slack) {
      last.to = Math.max(last.to, after + window);
      last.least = Math.min(last.least, mean);
    } else stretches.push({ from: before, to: after + window, least: mean });
  }
  return stretches;
}

/** The start between `other` and `inside` at which the windowed mean reaches the level; `other` if it never does. */
function crossing(
  mean: (from: number, to: number) => number,
  other: number,
  inside: number,
  window: number,
  level: number,
): number {
  const outer = mean(other, other + window);
  const inner = mean(inside, inside + window);
  if (Number.isNaN(outer)) return inside;
  return outer <= level ? other : inside + ((other - inside) * (level - inner)) / (outer - inner);
}

/** Running integral of readings, so that the mean between any two chainages costs a search. */
function cumulative(
  run: readonly FrictionReading[],
): { start: number; end: number; edges: number[]; mean: (from: number, to: number) => number } | undefined {
  const first = run[0];
  if (!first) return undefined;
  const edges = [...new Set(run.flatMap(r => [r.from, r.to]))].sort((a, b) => a - b);
  const lengths = [0];
  const sums = [0];
  for (let i = 0; i + 1 < edges.length; i++) {
    const from = edges[i]!;
    const to = edges[i + 1]!;
    const value = meanBetween(run, from, to);
    lengths.push(lengths[i]! + (value === undefined ? 0 : to - from));
    sums.push(sums[i]! + (value === undefined ? 0 : value * (to - from)));
  }
  const at = (values: readonly number[], s: number): number => {
    const i = Math.min(
      Math.max(
        edges.findLastIndex(edge => edge <= s),
        0,
      ),
      edges.length - 2,
    );
    const share = Math.min(Math.max((s - edges[i]!) / (edges[i + 1]! - edges[i]!), 0), 1);
    return values[i]! + share * (values[i + 1]! - values[i]!);
  };
  const mean = (from: number, to: number) => (at(sums, to) - at(sums, from)) / (at(lengths, to) - at(lengths, from));
  return { start: edges[0]!, end: edges.at(-1)!, edges, mean };
}

// Transport Canada

/**
 * Judges a run by Transport Canada's levels: corrective action where the runway average is below 0.50 or any stretch of
 * 100 m or more averages below 0.30 (`tc-tp-312-friction`); programme maintenance at 0.60 and 0.50 (remembered,
 * `tc-friction-programme`). They hold for the device that the standard names; no other device may be equated with it.
 */
export function evaluateTransportCanada(readings: readonly FrictionReading[]): readonly FrictionFinding[] {
  const run = usable(readings);
  const profile = cumulative(run);
  if (!profile) return [];
  const { start: from, end: to } = profile;
  const average = profile.mean(from, to);
  const stretch = leastStretchMean(profile, 100);
  const act = { action: 'corrective action', source: 'tc-tp-312-friction', mark: 'published' } as const;
  const plan = { action: 'programme maintenance', source: 'tc-friction-programme', mark: 'from memory' } as const;

  const findings: FrictionFinding[] = [];
  if (isBelow(average, 0.5)) findings.push({ rule: 'runway average', from, to, mean: average, ...act });
  else if (isBelow(average, 0.6)) findings.push({ rule: 'runway average', from, to, mean: average, ...plan });
  if (isBelow(stretch.mean, 0.3)) findings.push({ rule: '100 m stretch', ...stretch, ...act });
  else if (isBelow(stretch.mean, 0.5)) findings.push({ rule: '100 m stretch', ...stretch, ...plan });
  return findings;
}

/**
 * Least mean over stretches of at least a length. Candidates: windows of just that length at an edge, and stretches
 * between two edges up to twice as long (a longer one can be split into two that are long enough, one no better).
 */
function leastStretchMean(
  profile: NonNullable<ReturnType<typeof cumulative>>,
  length: number,
): { from: number; to: number; mean: number } {
  const { start, end, edges, mean } = profile;
  if (end - start <= length) return { from: start, to: end, mean: mean(start, end) };
  let best = { from: start, to: end, mean: mean(start, end) };
  const offer = (from: number, to: number) => {
    if (from < start - slack || to > end + slack) return;
    const candidate = mean(from, to);
    if (candidate < best.mean - 1e-12) best = { from, to, mean: candidate };
  };
  for (const [i, edge] of edges.entries()) {
    offer(edge, edge + length);
    offer(edge - length, edge);
    for (let j = i + 1; j < edges.length && edges[j]! - edge <= 2 * length; j++) {
      if (edges[j]! - edge >= length - slack) offer(edge, edges[j]!);
    }
  }
  return best;
}

// Before and after

/** Change of mean friction over one stretch from one survey to the next, same device, speed and line. */
export interface FrictionChange {
  readonly from: number;
  readonly to: number;
  readonly before: number;
  readonly after: number;
  readonly change: number;
  readonly gradeBefore: FrictionGrade;
  readonly gradeAfter: FrictionGrade;
}

/** Compares two surveys over stretches of a length, from the start of the first survey; stretches that both cover. */
export function compareSurveys(
  before: readonly FrictionReading[],
  after: readonly FrictionReading[],
  length: number,
  levels: FrictionLevels,
): readonly FrictionChange[] {
  return averageOver(before, length).flatMap(({ from, to, value }) => {
    const then = meanBetween(usable(after), from, to);
    if (then === undefined) return [];
    const grades = { gradeBefore: grade(levels, value), gradeAfter: grade(levels, then) };
    return [{ from, to, before: value, after: then, change: then - value, ...grades }];
  });
}
