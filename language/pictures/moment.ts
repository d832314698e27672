/** The moment that the time control shows: where each machine is, what is wet, and a line of plain words. */
import type { Range } from '../tracks/track.ts';
import type { ActivityPicture, PictureData, RunPicture } from './data.ts';
import { clockText, duration } from './minutes.ts';
import type { Translate } from './words.ts';

export interface MachineAt {
  readonly machine: number;
  readonly activity: number;
  readonly does: RunPicture['does'];
  readonly x: number;
  readonly y: number;
  /** Towards greater x or smaller. */
  readonly dir: 1 | -1;
  readonly state: 'working' | 'turning' | 'away';
}

/** Where the machines are that do something at a moment; those away are filling or emptying. */
export function machinesAt(data: PictureData, night: number, time: number): readonly MachineAt[] {
  const found: MachineAt[] = [];
  data.activities.forEach((activity, index) => {
    if (activity.night !== night || time < activity.start || time > activity.end) return;
    for (const run of activity.runs) {
      const at = runAt(run, time);
      if (at) found.push({ machine: run.machine, activity: index, does: run.does, ...at });
    }
  });
  return found;
}

type At = Pick<MachineAt, 'x' | 'y' | 'dir' | 'state'>;

function runAt(run: RunPicture, time: number): At | undefined {
  const { passes } = run;
  if (passes.length === 0 || time < passes[0]![5] || time > run.end) return undefined;
  const next = passes.findIndex(pass => pass[5] > time);
  const last = passes[next < 0 ? passes.length - 1 : next - 1]!;
  const [x0, x1, y, , , start, end] = last;
  const dir = x1 >= x0 ? 1 : -1;
  if (time <= end) return { x: x0 + ((x1 - x0) * (time - start)) / (end - start || 1), y, dir, state: 'working' };
  if (next < 0) return undefined;
  const away = run.trips.some(trip => time >= trip.start && time <= trip.end);
  const after = passes[next]!;
  const share = (time - end) / (after[5] - end || 1);
  return { x: x1 + (after[0] - x1) * share, y: y + (after[2] - y) * share, dir, state: away ? 'away' : 'turning' };
}

/** Rectangles of product that stands at a moment: applied, and not yet rinsed off. */
export function wetAt(
  data: PictureData,
  night: number,
  time: number,
): readonly { readonly x: Range; readonly y: Range }[] {
  return data.bays.flatMap(bay =>
    bay.night !== night
      ? []
      : bay.wet.flatMap(strip => {
          const from = reached(strip.x, strip.first, time);
          if (!from) return [];
          const gone = strip.rinsed && reached(strip.x, strip.rinsed, time);
          const left = gone ? without(from, gone) : from;
          return left ? [{ x: left, y: strip.y }] : [];
        }),
  );
}

/** The part of a stretch that something moving along it has passed. */
function reached([a, b]: Range, [ta, tb]: Range, time: number): Range | undefined {
  if (time <= Math.min(ta, tb)) return undefined;
  if (time >= Math.max(ta, tb)) return [a, b];
  const at = a + ((b - a) * (time - ta)) / (tb - ta);
  return ta < tb ? [a, at] : [at, b];
}

function without([a, b]: Range, [c, d]: Range): Range | undefined {
  if (c <= a && d >= b) return undefined;
  if (c <= a) return d >= b ? undefined : [Math.max(a, d), b];
  return [a, Math.min(b, c)];
}

/** What happens at a moment, in words: `00:24: Agitate in South 1 · Apply in South 2 · South 1 wet for 59 min`. */
export function momentText(data: PictureData, night: number, time: number, t: Translate): string {
  const shown = data.nights[night];
  if (!shown) return '';
  const parts = data.activities
    .filter(each => each.night === night && time >= each.start && time < each.end)
    .map(each => `${t('{0} in {1}', each.step, bayName(data, each))}${roundText(each, time, t)}`);
  const wet = data.bays
    .filter(bay => bay.night === night)
    .flatMap(bay => {
      const first = Math.min(...bay.wet.map(strip => Math.min(...strip.first)));
      const last = Math.max(...bay.wet.map(strip => (strip.rinsed ? Math.max(...strip.rinsed) : Infinity)));
      if (!(time > first && time < last)) return [];
      return [
        t(
          '{0} wet for {1}',
          `${data.works[bay.work]!.name} ${bay.number}`,
          duration(Math.floor((time - first) / 60) * 60),
        ),
      ];
    });
  const quiet =
    time < shown.from
      ? t('closed, setting up')
      : time >= shown.clear
        ? shown.handBack !== undefined && time >= shown.handBack
          ? t('reserve before the runway is handed back')
          : t('clear and inspected')
        : t('nothing is driving');
  const all = [...(parts.length > 0 ? parts : [quiet]), ...wet];
  return `${clockText(shown, time)}: ${all.join(' · ')}`;
}

function bayName(data: PictureData, { work, bay }: ActivityPicture): string {
  return `${data.works[work]!.name} ${bay}`;
}

/** Which pass of how many the leader is on. */
function roundText({ runs }: ActivityPicture, time: number, t: Translate): string {
  const passes = runs[0]?.passes ?? [];
  if (passes.length < 2) return '';
  const at = passes.findLastIndex(pass => pass[5] <= time);
  return at < 0 ? '' : `, ${t('pass {0} of {1}', at + 1, passes.length)}`;
}
