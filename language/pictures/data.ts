/**
 * What the pictures of a job are drawn from: plain data that travels as JSON from the server to the preview, and from
 * which the same pictures are exported.
 *
 * Everything lies in one frame, that of the pavement: x in metres from the runway's first end along the centreline, y in
 * metres from the centreline, right positive looking from that end. Chainages of the text are read off with the rulers of
 * the two landing thresholds (`Ruler`). Times are seconds from the opening of the first closure in use, as in the schedule.
 *
 * Nothing is computed here that a stage has not computed: places are turned into one frame, numbers into text.
 */

import type { Explained } from '../explain/explain.ts';
import { shownValue } from '../explain/render.ts';
import type { Slab } from '../exposure/deposit.ts';
import type { BayExposure, BayTracks, WorkTracks } from '../exposure/fromTracks.ts';
import { stationsOf } from '../job/frame.ts';
import type { Deposit, Job, Machine, Runway } from '../job/job.ts';
import { clockAt, dayAt, type Night } from '../schedule/calendar.ts';
import type { Recall } from '../schedule/recall.ts';
import type { Schedule, ScheduledActivity } from '../schedule/schedule.ts';
import type { WhyNot } from '../schedule/why.ts';
import type { Activity } from '../tracks/fromPlan.ts';
import type { Does, Range } from '../tracks/track.ts';
import type { Place } from '../vocabulary/given.ts';
import { machineCodes, workCodes } from './codes.ts';
import { type Frame, frameFrom, mirrored, type Turn, type Turned, turnedBy } from './frame.ts';
import { type Handle, handlesOf, type Refusal } from './handles.ts';
import { type Limit, limitOf, misses } from './minutes.ts';
import { once } from './once.ts';
import { type Verdict, verdictOf } from './verdict.ts';
import { type WetStrip, wetStripsOf } from './wet.ts';

/** What a picture needs of an analysis. Findings are those of language/analysis, by shape: pictures come before it. */
export interface PictureInput {
  readonly job: Job;
  readonly quantities: ReadonlyMap<string, Explained>;
  readonly works: readonly WorkTracks[];
  readonly exposures: readonly BayExposure[];
  readonly findings: readonly PictureFinding[];
  readonly schedule?: Schedule | undefined;
  readonly review?: { readonly recall: Recall; readonly why: readonly WhyNot[] } | undefined;
}

export interface PictureFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'hint';
  readonly message: string;
  readonly place: Place;
  readonly fixes: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
  readonly waived?: { readonly reason: string; readonly by: string; readonly until?: string };
}

/** One change of the text: what stands at a place becomes `text`. */
export interface TextEdit {
  readonly place: Place;
  readonly text: string;
}

export interface PictureOptions {
  /** Line of a place, from 1, where the caller knows the texts. */
  readonly lineOf?: (place: Place) => number | undefined;
}

export interface PictureData {
  readonly format: 1;
  readonly file: string;
  /** Name of the job block; '' for a library. */
  readonly job: string;
  readonly title: string;
  readonly system: 'metric' | 'us';
  /** What to write next where there is nothing to draw yet, in order; empty where there is a picture. */
  readonly missing: readonly string[];
  readonly verdict: Verdict;
  readonly runways: readonly RunwayPicture[];
  readonly deposits: readonly DepositPicture[];
  readonly works: readonly WorkPicture[];
  readonly bays: readonly BayPicture[];
  readonly machines: readonly MachinePicture[];
  readonly activities: readonly ActivityPicture[];
  readonly nights: readonly NightPicture[];
  readonly findings: readonly FindingPicture[];
  readonly quantities: readonly QuantityPicture[];
  readonly handles: readonly Handle[];
  readonly refusals: readonly Refusal[];
}

/** Chainage of one landing threshold: `s = dir · (x − zero)`, offset `t = dir · y`. */
export interface Ruler {
  readonly end: string;
  readonly zero: number;
  readonly dir: 1 | -1;
  /** Pavement before the landing threshold, m. */
  readonly displaced: number;
  /** Start of the aiming point from the threshold, m, where the text says it. */
  readonly aimingPoint?: number;
}

export interface RunwayPicture {
  readonly name: string;
  readonly place: Place;
  /** Metres; undefined where the text does not say it. */
  readonly length: number | undefined;
  readonly width: number;
  readonly rulers: readonly Ruler[];
  /** x-ranges that hold ground to be treated, with room for turns; what lies between may be cut out of a picture. */
  readonly stretches: readonly Range[];
}

