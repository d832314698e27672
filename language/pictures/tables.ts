/** The tables behind the figures: every number that a figure shows, in words and figures, for reading aloud and copying. */
import type { PictureData } from './data.ts';
import type { SheetView } from './layout.ts';
import { inUnit, lengthUnit, offsetText } from './lengths.ts';
import { clockText, duration, limitOf, minutes } from './minutes.ts';
import { profileBay } from './profile.tsx';
import { nameOfBay, stateText } from './things.ts';
import type { Translate } from './words.ts';

/** The tables that there may be, in their order. */
export const tableKeys = ['plan', 'soak', 'profile', 'passes', 'nights', 'recall'] as const;
export type TableKey = (typeof tableKeys)[number];

export interface Table {
  readonly key: TableKey;
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly cells: readonly string[]; readonly thing?: string }[];
}

/** A table of a picture; undefined where it has no rows. */
export function tableOf(key: TableKey, data: PictureData, view: SheetView, t: Translate): Table | undefined {
  const table = tables[key](data, view, t);
  return table.rows.length > 0 ? table : undefined;
}

const tables: Readonly<Record<TableKey, (data: PictureData, view: SheetView, t: Translate) => Table>> = {
  plan: (data, _, t) => planTable(data, t),
  soak: (data, _, t) => soakTable(data, t),
  profile: profileTable,
  passes: passTable,
  nights: (data, _, t) => nightTable(data, t),
  recall: (data, _, t) => recallTable(data, t),
};

/** As tab-separated text, for a spreadsheet. A cell holds no tab and no line break. */
export function tableText({ columns, rows }: Table): string {
  const line = (cells: readonly string[]): string => cells.map(cell => cell.replace(/[\t\r\n]+/g, ' ')).join('\t');
  return [line(columns), ...rows.map(row => line(row.cells))].join('\n');
}

function planTable({ deposits, runways, system }: PictureData, t: Translate): Table {
  const unit = lengthUnit({ system });
  const number = (metres: number): string => inUnit(metres, unit, 2);
  return {
    key: 'plan',
    title: t('Deposits'),
    columns: [
      t('Deposit'),
      t('Runway, end'),
      t('Build-up'),
      t('Chainage, {0}', unit.name),
      t('Left, {0}', unit.name),
      t('Right, {0}', unit.name),
    ],
    rows: deposits.flatMap((deposit, i) =>
      deposit.stations.map(({ s, left, right }) => ({
        thing: `deposit/${i}`,
        cells: [
          deposit.name,
          `${runways[deposit.runway]!.name} ${runways[deposit.runway]!.rulers[deposit.ruler]!.end}`,
          deposit.buildUp ?? '',
          number(s),
          number(-left),
          number(right),
        ],
      })),
    ),
  };
}

function soakTable(data: PictureData, t: Translate): Table {
  const unit = lengthUnit(data);
  const spot = (at: { seconds: number; s: number; t: number } | undefined, text: string): string =>
    at ? t('{0} at {1}, {2}', text, `${inUnit(at.s, unit, 2)} ${unit.name}`, offsetText(at.t, unit)) : '';
  return {
    key: 'soak',
    title: t('How long the product stands'),
    columns: [
      t('Bay'),
      t('Night'),
      t('Least soak, min'),
      t('Limit'),
      t('Greatest soak, min'),
      t('Greatest wet gap, min'),
      t('Greatest residence, min'),
      t('Limit'),
      t('Contacts'),
      t('Verdict'),
    ],
    rows: data.bays.map((bay, i) => ({
      thing: `bay/${i}`,
      cells: [
        nameOfBay(data, bay),
        bay.night === undefined ? '' : (data.nights[bay.night]?.short ?? ''),
        bay.soak ? spot(bay.soak.least, minutes(bay.soak.least.seconds, limitOf(bay, 'soak'))) : '',
        bay.limits.soak === undefined ? '' : minutes(bay.limits.soak),
        bay.soak ? spot(bay.soak.greatest, minutes(bay.soak.greatest.seconds)) : '',
        bay.wetGap ? spot(bay.wetGap.greatest, minutes(bay.wetGap.greatest.seconds)) : '',
        bay.residence
          ? spot(bay.residence.greatest, minutes(bay.residence.greatest.seconds, limitOf(bay, 'residence')))
          : '',
        bay.limits.residence === undefined ? '' : minutes(bay.limits.residence),
        bay.contacts[0] === bay.contacts[1] ? String(bay.contacts[0]) : `${bay.contacts[0]}–${bay.contacts[1]}`,
        stateText(bay, t),
      ],
    })),
  };
}

