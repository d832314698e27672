/** The schedule for a person at a terminal: closure by closure, machine by machine, what is proved, what would save one. */
import type { Results } from '../../language/checks/check.ts';
import { counted, listed, percent } from '../../language/checks/help.ts';
import { savingFixes } from '../../language/checks/savings.ts';
import type { Saving } from '../../language/mend/closures.ts';
import { clockAt, dayAt } from '../../language/schedule/calendar.ts';
import type { BroomLost } from '../../language/schedule/recall.ts';
import type { Review } from '../../language/schedule/review.ts';
import type { Schedule, ScheduledActivity, ScheduledNight } from '../../language/schedule/schedule.ts';
import type { WhyNotFewer } from '../../language/schedule/why.ts';
import { KINDS, type System, show } from '../../language/units/index.ts';
import type { Looks } from './findingText.ts';
import { pad, width, wrap } from './terminal.ts';

/** What the schedule's part of the table is made from. */
export interface Scheduled {
  readonly schedule: Schedule;
  readonly review: Review;
  readonly system: System;
  /** Worked out only for this text. */
  readonly fewer: WhyNotFewer | undefined;
  readonly broomLost: BroomLost | undefined;
  readonly savings: readonly Saving[];
  /** For the wording of what would save a closure. */
  readonly results: Pick<Results, 'job' | 'textOf' | 'system'>;
}

/** The schedule as text; what is to be said where there is none. No line break at the end. */
export function scheduleText(scheduled: Scheduled, looks: Looks): string {
  const { schedule } = scheduled;
  const { paint, columns } = looks;
  const heading = paint('strong', 'Schedule');
  if (!schedule.starts) {
    const why = {
      impossible: 'There is none: the job does not fit into its closures. broomline check says why.',
      open: 'None was found within the budget of the search.',
      nothing: 'There is nothing to schedule, or no closure to do it in.',
      scheduled: '',
      provisional: '',
    }[schedule.state];
    const first = schedule.state === 'nothing' ? why : `${why} Tracks and clocks below are without closures and waits.`;
    return [heading, ...wrap(first, columns - 2).map(line => `  ${line}`), ...savingLines(scheduled, looks)].join('\n');
  }
  return [
    heading,
    ...paragraph(verdict(scheduled), columns),
    ...schedule.nights.flatMap((night, k) => ['', ...nightLines(scheduled, night, k, looks)]),
    ...(schedule.nights.length === 0 ? ['', ...table(scheduled, schedule.activities, undefined, looks)] : []),
    '',
    ...machineLines(scheduled, looks),
    ...recallLines(scheduled, looks),
    ...savingLines(scheduled, looks),
  ].join('\n');
}

/** `3 closures, 2 proved impossible; the last one is clear at 03:41, proved earliest.` */
export function verdict({ schedule, review, fewer, system }: Scheduled): string {
  const { proof, nights } = schedule;
  if (!proof) return '';
  const time = (seconds: number): string => show(seconds, KINDS.time, system);
  const last = nights.at(-1);
  const closures =
    proof.closures === 0
      ? ''
      : `${counted(proof.closures, 'closure')}, ${
          proof.provedLeast
            ? proof.closures === 1
              ? 'the fewest there can be'
              : `${proof.closures - 1} proved impossible`
            : `at least ${proof.leastClosures} needed`
        }; `;
  const end = last
    ? `the last one is clear at ${clockIn(schedule, proof.end + 59, last)}`
    : `done after ${time(proof.end)}`;
  const earliest = proof.provedEarliest
    ? 'proved earliest'
    : `no schedule ends more than ${time(proof.end - proof.bound)} earlier`;
  const odds = review.odds
    ? ` Every closure is handed back on time in ${percent(review.odds.onTime)} of ${review.odds.runs} runs with durations between their tolerances.`
    : '';
  const provisional = schedule.state === 'provisional' ? 'Provisional: ' : '';
  return `${provisional}${closures}${end}, ${earliest}.${sumOf(fewer, time)}${odds}`;
}

/** Why not one closure less, as a sum. */
function sumOf(fewer: WhyNotFewer | undefined, time: (seconds: number) => string): string {
  if (fewer?.holder.kind !== 'machine') return '';
  const { holder, busy, before, after, closure, closures } = fewer;
  const room = closures * (closure - before - after);
  return ` Why not ${counted(closures, 'closure')}: ${holder.machine.name} is at work for ${time(busy)}, but of the ${time(closure)} of a closure ${time(before)} pass before it can begin and ${time(after)} after it has to be done, which leaves ${time(room)}.`;
}

function nightLines(scheduled: Scheduled, night: ScheduledNight, k: number, looks: Looks): readonly string[] {
  const { schedule, review } = scheduled;
  const { closure, date } = night.night;
  const at = (seconds: number): string => clockIn(schedule, seconds, night);
  const odds = review.odds?.nights.find(each => each.night === k);
  const about = [
    `${closure.name} ${at(night.start)} to ${at(night.end)}`,
    `hand-back ${at(night.handBack)}`,
    `clear ${at(night.clear + 59)}`,
    ...(odds && odds.onTime < 1 ? [`90 % of runs by ${at(odds.keptBy90 + 59)}`] : []),
  ].join(', ');
  const own = schedule.activities.filter(each => each.night === k);
  return [looks.paint('strong', `${dayAt(date)}`).concat(`  ${about}`), ...table(scheduled, own, night, looks)];
}