/** A polygon, [x, y] in metres. */
export type Outline = readonly (readonly [x: number, y: number])[];

export interface DepositPicture {
  readonly name: string;
  readonly place: Place;
  readonly runway: number;
  readonly ruler: number;
  readonly buildUp: string | undefined;
  /** 1 light, 2 medium, 3 heavy, 4 very heavy; 2 where the text does not say. */
  readonly weight: number;
  readonly outline: Outline;
  readonly stations: readonly { readonly s: number; readonly left: number; readonly right: number }[];
}

export interface WorkPicture {
  readonly name: string;
  /** Short: `N` for North. '' where the job has one work only. */
  readonly code: string;
  readonly place: Place;
  readonly runway: number;
  readonly ruler: number;
  readonly method: string | undefined;
  /** Contacts the method asks for at every point. */
  readonly contacts: number | undefined;
}

/** A time and where it occurs, in the frame of the pavement; `s` and `t` as the text counts. */
export interface TimeSpot {
  readonly seconds: number;
  readonly x: number;
  readonly y: number;
  readonly s: number;
  readonly t: number;
}

/** Exact cell of the exposure: clocks at its two ends, s; null where the clock does not run. x0 < x1. */
export interface CellPicture {
  readonly x: Range;
  readonly y: Range;
  readonly soak: Range | null;
  readonly wetGap: Range | null;
  readonly residence: Range | null;
  readonly contacts: number;
  readonly jets: number;
  readonly rinses: number;
}

export interface ProfilePicture {
  readonly y: Range;
  readonly contacts: Range;
  readonly jets: Range;
  readonly rinses: Range;
}

export interface BayPicture {
  readonly id: string;
  readonly work: number;
  readonly number: number;
  readonly x: Range;
  readonly y: Range;
  readonly outlines: readonly Outline[];
  /** Index of the night in which it is done. */
  readonly night: number | undefined;
  /** Shortest soak and longest residence that hold here, s. */
  readonly limits: { readonly soak?: number; readonly residence?: number };
  readonly soak: { readonly least: TimeSpot; readonly greatest: TimeSpot } | null;
  readonly wetGap: { readonly greatest: TimeSpot } | null;
  readonly residence: { readonly greatest: TimeSpot } | null;
  readonly contacts: Range;
  /** Worst of what was found of it by the clocks. */
  readonly state: 'kept' | 'under' | 'over';
  readonly cells: readonly CellPicture[];
  readonly profile: readonly ProfilePicture[];
  readonly wet: readonly WetStrip[];
}

export interface MachinePicture {
  readonly name: string;
  readonly code: string;
  readonly kind: Machine['kind'];
  readonly place: Place;
}

/** [x0, x1, y, y of band least, y of band greatest, start, end] */
export type PassPicture = readonly [number, number, number, number, number, number, number];
/** [x, x reached beyond the lane, y from, y to, start, end] */
export type TurnPicture = readonly [number, number, number, number, number, number];

export interface RunPicture {
  readonly machine: number;
  readonly does: Does;
  readonly passes: readonly PassPicture[];
  readonly turns: readonly TurnPicture[];
  readonly trips: readonly { readonly why: 'refill' | 'empty'; readonly start: number; readonly end: number }[];
  readonly start: number;
  readonly end: number;
}

export interface ActivityPicture {
  readonly id: string;
  readonly work: number;
  readonly bay: number;
  readonly step: string;
  readonly does: Activity['does'];
  readonly place: Place;
  readonly night: number;
  readonly start: number;
  readonly end: number;
  readonly runs: readonly RunPicture[];
  /** What it waits for, in words. */
  readonly waits: string;
  /** Seconds it may be late before the job ends later; undefined without a schedule. */
  readonly slack: number | undefined;
}

export interface NightPicture {
  /** `Mon 7 Apr`; 'from the first movement' where no closure says when. */
  readonly label: string;
  readonly short: string;
  readonly place: Place | undefined;
  readonly name: string;
  readonly start: number;
  readonly end: number;
  /** From when machines may work; by when the runway has to be clear; when it is. */
  readonly from: number;
  readonly handBack: number | undefined;
  readonly clear: number;
  /** Seconds after local midnight at `start`; undefined where time is counted from the first movement. */
  readonly clock: number | undefined;
  /** A change of the clocks inside the closure. */
  readonly change?: { readonly at: number; readonly by: number };
  readonly bays: readonly string[];
  readonly activities: readonly string[];
  readonly recall?: RecallPicture;
}

