/** The verdict: does the job work, where does it not, when is the runway back; each part with its place in the text. */
import type { Schedule } from '../schedule/schedule.ts';
import { type WhyNot, whyNotFewer } from '../schedule/why.ts';
import type { Place } from '../vocabulary/given.ts';
import type { BayPicture, FindingPicture, PictureData, TimeSpot } from './data.ts';
import { inUnit, type LengthUnit, lengthUnit, offsetText } from './lengths.ts';
import { clockText, duration, minutes, misses } from './minutes.ts';
import { once } from './once.ts';
import { codeOfBay } from './things.ts';
import { type Said, said } from './words.ts';

export interface Verdict {
  readonly state: 'works' | 'warned' | 'fails' | 'nothing' | 'provisional';
  /** A sentence. */
  readonly headline: string;
  readonly detail: string;
  readonly place?: Place;
  /** Index of the finding it speaks of, whose fixes are the cures. */
  readonly finding?: number;
  readonly counts: {
    readonly errors: number;
    readonly warnings: number;
    readonly hints: number;
    readonly waived: number;
  };
  readonly facts: readonly Fact[];
  /** Why one closure less does not do, as a sum that a person can check. */
  readonly sum?: Sum;
}

export interface Sum {
  readonly title: string;
  readonly rows: readonly { readonly text: string; readonly value: string }[];
}

/** One number of the verdict. */
export interface Fact {
  readonly key: 'back' | 'closures' | 'soak' | 'residence' | 'recall' | 'product' | 'water';
  readonly label: Said;
  readonly value: string;
  readonly unit: string;
  /** A few words below; `full` is the same at length. */
  readonly below: string;
  readonly full?: string;
  /** 'over' or 'under' where a limit is missed. */
  readonly sign?: 'over' | 'under';
  /** A value against its limit, for a bar with a tick. */
  readonly gauge?: { readonly value: number; readonly limit: number; readonly most: number };
  readonly place?: Place;
}

export function verdictOf(data: Omit<PictureData, 'verdict'>, schedule: Schedule | undefined, why?: WhyNot): Verdict {
  const open = data.findings.filter(each => each.waived === undefined);
  const counts = {
    errors: open.filter(each => each.severity === 'error').length,
    warnings: open.filter(each => each.severity === 'warning').length,
    hints: open.filter(each => each.severity === 'hint').length,
    waived: data.findings.length - open.length,
  };
  const facts = factsOf(data, schedule);
  const worst = open.find(each => each.severity === 'error') ?? open.find(each => each.severity === 'warning');
  if (data.missing.length > 0 && data.works.length === 0) {
    return {
      state: 'nothing',
      headline: 'Nothing to draw yet',
      detail: `Next: ${data.missing[0] ?? ''}.`,
      counts,
      facts: [],
      ...about(worst, data),
    };
  }
  const said = schedule && scheduleSays(schedule, why);
  const sum = schedule && sumOf(schedule);
  if (worst?.severity === 'error') {
    const [headline, detail] = sentences(worst.message);
    const missed = missedText(data);
    // What the drawing shows is said in its words; the finding's own are in the list, its cures are the buttons.
    return missed
      ? {
          state: 'fails',
          headline: missed.headline,
          detail: missed.detail,
          counts,
          facts,
          ...about(cured(open, missed.codes) ?? worst, data),
        }
      : { state: 'fails', headline, detail, counts, facts, ...about(worst, data) };
  }
  if (said) return { state: 'fails', ...said, counts, facts };
  const provisional = schedule?.state === 'provisional';
  const works = worksText(data, schedule);
  if (worst) {
    const [headline, detail] = sentences(worst.message);
    return {
      state: provisional ? 'provisional' : 'warned',
      headline: `${works.headline}, with ${counts.warnings === 1 ? 'a warning' : `${counts.warnings} warnings`}`,
      detail: detail === '' ? `${headline}.` : `${headline}. ${detail}`,
      counts,
      facts,
      ...(sum && { sum }),
      ...about(worst, data),
    };
  }
  return { state: provisional ? 'provisional' : 'works', ...works, counts, facts, ...(sum && { sum }) };
}