/** One activity a line: from, to, what, by whom, slack, and what it waits for. */
function table(
  { schedule, system }: Scheduled,
  activities: readonly ScheduledActivity[],
  night: ScheduledNight | undefined,
  { paint, columns }: Looks,
): readonly string[] {
  const at = (seconds: number): string =>
    night ? clockIn(schedule, seconds, night) : show(seconds, KINDS.time, system);
  const rows = activities.map(each => [
    at(each.start),
    at(each.end),
    each.id,
    each.machines.join(', '),
    slackText(each.slack, system),
  ]);
  const widths = [0, 1, 2, 3, 4].map(c => Math.max(0, ...rows.map(row => width(row[c]!))));
  return activities.flatMap((each, i) => {
    const line = `  ${rows[i]!.map((cell, c) => pad(cell, widths[c]!, c < 2 || c === 4 ? 'right' : 'left')).join('  ')}`;
    const why = shortReason(each);
    return why !== '' && width(line) + 2 + width(why) <= columns
      ? [`${line}  ${paint('quiet', why)}`]
      : [line.trimEnd()];
  });
}

function slackText(slack: number, system: System): string {
  if (slack < 60) return slack === 0 ? 'no slack' : '< 1 min';
  return show(Math.floor(slack / 60) * 60, KINDS.time, system);
}

/** What an activity waits for in two or three words; a machine before the order of the steps. */
function shortReason({ waits }: ScheduledActivity): string {
  const machine = waits.find(each => each.kind === 'machine' || each.kind === 'crew' || each.kind === 'stand');
  if (machine && 'name' in machine) return `${machine.name} from ${machine.activity}`;
  for (const each of waits) {
    if (each.kind === 'just in time') return `just in time for ${each.activity}`;
    if (each.kind === 'closure') return 'opening';
    if (each.kind !== 'lag') continue;
    return each.why === 'dwell at every point' ? `soak since ${each.activity}` : `after ${each.activity}`;
  }
  return '';
}

/** When each machine is at work, closure by closure, and how busy it is. */
function machineLines({ schedule, review }: Scheduled, { paint, columns }: Looks): readonly string[] {
  const names = [...new Set(schedule.activities.flatMap(each => each.machines))];
  const longest = Math.max(0, ...names.map(width));
  const busiest = review.loads[0];
  const lines = names.flatMap(name => {
    const parts = schedule.nights.map((night, k) => {
      const own = schedule.activities.filter(each => each.night === k && each.machines.includes(name));
      const spells = own.map(
        each => `${clockIn(schedule, each.start, night)}–${clockIn(schedule, each.end, night)} ${each.id}`,
      );
      return own.length === 0 ? '' : `${dayAt(night.night.date)}: ${spells.join(', ')}`;
    });
    const text = parts.filter(part => part !== '').join('; ');
    const [first = '', ...more] = wrap(text, Math.max(24, columns - longest - 4));
    return [`  ${pad(name, longest)}  ${first}`, ...more.map(line => `  ${pad('', longest)}  ${line}`)];
  });
  if (schedule.nights.length === 0) return [];
  const load =
    busiest?.holder.kind === 'machine'
      ? paragraph(
          `Busiest: ${busiest.holder.machine.name}, at work in ${percent(busiest.busy / busiest.room)} of the usable time of the closures.`,
          columns,
        )
      : [];
  return [paint('strong', 'Machines'), ...lines, ...load];
}

function recallLines({ schedule, review, broomLost, system }: Scheduled, { paint, columns }: Looks): readonly string[] {
  const { peak, lastSafe } = review.recall;
  if (!peak) return [];
  const time = (seconds: number): string => show(seconds, KINDS.time, system);
  const night = schedule.nights[peak.night]!;
  const latest = (list: typeof lastSafe): string =>
    listed(
      list.map(each => {
        const own = schedule.nights[each.night]!;
        const when = each.latest === undefined ? 'not at all' : clockIn(schedule, each.latest, own);
        return `${each.work}/${each.bay} ${when}`;
      }),
    );
  const text = [
    `Called back at the worst moment, ${dayAt(night.night.date)} ${clockIn(schedule, peak.at, night)}, the runway is clear after ${time(peak.seconds)}.`,
    `Last safe start of spraying, so that the bay and those before it are done by the hand-back: ${latest(lastSafe)}.`,
    ...(broomLost
      ? [
          `With one broom lost (${broomLost.broom}): ${latest(broomLost.lastSafe)}${
            broomLost.nightsLost.length === 0
              ? ''
              : `; what is planned for ${listed(broomLost.nightsLost.map(k => dayAt(schedule.nights[k]!.night.date)))} can't all be finished then`
          }.`,
        ]
      : []),
  ];
  return ['', paint('strong', 'Recall'), ...text.flatMap(each => paragraph(each, columns))];
}

function savingLines({ schedule, savings, results }: Scheduled, { paint, columns }: Looks): readonly string[] {
  if (savings.length === 0) return [];
  const target = schedule.proof ? `With ${counted(schedule.proof.closures - 1, 'closure')}` : 'It fits';
  const fixes = savings.flatMap(saving => savingFixes(results as Results, [saving]).map(each => each.title));
  if (fixes.length === 0) return [];
  return [
    '',
    paint('strong', schedule.proof ? 'What would save a closure' : 'What would make it fit'),
    ...paragraph(`${target}, by any one of these: ${fixes.join('; ')}.`, columns),
  ];
}

function paragraph(text: string, columns: number): readonly string[] {
  return wrap(text, Math.max(24, columns - 2)).map(line => `  ${line}`);
}

/** Whole minutes, what the crew reads; add 59 where a later minute is the safe one. The exact seconds are in the JSON. */
function clockIn({ zero }: Schedule, seconds: number, night: ScheduledNight): string {
  return clockAt(Math.floor(((zero ?? 0) + seconds) / 60) * 60, night.night.timeZone);
}