/** How long it takes to clear the runway when it is called back at a moment: [time, seconds] in steps. */
export interface RecallPicture {
  readonly limit: number | undefined;
  readonly peak: { readonly at: number; readonly seconds: number };
  readonly curve: readonly (readonly [number, number])[];
}

export interface FindingPicture {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'hint';
  readonly message: string;
  readonly place: Place;
  readonly line?: number;
  readonly fixes: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
  readonly waived?: string;
}

export interface QuantityPicture {
  readonly path: string;
  readonly label: string;
  readonly shown: string;
  readonly place?: Place;
}

/** The data of a job's pictures. Total: whatever an analysis lacks is left out, and `missing` says what to write. */
export function pictureData(input: PictureInput, options: PictureOptions = {}): PictureData {
  const { job, schedule, works: tracks, exposures } = input;
  const frames = new Frames(job, tracks);
  const head = job.blocks.jobs[0];

  const deposits = job.blocks.deposits.flatMap(each => depositPicture(each, frames) ?? []);
  const drawn = tracks.filter(each => frames.ofWork(each) !== undefined);
  const codes = workCodes(drawn.map(each => each.plan.work.name));
  const works = drawn.map((each, i) => workPicture(each, frames, codes[i]!));
  const machines = machinesOf(drawn);
  const nights = nightsOf(schedule, drawn, input.review?.recall);
  const activities = activitiesOf(drawn, frames, machines, schedule, nights);
  const bays = exposures.flatMap(each => {
    const work = drawn.findIndex(other => other.plan.work.id === each.tracks.plan.work.id);
    const frame = work < 0 ? undefined : frames.ofWork(drawn[work]!);
    return frame ? [bayPicture(each, work, frame, activities)] : [];
  });
  const findings = input.findings.map(each => findingPicture(each, options));
  const runways = frames.runways.map((each, i) => ({
    ...each,
    stretches: stretchesOf(i, each, works, bays, deposits),
  }));
  const { handles, refusals } = handlesOf(job, {
    frameOf: (runway, end) => frames.at(runway, end),
    works: drawn,
    nights: (schedule?.nights ?? []).map(each => each.night.closure),
  });
  const data: Omit<PictureData, 'verdict'> = {
    format: 1,
    file: job.file,
    job: head?.name ?? '',
    title: head?.title?.value ?? head?.name ?? '',
    system: job.system,
    missing: missingIn(job, runways, deposits, works),
    runways,
    deposits,
    works,
    bays,
    machines: machines.map(({ name, code, machine }) => ({ name, code, kind: machine.kind, place: machine.place })),
    activities,
    nights: nights.map((each, i) => ({
      ...each,
      bays: bays.filter(bay => bay.night === i).map(bay => bay.id),
      activities: activities.filter(activity => activity.night === i).map(activity => activity.id),
    })),
    findings,
    quantities: quantitiesOf(input),
    handles,
    refusals,
  };
  return { ...data, verdict: verdictOf(data, schedule, input.review?.why[0]) };
}

// ── place ────────────────────────────────────────────────────────────────────────────────────────────────────────

class Frames {
  readonly runways: Omit<RunwayPicture, 'stretches'>[] = [];
  private readonly ids: string[] = [];

  constructor(job: Job, works: readonly WorkTracks[]) {
    // The runway of the works first; one without work is not drawn at all.
    const used = new Set([
      ...works.flatMap(each => each.plan.runway?.id ?? []),
      ...job.blocks.deposits.flatMap(each => each.on?.value.runway.id ?? []),
    ]);
    for (const id of used) {
      const block = job.byId.get(id);
      if (block?.kind !== 'runway') continue;
      this.ids.push(id);
      this.runways.push(runwayPicture(block as Runway));
    }
  }

  at(runwayId: string, end: string): Frame | undefined {
    const runway = this.ids.indexOf(runwayId);
    return runway < 0 ? undefined : frameFrom(this.runways[runway]!, runway, end);
  }

  ofWork({ plan, ground }: WorkTracks): Frame | undefined {
    const on = ground?.frame ?? plan.deposits[0]?.on?.value;
    return on && this.at(on.runway.id, on.end);
  }
}