/** The bay that misses a limit by most, in a sentence; the codes of findings that may speak of it. */
function missedText({
  bays,
  works,
  system,
}: Pick<PictureData, 'bays' | 'works' | 'system'>): { headline: string; detail: string; codes: RegExp } | undefined {
  const beyond = (bay: BayPicture): number =>
    bay.state === 'over'
      ? bay.residence!.greatest.seconds - bay.limits.residence!
      : bay.limits.soak! - bay.soak!.least.seconds;
  const missed = bays.filter(bay => bay.state !== 'kept').toSorted((a, b) => beyond(b) - beyond(a));
  const worst = missed[0];
  if (!worst) return undefined;
  const name = `${works[worst.work]!.name} ${worst.number}`;
  const others = missed.length === 1 ? '' : `, and ${missed.length - 1} more ${missed.length === 2 ? 'bay' : 'bays'}`;
  const spot = worst.state === 'over' ? worst.residence!.greatest : worst.soak!.least;
  const at = spotText(spot, lengthUnit({ system }));
  return worst.state === 'over'
    ? {
        headline: `Does not work: ${name} stands ${duration(beyond(worst))} too long${others}`,
        detail: `${minutes(spot.seconds, { most: worst.limits.residence! })} min from the first product to the last rinse ${at}; ${minutes(worst.limits.residence!)} min is the limit.`,
        codes: /stand|dwell|residence/,
      }
    : {
        headline: `Does not work: ${name} soaks ${duration(beyond(worst))} too short${others}`,
        detail: `${minutes(spot.seconds, { least: worst.limits.soak! })} min from the full rate to the first tool ${at}; ${minutes(worst.limits.soak!)} min is the least.`,
        codes: /soak|dwell/,
      };
}

function cured(open: readonly FindingPicture[], codes: RegExp): FindingPicture | undefined {
  return open.find(each => each.severity === 'error' && codes.test(each.code));
}

function about(finding: FindingPicture | undefined, { findings }: Pick<PictureData, 'findings'>) {
  return finding ? { place: finding.place, finding: findings.indexOf(finding) } : {};
}