function profileTable(data: PictureData, view: SheetView, t: Translate): Table {
  const bay = profileBay(data, view);
  const unit = lengthUnit(data);
  const dir = bay ? data.runways[view.runway]!.rulers[data.works[bay.work]!.ruler]!.dir : 1;
  const range = ([a, b]: readonly [number, number]): string => (a === b ? String(a) : `${a}–${b}`);
  const rows = (bay?.profile ?? []).map(({ y, contacts, jets, rinses }) => {
    const [a, b] = dir === 1 ? y : [-y[1], -y[0]];
    return {
      cells: [t('{0} to {1}', offsetText(a, unit), offsetText(b, unit)), range(contacts), range(jets), range(rinses)],
    };
  });
  return {
    key: 'profile',
    title: bay ? t('Across {0}', nameOfBay(data, bay)) : t('Across'),
    columns: [t('Offset, {0}', unit.name), t('Contacts'), t('Jet passes'), t('Rinses')],
    rows: dir === 1 ? rows : rows.toReversed(),
  };
}

function passTable(data: PictureData, view: SheetView, t: Translate): Table {
  const night = data.nights[view.night];
  return {
    key: 'passes',
    title: night ? t('What is done, {0}', night.label) : t('What is done'),
    columns: [
      t('From'),
      t('To'),
      t('Lasts'),
      t('Step'),
      t('Bay'),
      t('Machines'),
      t('Passes'),
      t('Waits for'),
      t('May be late by'),
    ],
    rows: data.activities.flatMap((activity, i) =>
      activity.night !== view.night || !night
        ? []
        : [
            {
              thing: `activity/${i}`,
              cells: [
                clockText(night, activity.start),
                clockText(night, activity.end),
                duration(activity.end - activity.start),
                activity.step,
                `${data.works[activity.work]!.name} ${activity.bay}`,
                activity.runs.map(run => data.machines[run.machine]!.name).join(', ') || t('on foot'),
                activity.runs.length > 0 ? String(activity.runs[0]!.passes.length) : '',
                activity.waits,
                activity.slack === undefined ? '' : duration(activity.slack),
              ],
            },
          ],
    ),
  };
}

function nightTable(data: PictureData, t: Translate): Table {
  return {
    key: 'nights',
    title: t('Closures'),
    columns: [
      t('Closure'),
      t('Opens'),
      t('Machines from'),
      t('Runway back'),
      t('Due'),
      t('Ends'),
      t('Spare'),
      t('Bays'),
    ],
    rows: data.nights.map((night, i) => ({
      ...(night.place && { thing: `night/${i}` }),
      cells: [
        night.label,
        clockText(night, night.start),
        clockText(night, night.from),
        clockText(night, night.clear),
        night.handBack === undefined ? '' : clockText(night, night.handBack),
        clockText(night, night.end),
        night.handBack === undefined ? '' : duration(night.handBack - night.clear),
        night.bays.map(id => id.replace('/', ' ')).join(', '),
      ],
    })),
  };
}

function recallTable(data: PictureData, t: Translate): Table {
  return {
    key: 'recall',
    title: t('If the runway is called back'),
    columns: [t('Night'), t('At'), t('Minutes to clear'), t('Limit')],
    rows: data.nights.flatMap(night =>
      (night.recall?.curve ?? []).map(([at, seconds]) => ({
        cells: [
          night.short,
          clockText(night, at),
          minutes(seconds),
          night.recall!.limit === undefined ? '' : minutes(night.recall!.limit),
        ],
      })),
    ),
  };
}