function runwayPicture(runway: Runway): Omit<RunwayPicture, 'stretches'> {
  const length = runway.length?.value;
  const rulers = runway.ends.map((end, i): Ruler => {
    const displaced = end.displaced?.value ?? 0;
    // Without a length the second threshold has no place; its chainages then run from where the first ones do.
    const zero = i === 0 ? displaced : (length ?? 0) - displaced;
    return {
      end: end.name,
      zero,
      dir: i === 0 || length === undefined ? 1 : -1,
      displaced,
      ...(end.aimingPoint && { aimingPoint: end.aimingPoint.value }),
    };
  });
  return { name: runway.name, place: runway.place, length, width: runway.width?.value ?? 45, rulers };
}

const weights: Readonly<Record<string, number>> = { light: 1, medium: 2, heavy: 3, 'very heavy': 4 };

function depositPicture(deposit: Deposit, frames: Frames): DepositPicture | undefined {
  const on = deposit.on?.value;
  const frame = on && frames.at(on.runway.id, on.end);
  const list = stationsOf(deposit).filter(({ s, left, right }) => Number.isFinite(s + left + right));
  if (!frame || list.length < 2) return undefined;
  const edge = (side: 'left' | 'right') => list.map(each => [frame.x(each.s), frame.y(each[side])] as const);
  return {
    name: deposit.name,
    place: deposit.place,
    runway: frame.runway,
    ruler: frame.ruler,
    buildUp: deposit.buildUp?.value,
    weight: weights[deposit.buildUp?.value ?? ''] ?? 2,
    outline: [...edge('left'), ...edge('right').reverse()],
    stations: list.map(({ s, left, right }) => ({ s, left, right })),
  };
}

function outlineOf({ s, left, right }: Slab, frame: Turned): Outline {
  return [
    [frame.x(s[0]), frame.y(left[0])],
    [frame.x(s[1]), frame.y(left[1])],
    [frame.x(s[1]), frame.y(right[1])],
    [frame.x(s[0]), frame.y(right[0])],
  ];
}

/** Room beside the ground for turns and words, m; thresholds closer than this to the ground are shown with it. */
const margin = 45;
const nearThreshold = 420;
/** Stretches closer to each other than this are one: a cut would save nothing. */
const shortestCut = 260;

function stretchesOf(
  index: number,
  runway: Omit<RunwayPicture, 'stretches'>,
  works: readonly WorkPicture[],
  bays: readonly BayPicture[],
  deposits: readonly DepositPicture[],
): readonly Range[] {
  const most = runway.length ?? Infinity;
  const ground: Range[] = [
    ...bays.filter(bay => works[bay.work]!.runway === index).map(bay => bay.x),
    ...deposits
      .filter(each => each.runway === index)
      .map(({ outline }): Range => [Math.min(...outline.map(([x]) => x)), Math.max(...outline.map(([x]) => x))]),
  ].filter(([a, b]) => Number.isFinite(a + b));
  const wide = ground.map(([a, b]): Range => {
    let [low, high] = [a - margin, b + margin];
    for (const { zero, displaced, dir } of runway.rulers) {
      // A little of the pavement before the threshold, and no more than there is.
      const before = zero - dir * Math.min(displaced, 40);
      if (dir === 1 && low > before && a - zero < nearThreshold) low = before;
      if (dir === -1 && high < before && zero - b < nearThreshold) high = before;
    }
    return runway.length === undefined ? [low, high] : [Math.max(0, low), Math.min(most, high)];
  });
  wide.sort((a, b) => a[0] - b[0]);
  const merged: [number, number][] = [];
  for (const [a, b] of wide) {
    const last = merged.at(-1);
    if (last && a - last[1] < shortestCut) last[1] = Math.max(last[1], b);
    else merged.push([a, b]);
  }
  return merged;
}

// ── works, bays, machines ────────────────────────────────────────────────────────────────────────────────────────

function workPicture(tracks: WorkTracks, frames: Frames, code: string): WorkPicture {
  const frame = frames.ofWork(tracks)!;
  const { plan } = tracks;
  const wanted = plan.steps.map(({ step }) => step.contacts?.value.least).filter(each => each !== undefined);
  return {
    name: plan.work.name,
    code,
    place: plan.work.place,
    runway: frame.runway,
    ruler: frame.ruler,
    method: plan.method?.name,
    contacts: wanted.length > 0 ? Math.max(...wanted) : undefined,
  };
}