/** The first sentence, and the rest. */
function sentences(message: string): readonly [string, string] {
  const at = /[.:;] (?=[\p{Lu}'‘“"])/u.exec(message);
  return at ? [message.slice(0, at.index), message.slice(at.index + 2)] : [message.replace(/\.$/, ''), ''];
}

function scheduleSays({ state }: Schedule, why: WhyNot | undefined): { headline: string; detail: string } | undefined {
  if (state === 'open') {
    return { headline: 'No schedule found yet', detail: 'The search ended before it found one or excluded it.' };
  }
  if (state !== 'impossible') return undefined;
  const headline = 'The job does not fit its closures';
  switch (why?.kind) {
    case 'bay too long':
      return {
        headline: `${why.bay.plan.work.name} ${why.bay.bay.number} is too long for any closure`,
        detail: `By itself it takes ${duration(why.takes)}; the longest closure has ${duration(why.has)}.`,
      };
    case 'no night':
      return { headline, detail: `There is no closure for ${why.bay.plan.work.name} ${why.bay.bay.number}.` };
    case 'too few closures':
      return {
        headline: `${why.needs} closures are needed, and there are ${why.has}`,
        detail: why.proved ? 'Fewer are proved impossible.' : 'Fewer may do; it is not proved.',
      };
    case 'contradiction':
      return {
        headline: 'Limits contradict each other',
        detail: `Going round them, an activity would start ${duration(why.excess)} after itself.`,
      };
    default:
      return { headline, detail: 'It is proved that no schedule keeps all its limits.' };
  }
}

/** Each bay is scheduled by itself for it: once for a schedule. */
const sumOf = once((schedule: Schedule): Sum | undefined => {
  const why = whyNotFewer(schedule);
  if (!why) return undefined;
  const name =
    why.holder.kind === 'machine'
      ? why.holder.machine.name
      : why.holder.kind === 'crew'
        ? why.holder.crew.name
        : why.holder.name;
  const room = why.closure - why.before - why.after;
  return {
    title: `Why not ${why.closures === 1 ? 'one closure' : `${why.closures} closures`}`,
    rows: [
      { text: `${name} is busy for`, value: duration(why.busy) },
      { text: 'a closure has', value: duration(why.closure) },
      { text: 'less the steps before it, at least', value: `− ${duration(why.before)}` },
      { text: 'less the steps after it, at least', value: `− ${duration(why.after)}` },
      {
        text: why.closures === 1 ? 'leaves' : `leaves in ${why.closures} closures`,
        value: duration(why.closures * room),
      },
      { text: 'lacking', value: duration(why.busy - why.closures * room) },
    ],
  };
});

function worksText(
  { nights, works }: Pick<PictureData, 'nights' | 'works'>,
  schedule: Schedule | undefined,
): { headline: string; detail: string } {
  const last = nights.at(-1);
  if (works.length === 0) return { headline: 'No work is planned', detail: '' };
  if (!schedule || schedule.nights.length === 0 || !last) {
    return {
      headline: 'Drawn without a schedule',
      detail: 'Works and bays follow one another; a closure would say when.',
    };
  }
  const proof = schedule.proof;
  const provisional = schedule.state === 'provisional';
  const many = nights.length === 1 ? 'one closure' : `${nights.length} closures`;
  const least = proof?.provedLeast && nights.length > 1 ? ` Fewer than ${nights.length} are proved impossible.` : '';
  return {
    headline: provisional ? `Fits ${many}, still looking for better` : `Works in ${many}`,
    detail: `The runway is back at ${clockText(last, last.clear)} on the ${nights.length === 1 ? 'night' : 'last night'} of ${last.label}.${least}`,
  };
}

// ── facts ────────────────────────────────────────────────────────────────────────────────────────────────────────

function factsOf(data: Omit<PictureData, 'verdict'>, schedule: Schedule | undefined): readonly Fact[] {
  return [
    ...backFact(data),
    ...closuresFact(data, schedule),
    ...soakFact(data),
    ...residenceFact(data),
    ...recallFact(data),
    ...quantityFact(data, 'product', said('Product')),
    ...quantityFact(data, 'water', said('Water')),
  ];
}

/** The night with the least to spare. */
function backFact({ nights }: Omit<PictureData, 'verdict'>): readonly Fact[] {
  const real = nights.filter(each => each.handBack !== undefined);
  const tightest = real.toSorted((a, b) => a.handBack! - a.clear - (b.handBack! - b.clear))[0];
  if (!tightest) return [];
  const spare = tightest.handBack! - tightest.clear;
  return [
    {
      key: 'back',
      label: said('Back'),
      ...(real.length > 1 && { full: `The closure with the least to spare, ${tightest.label}` }),
      value: clockText(tightest, tightest.clear),
      unit: tightest.short,
      below: spare >= 0 ? `${duration(spare)} spare` : `${duration(-spare)} late`,
      ...(spare < 0 && { sign: 'over' }),
      ...(tightest.place && { place: tightest.place }),
    },
  ];
}

function closuresFact({ nights }: Omit<PictureData, 'verdict'>, schedule: Schedule | undefined): readonly Fact[] {
  const proof = schedule?.proof;
  if (!proof || schedule.nights.length === 0) return [];
  const least = proof.leastClosures;
  return [
    {
      key: 'closures',
      label: said('Closures'),
      value: String(nights.length),
      unit: '',
      below: proof.provedLeast
        ? nights.length === 1
          ? 'the fewest'
          : `${nights.length - 1} impossible`
        : `at least ${least}`,
      full: proof.provedLeast
        ? 'It is proved that fewer do not do.'
        : `It is proved that at least ${least} are needed.`,
      ...(nights[0]?.place && { place: nights[0].place }),
    },
  ];
}

function soakFact({ bays, works, system }: Omit<PictureData, 'verdict'>): readonly Fact[] {
  // Bays have limits of their own: the one with the least to spare speaks.
  const judged = bays.filter(each => each.soak && each.limits.soak !== undefined);
  const bay = judged.toSorted(
    (a, b) => a.soak!.least.seconds - a.limits.soak! - (b.soak!.least.seconds - b.limits.soak!),
  )[0];
  if (!bay) return [];
  const { seconds } = bay.soak!.least;
  const limit = bay.limits.soak!;
  return [
    {
      key: 'soak',
      label: said('Soak, least'),
      value: minutes(seconds, { least: limit }),
      unit: 'min',
      below: `≥ ${minutes(limit)}, ${bayText(bay, works)}`,
      full: `At least ${minutes(limit)} min is asked for; least at ${works[bay.work]!.name} ${bay.number} ${spotText(bay.soak!.least, lengthUnit({ system }))}`,
      gauge: { value: seconds, limit, most: Math.max(seconds, limit) * 1.25 },
      ...(misses(seconds, { least: limit }) && { sign: 'under' }),
      place: works[bay.work]!.place,
    },
  ];
}

function residenceFact({ bays, works, system }: Omit<PictureData, 'verdict'>): readonly Fact[] {
  const judged = bays.filter(each => each.residence && each.limits.residence !== undefined);
  const bay = judged.toSorted(
    (a, b) =>
      b.residence!.greatest.seconds - b.limits.residence! - (a.residence!.greatest.seconds - a.limits.residence!),
  )[0];
  if (!bay) return [];
  const { seconds } = bay.residence!.greatest;
  const limit = bay.limits.residence!;
  return [
    {
      key: 'residence',
      label: said('Residence'),
      value: minutes(seconds, { most: limit }),
      unit: 'min',
      below: `≤ ${minutes(limit)}, ${bayText(bay, works)}`,
      full: `At most ${minutes(limit)} min is allowed; greatest at ${works[bay.work]!.name} ${bay.number} ${spotText(bay.residence!.greatest, lengthUnit({ system }))}`,
      gauge: { value: seconds, limit, most: Math.max(seconds, limit) * 1.25 },
      ...(misses(seconds, { most: limit }) && { sign: 'over' }),
      place: works[bay.work]!.place,
    },
  ];
}

function recallFact({ nights }: Omit<PictureData, 'verdict'>): readonly Fact[] {
  const peaks = nights.flatMap(night => (night.recall ? [{ night, recall: night.recall }] : []));
  const worst = peaks.toSorted((a, b) => b.recall.peak.seconds - a.recall.peak.seconds)[0];
  if (!worst) return [];
  const { limit, peak } = worst.recall;
  return [
    {
      key: 'recall',
      label: said('Recall'),
      value: minutes(peak.seconds, limit === undefined ? {} : { most: limit }),
      unit: 'min',
      below: `${limit === undefined ? '' : `≤ ${minutes(limit)}, `}${clockText(worst.night, peak.at)}`,
      full: `If the runway is called back it is clear within this time; longest at ${clockText(worst.night, peak.at)}, ${worst.night.label}`,
      ...(limit !== undefined && { gauge: { value: peak.seconds, limit, most: Math.max(peak.seconds, limit) * 1.25 } }),
      ...(limit !== undefined && peak.seconds > limit && { sign: 'over' }),
      ...(worst.night.place && { place: worst.night.place }),
    },
  ];
}

function quantityFact(
  { quantities }: Omit<PictureData, 'verdict'>,
  path: 'product' | 'water',
  label: Said,
): readonly Fact[] {
  const found =
    quantities.find(each => each.path === `Job.${path}`) ??
    onlyOne(quantities.filter(each => each.path.endsWith(`.${path}`)));
  if (!found) return [];
  const [, value = found.shown, unit = ''] = /^(.*\d)\s(\D+)$/.exec(found.shown) ?? [];
  const below = path === 'product' ? 'undiluted' : 'all steps';
  return [{ key: path, label, value, unit, below, ...(found.place && { place: found.place }) }];
}

function onlyOne<T>(list: readonly T[]): T | undefined {
  return list.length === 1 ? list[0] : undefined;
}

function bayText(bay: BayPicture, works: PictureData['works']): string {
  return codeOfBay({ works }, bay) === String(bay.number) ? `bay ${bay.number}` : codeOfBay({ works }, bay);
}

/** `at 310 m, L 8` */
function spotText({ s, t }: TimeSpot, unit: LengthUnit): string {
  return `at ${inUnit(s, unit, 0)} ${unit.name}, ${offsetText(t, unit)}`;
}
