/** Bays for a person at a terminal: what each step did there, and what the pavement went through, with places. */
import type { BayExposure, BayTracks } from '../../language/exposure/fromTracks.ts';
import { placeText } from '../../language/quantities/tracked.ts';
import type { Activity } from '../../language/tracks/fromPlan.ts';
import { formatNumber, KINDS, type System, show } from '../../language/units/index.ts';
import type { Looks } from './findingText.ts';
import { pad, width, wrap } from './terminal.ts';

/** Bay by bay: passes, turns, trips and time of each step, then the clocks. No line break at the end; '' without tracks. */
export function exposureText(exposures: readonly BayExposure[], system: System, looks: Looks): string {
  if (exposures.length === 0) return '';
  const bays = exposures.map(each => bayText(each, system, looks));
  return [
    looks.paint('strong', 'Bays, in seconds from the first movement or the opening of the first closure'),
    ...bays,
  ].join('\n\n');
}

function bayText({ tracks, exposure }: BayExposure, system: System, looks: Looks): string {
  const { bay, plan } = tracks;
  const length = (value: number): string => show(value, KINDS.length, system, { digits: 4 });
  const head = `${plan.work.name}, bay ${bay.number}: chainage ${length(bay.s[0])} to ${length(bay.s[1])}, ${show(bay.area, KINDS.area, system)}`;
  const time = (seconds: number): string => show(seconds, KINDS.time, system);
  const place = (at: { readonly s: number; readonly t: number }): string => placeText(at, system);
  const lines: string[] = [];
  const say = (what: string, text: string): void => {
    const [first = '', ...more] = wrap(text, Math.max(24, looks.columns - 16));
    lines.push(`  ${pad(what, 12)}  ${first}`, ...more.map(line => `${' '.repeat(16)}${line}`));
  };
  const { soak, wetGap, residence, contacts, rinsesAtCentreline, gaps } = exposure;
  if (soak) {
    say(
      'soak',
      `${time(soak.least.seconds)} at ${place(soak.least)}, to ${time(soak.greatest.seconds)} at ${place(soak.greatest)}`,
    );
  }
  if (wetGap) say('wet gap', `at most ${time(wetGap.greatest.seconds)}, at ${place(wetGap.greatest)}`);
  if (residence) say('residence', `at most ${time(residence.greatest.seconds)}, at ${place(residence.greatest)}`);
  if (contacts.most.count > 0) {
    say(
      'contacts',
      `${contacts.least.count} at ${place(contacts.least)}, to ${contacts.most.count} at ${place(contacts.most)}`,
    );
  }
  if (rinsesAtCentreline && rinsesAtCentreline.most.count > 0) {
    say('rinses', `${rinsesAtCentreline.least.count} passes over the centreline`);
  }
  for (const gap of gaps) say(gap.kind, show(gap.area, KINDS.area, system));
  return [looks.paint('strong', head), stepTable(tracks, looks), ...lines].join('\n');
}

/** One step a line; numbers stand under each other. */
function stepTable({ activities }: BayTracks, looks: Looks): string {
  const rows = [
    ['', 'start', 'end', 'passes', 'turns', 'trips', 'machines'],
    ...activities.map(each => [
      each.id.split('/').slice(2).join('/'),
      formatNumber(Math.round(each.start), 9),
      formatNumber(Math.round(each.end), 9),
      ...counts(each),
      each.machines.map(machine => machine.name).join(', '),
    ]),
  ];
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map(row => width(row[i]!))));
  return rows
    .map((row, r) => {
      const cells = row.map((cell, i) => pad(cell, widths[i]!, i === 0 || i === 6 ? 'left' : 'right'));
      const line = `  ${cells.join('  ')}`.trimEnd();
      return r === 0 ? looks.paint('quiet', line) : line;
    })
    .join('\n');
}

function counts({ machines }: Activity): readonly string[] {
  if (machines.length === 0) return ['', '', ''];
  const sum = (value: (run: (typeof machines)[number]['run']) => number): string =>
    String(machines.reduce((total, { run }) => total + value(run), 0));
  return [
    sum(run => run.passes.length),
    sum(run => run.turns.length),
    sum(run => run.trips.filter(trip => trip.why !== 'return').length),
  ];
}