function bayPicture(
  { tracks, exposure }: BayExposure,
  work: number,
  frame: Frame,
  activities: readonly ActivityPicture[],
): BayPicture {
  const { bay, limits } = tracks;
  const id = `${tracks.plan.work.name}/${bay.number}`;
  const { zero, dir } = frame;
  const spot = (at: { readonly seconds: number; readonly s: number; readonly t: number }): TimeSpot => ({
    ...at,
    x: frame.x(at.s),
    y: frame.y(at.t),
  });
  const { soak, residence } = exposure;
  const under = soak !== null && misses(soak.least.seconds, limitOf(tracks, 'soak'));
  const over = residence !== null && misses(residence.greatest.seconds, limitOf(tracks, 'residence'));
  return {
    id,
    work,
    number: bay.number,
    x: frame.xs(bay.s),
    y: frame.ys(bay.t),
    night: activities.find(each => each.work === work && each.bay === bay.number)?.night,
    limits: {
      ...(limits.soak !== undefined && { soak: limits.soak }),
      ...(limits.residence !== undefined && { residence: limits.residence }),
    },
    soak: soak && { least: spot(soak.least), greatest: spot(soak.greatest) },
    wetGap: exposure.wetGap && { greatest: spot(exposure.wetGap.greatest) },
    residence: residence && { greatest: spot(residence.greatest) },
    contacts: [exposure.contacts.least.count, exposure.contacts.most.count],
    state: over ? 'over' : under ? 'under' : 'kept',
    ...groundPicture(tracks, { zero, dir }),
  };
}

/** What most of a bay's picture is: made once for its tracks, which stay the same object as long as nothing of them changes. */
const groundPicture = once(
  (tracks: BayTracks, turn: Turn): Pick<BayPicture, 'outlines' | 'cells' | 'profile' | 'wet'> => {
    const frame = turnedBy(turn);
    const { exposure } = tracks;
    const along = (values: Range | null, limit: Limit = {}): Range | null => {
      if (!values) return null;
      const [a, b] = mirrored(values, turn);
      return [shortBy(limit, a), shortBy(limit, b)];
    };
    return {
      outlines: tracks.slabs.map(slab => outlineOf(slab, frame)),
      cells: exposure.cells.map(cell => ({
        x: shortRange(frame.xs(cell.s)),
        y: shortRange(frame.ys(cell.t)),
        soak: along(cell.soak, limitOf(tracks, 'soak')),
        wetGap: along(cell.wetGap),
        residence: along(cell.residence, limitOf(tracks, 'residence')),
        contacts: cell.contacts,
        jets: cell.jets,
        rinses: cell.rinses,
      })),
      profile: exposure.profile
        .map(each => ({
          y: shortRange(frame.ys(each.t)),
          contacts: each.contacts,
          jets: each.jets,
          rinses: each.rinses,
        }))
        .sort((a, b) => a.y[0] - b.y[0]),
      // Differences of their times are held against limits: those stay as they are.
      wet: wetStripsOf(tracks, frame).map(strip => ({ ...strip, x: shortRange(strip.x), y: shortRange(strip.y) })),
    };
  },
);

interface NamedMachine {
  readonly name: string;
  readonly code: string;
  readonly machine: Machine;
}

/** Machines by the order in which the job brings them on. */
function machinesOf(works: readonly WorkTracks[]): readonly NamedMachine[] {
  const found = new Map<string, Machine>();
  const runs = works
    .flatMap(work => work.bays.flatMap(bay => bay.activities))
    .toSorted((a, b) => orderOf(a) - orderOf(b))
    .flatMap(activity => activity.machines);
  for (const { name, machine } of runs) if (!found.has(name)) found.set(name, machine);
  const codes = machineCodes([...found.keys()]);
  return [...found].map(([name, machine], i) => ({ name, code: codes[i]!, machine }));
}

/** The product first: the columns of the night sheet then read as the work goes. */
function orderOf({ does }: Activity): number {
  return ['pre-wet', 'apply', 'keep-wet', 'agitate', 'jet', 'rinse', 'sweep', 'pick-up'].indexOf(does);
}

function activitiesOf(
  works: readonly WorkTracks[],
  frames: Frames,
  machines: readonly NamedMachine[],
  schedule: Schedule | undefined,
  nights: readonly NightPicture[],
): readonly ActivityPicture[] {
  const scheduled = new Map((schedule?.activities ?? []).map(each => [each.id, each] as const));
  const indexOf = new Map(machines.map(({ name }, i) => [name, i] as const));
  const all = works.flatMap((tracks, work) => {
    const frame = frames.ofWork(tracks)!;
    return tracks.bays.flatMap((bay: BayTracks) =>
      bay.activities.map((activity): ActivityPicture => {
        const planned = scheduled.get(activity.id);
        return {
          id: activity.id,
          work,
          bay: bay.bay.number,
          step: activity.planned.step.name || activity.does,
          does: activity.does,
          place: activity.planned.step.place,
          night: planned?.night ?? nightAt(nights, activity.start),
          start: activity.start,
          end: activity.end,
          runs: activity.machines.map(each =>
            runPicture(each, indexOf.get(each.name) ?? 0, { zero: frame.zero, dir: frame.dir }),
          ),
          waits: planned ? waitsText(planned) : '',
          slack: planned?.slack,
        };
      }),
    );
  });
  return all.sort((a, b) => a.start - b.start);
}

/** Made once for each machine of an activity, as the ground of a bay is. */
const runPicture = once(({ run, tracks }: Activity['machines'][number], machine: number, turn: Turn): RunPicture => {
  const frame = turnedBy(turn);
  return {
    machine,
    does: tracks[0]?.does ?? 'sweep',
    passes: run.passes.map(({ from, to, band, start, end }): PassPicture => {
      const [y0, y1] = frame.ys(band);
      return [frame.x(from.s), frame.x(to.s), frame.y(from.t), y0, y1, start, end].map(short) as unknown as PassPicture;
    }),
    turns: run.turns.map(({ from, to, heading, reach, start, end }): TurnPicture => {
      const x = frame.x(from.s);
      const beyond = frame.x(from.s + heading * reach);
      return [x, beyond, frame.y(from.t), frame.y(to.t), start, end].map(short) as unknown as TurnPicture;
    }),
    trips: run.trips.flatMap(({ why, start, end }) => (why === 'return' ? [] : [{ why, start, end }])),
    start: run.start,
    end: run.end,
  };
});

/** To a millimetre, a millisecond: a picture shows no more, and a job of a thousand passes stays short. */
function short(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}

function shortRange([a, b]: Range): Range {
  return [short(a), short(b)];
}

/** The same of a value that is held against a limit: as it is where rounding would bring it to the limit's other side. */
function shortBy(limit: Limit, seconds: number): number {
  const rounded = short(seconds);
  return misses(rounded, limit) === misses(seconds, limit) ? rounded : seconds;
}

function waitsText({ waits }: ScheduledActivity): string {
  return waits
    .map(each => {
      switch (each.kind) {
        case 'start':
          return 'nothing';
        case 'closure':
          return 'the closure and its set-up';
        case 'just in time':
          return `${each.activity}, sprayed no sooner than needed`;
        case 'lag':
          return `${each.activity} (${each.why})`;
        default:
          return `${each.name}, busy with ${each.activity}`;
      }
    })
    .join('; ');
}

// ── time ─────────────────────────────────────────────────────────────────────────────────────────────────────────

type BareNight = Omit<NightPicture, 'bays' | 'activities'>;

function nightsOf(
  schedule: Schedule | undefined,
  works: readonly WorkTracks[],
  recall: Recall | undefined,
): readonly NightPicture[] {
  const none = { bays: [], activities: [] };
  if (schedule && schedule.nights.length > 0) {
    return schedule.nights.map((each, i) => {
      const own = recall?.nights.find(({ night }) => night === i);
      return { ...nightPicture(each), ...none, ...(own && { recall: recallPicture(own) }) };
    });
  }
  if (works.length === 0) return [];
  const start = Math.min(...works.map(each => each.start));
  const end = Math.max(...works.map(each => each.end));
  const bare: BareNight = {
    label: 'from the first movement',
    short: '',
    place: undefined,
    name: '',
    start,
    end: Math.max(end, start + 1),
    from: start,
    handBack: undefined,
    clear: end,
    clock: undefined,
  };
  return [{ ...bare, ...none }];
}

function nightPicture({ night, start, end, from, handBack, clear }: Schedule['nights'][number]): BareNight {
  const label = dayAt(night.date);
  const [hours = 0, minutes = 0] = clockAt(night.start, night.timeZone).split(':').map(Number);
  const change = changeIn(night);
  return {
    label,
    short: label.split(' ').slice(0, 2).join(' '),
    place: night.closure.place,
    name: night.closure.name,
    start,
    end,
    from,
    handBack,
    clear,
    clock: hours * 3600 + minutes * 60,
    ...(change && { change: { at: start + change.at, by: change.by } }),
  };
}

function recallPicture({ course, peak, limit }: Recall['nights'][number]): RecallPicture {
  // Where a minute's value is on the line between its neighbours it adds nothing.
  const bends = course.filter(({ at, seconds }, i) => {
    const [a, b] = [course[i - 1], course[i + 1]];
    return !a || !b || Math.abs(a.seconds + ((b.seconds - a.seconds) * (at - a.at)) / (b.at - a.at) - seconds) > 0.5;
  });
  return { limit, peak: { at: peak.at, seconds: peak.seconds }, curve: bends.map(({ at, seconds }) => [at, seconds]) };
}

/** When in a closure the clocks change, seconds from its start: where the clock leaps from one second to the next. */
function changeIn({ start, end, offsets, timeZone }: Night): { at: number; by: number } | undefined {
  const by = offsets[1] - offsets[0];
  if (by === 0) return undefined;
  let [low, high] = [start, end];
  const first = secondsOf(clockAt(start, timeZone));
  const shifted = (t: number): boolean => {
    const passed = (secondsOf(clockAt(t, timeZone)) - first - (t - start)) % 86_400;
    return passed !== 0 && passed !== 86_400 && passed !== -86_400;
  };
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (shifted(middle)) high = middle;
    else low = middle;
  }
  return { at: high - start, by };
}

function secondsOf(clock: string): number {
  const [h = 0, m = 0, s = 0] = clock.split(':').map(Number);
  return h * 3600 + m * 60 + s;
}

/** The night an activity belongs to that the schedule puts in none: washing the plant after the last bay. */
function nightAt(nights: readonly NightPicture[], start: number): number {
  const later = nights.findIndex(each => each.start > start);
  return later < 0 ? Math.max(0, nights.length - 1) : Math.max(0, later - 1);
}

// ── lists ────────────────────────────────────────────────────────────────────────────────────────────────────────

function findingPicture(finding: PictureFinding, { lineOf }: PictureOptions): FindingPicture {
  const { code, severity, message, place, fixes, waived } = finding;
  const line = lineOf?.(place);
  return {
    code,
    severity,
    message,
    place: bare(place),
    ...(line !== undefined && { line }),
    fixes: fixes.map(fix => ({
      title: fix.title,
      edits: fix.edits.map(edit => ({ place: bare(edit.place), text: edit.text })),
    })),
    ...(waived && {
      waived: `waived by ${waived.by}${waived.until ? ` until ${waived.until}` : ''}: ${waived.reason}`,
    }),
  };
}

function bare({ file, start, end }: Place): Place {
  return { file, start, end };
}

/** What is computed for the job and for each work; the steps' own numbers stay in the report. */
function quantitiesOf({ job, quantities }: PictureInput): readonly QuantityPicture[] {
  const currency = job.blocks.jobs[0]?.currency?.value;
  const names = new Set(job.plans.map(plan => plan.work.name));
  return [...quantities.values()].flatMap(each => {
    const parts = each.path.split('.');
    const own = each.formula !== undefined && parts.length === 2 && (parts[0] === 'Job' || names.has(parts[0]!));
    if (!own) return [];
    return [
      {
        path: each.path,
        label: each.label,
        shown: shownValue(each, job.system, currency ? { currency } : {}),
        ...(each.place && { place: bare(each.place) }),
      },
    ];
  });
}

/** The blocks that make a picture, in the order in which to write them. */
function missingIn(
  job: Job,
  runways: readonly unknown[],
  deposits: readonly DepositPicture[],
  works: readonly WorkPicture[],
): readonly string[] {
  if (works.length > 0 && deposits.length > 0) return [];
  const missing: string[] = [];
  if (job.blocks.runways.length === 0) missing.push('runway: its length, its width, its ends');
  if (deposits.length === 0) missing.push('deposit: on which runway and end, stations with left and right');
  if (job.blocks.methods.length === 0) missing.push('method: the steps, or a library with `use`');
  if (works.length === 0) missing.push('work: which deposits it removes, by which method, with which machines');
  if (runways.length === 0 && missing.length === 0) missing.push('deposit: the runway it lies on');
  return missing;
}
