/**
 * What can be changed by dragging, and why not where it can't. A handle moves one number that stands as a literal on the
 * job's own line; the value follows the place linearly, and the change is one edit of the text.
 */
import type { WorkTracks } from '../exposure/fromTracks.ts';
import type { WorkGround } from '../exposure/ground.ts';
import type { Closure, Deposit, Job } from '../job/job.ts';
import { parseUnit, toSi } from '../units/index.ts';
import type { Given, Origin, Place } from '../vocabulary/given.ts';
import type { Frame } from './frame.ts';
import { type Said, said } from './words.ts';

export interface Handle {
  readonly id: string;
  /** Spoken: 'Touchdown04, start of the deposit'. */
  readonly name: Said;
  readonly moves:
    | 'deposit end'
    | 'deposit side'
    | 'bay boundary'
    | 'work end'
    | 'closure opens'
    | 'closure ends'
    | 'hand-back';
  /** Where it stands: metres of the pavement along and across, or the edge of each night of a closure. */
  readonly at:
    | { readonly axis: 'x' | 'y'; readonly runway: number; readonly x: number; readonly y: number }
    | { readonly axis: 'time'; readonly closure: string };
  /** The value that the text has, m or s (for clock times s after midnight). */
  readonly value: number;
  /** Change of the value for a metre (a second) further along the axis. */
  readonly factor: number;
  readonly least: number;
  readonly most: number;
  /** Steps of the value: plain, and with Alt. */
  readonly step: number;
  readonly fine: number;
  readonly place: Place;
  /** SI units in one unit of the text; digits after the point; what follows the number. */
  readonly write: {
    readonly as: 'number' | 'clock';
    readonly perUnit: number;
    readonly digits: number;
    readonly unit: string;
  };
}

/** A place where one would drag, and why it does not go. */
export interface Refusal {
  readonly id: string;
  readonly name: Said;
  readonly why: Said;
  readonly at: Handle['at'];
  readonly moves: Handle['moves'];
  readonly place?: Place;
}

export interface HandleSetting {
  readonly frameOf: (runway: string, end: string) => Frame | undefined;
  readonly works: readonly WorkTracks[];
  /** Closures of the nights in use. */
  readonly nights: readonly Closure[];
}

export function handlesOf(
  job: Job,
  setting: HandleSetting,
): { handles: readonly Handle[]; refusals: readonly Refusal[] } {
  const all: (Handle | Refusal)[] = [
    ...job.blocks.deposits.flatMap(each => ofDeposit(job, each, setting)),
    ...setting.works.flatMap(each => ofWork(job, each, setting)),
    ...[...new Set(setting.nights)].flatMap(each => ofClosure(job, each)),
  ];
  return {
    handles: all.filter((each): each is Handle => 'value' in each),
    refusals: all.filter((each): each is Refusal => 'why' in each),
  };
}

/** A value of a handle as the text gets it. */
export function writtenValue({ write }: Pick<Handle, 'write'>, value: number): string {
  if (write.as === 'clock') {
    const minutes = Math.round((((value % 86_400) + 86_400) % 86_400) / 60) % 1440;
    return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  }
  const number = (value / write.perUnit).toFixed(write.digits);
  return (number.includes('.') ? number.replace(/\.?0+$/, '') : number) + write.unit;
}

/** The value nearest to a wish that a handle can take: on its steps, within its limits. */
export function steppedValue(handle: Handle, wish: number, fine = false): number {
  const step = fine ? handle.fine : handle.step;
  const stepped = Math.round(wish / step) * step;
  return Math.min(handle.most, Math.max(handle.least, stepped));
}

// ── deposits ─────────────────────────────────────────────────────────────────────────────────────────────────────

function ofDeposit(job: Job, deposit: Deposit, { frameOf }: HandleSetting): readonly (Handle | Refusal)[] {
  const on = deposit.on?.value;
  const frame = on && frameOf(on.runway.id, on.end);
  const given = deposit.stations;
  if (!frame || !given || given.value.length < 2) return [];
  const rows = given.value;
  const refused = whyNot(job, given, deposit);
  const units = unitsOf(given.text);
  return rows.flatMap((row, i) => {
    const first = i === 0;
    const last = i === rows.length - 1;
    const cells = cellsOf(given, row.place);
    const parts: readonly ('chainage' | 'left' | 'right')[] =
      first || last ? ['chainage', 'left', 'right'] : ['left', 'right'];
    return parts.map((part): Handle | Refusal => {
      const side = part === 'chainage' ? 0 : part === 'left' ? -row.left : row.right;
      const id = `${deposit.id}/${i}/${part}`;
      const name =
        part === 'chainage'
          ? first
            ? said('{0}, start of the deposit', deposit.name)
            : said('{0}, end of the deposit', deposit.name)
          : part === 'left'
            ? said('{0}, left edge at {1} m', deposit.name, Math.round(row.chainage * 10) / 10)
            : said('{0}, right edge at {1} m', deposit.name, Math.round(row.chainage * 10) / 10);
      const at = {
        axis: part === 'chainage' ? 'x' : 'y',
        runway: frame.runway,
        x: frame.x(row.chainage),
        y: frame.y(side),
      } as const;
      const moves = part === 'chainage' ? 'deposit end' : 'deposit side';
      const column = units.findIndex(each => each.name === part);
      const cell = cells?.[column];
      const unit = units[column];
      if (refused) return { id, name, at, moves, why: refused, place: given.place };
      if (!cell || !unit || cells.length !== units.length) {
        return {
          id,
          name,
          at,
          moves,
          why: said('The number is not written as a plain number in the row of {0}.', deposit.name),
          place: row.place,
        };
      }
      const [before, after] = [rows[i - 1]?.chainage, rows[i + 1]?.chainage];
      return {
        id,
        name,
        moves,
        at,
        value: row[part],
        factor: part === 'chainage' ? frame.dir : part === 'left' ? -frame.dir : frame.dir,
        least: part !== 'chainage' ? 0 : before === undefined ? -1500 : before + 1,
        most: part !== 'chainage' ? 50 : after === undefined ? 6000 : after - 1,
        ...stepsOf(part === 'chainage' ? 'chainage' : 'offset', unit.si),
        place: cell,
        write: { as: 'number', perUnit: unit.si, digits: part === 'chainage' ? digitsOf(unit.si) : 2, unit: '' },
      };
    });
  });
}

/** Columns of a table's heading with the SI value of their units. */
function unitsOf(text: string): readonly { readonly name: string; readonly si: number }[] {
  const heading = text.split('\n')[0]!.replace(/^\s*table\s+/, '');
  return heading.split(',').map(column => {
    const [name = '', word] = column.trim().split(/\s+/);
    const unit = word === undefined ? undefined : parseUnit(word);
    return { name, si: unit ? toSi('1', unit) : 1 };
  });
}

/** Places of the cells of a row that holds plain numbers only; undefined where anything else stands in it. */
function cellsOf(given: Given<unknown>, row: Place): readonly Place[] | undefined {
  const offset = row.start - given.place.start;
  const text = given.text.slice(offset, offset + row.end - row.start);
  if (!/^\s*-?\d+(\.\d+)?(\s+-?\d+(\.\d+)?)*\s*$/.test(text)) return undefined;
  return [...text.matchAll(/-?\d+(\.\d+)?/g)].map(({ 0: cell, index }) => ({
    file: row.file,
    start: row.start + index,
    end: row.start + index + cell.length,
  }));
}

// ── works ────────────────────────────────────────────────────────────────────────────────────────────────────────

function ofWork(job: Job, tracks: WorkTracks, { frameOf }: HandleSetting): readonly (Handle | Refusal)[] {
  const { ground } = tracks;
  const frame = ground && frameOf(ground.frame.runway.id, ground.frame.end);
  if (!ground || !frame) return [];
  return [...stretchOf(job, tracks, ground, frame), ...boundariesOf(job, tracks, ground, frame)];
}

/** Where the work begins and ends, where the text says so; without that the ends are those of its deposits. */
function stretchOf(
  job: Job,
  { plan: { work } }: WorkTracks,
  { extent }: WorkGround,
  frame: Frame,
): readonly (Handle | Refusal)[] {
  return (['from', 'to'] as const).flatMap((part): readonly (Handle | Refusal)[] => {
    const given = work[part];
    if (!given) return [];
    const name =
      part === 'from' ? said('{0}, where the work begins', work.name) : said('{0}, where the work ends', work.name);
    const common = {
      id: `${work.id}/${part}`,
      name,
      moves: 'work end',
      at: { axis: 'x', runway: frame.runway, x: frame.x(given.value), y: 0 },
      place: given.place,
    } as const;
    const parts = numberOf(given);
    const why = whyNot(job, given, work);
    if (why || !parts) {
      return [{ ...common, why: why ?? said('The place is not written as a plain number.') }];
    }
    // The work keeps a metre at least.
    const other = part === 'from' ? (work.to?.value ?? extent.s[1]) : (work.from?.value ?? extent.s[0]);
    return [
      {
        ...common,
        value: given.value,
        factor: frame.dir,
        least: part === 'from' ? -1500 : other + 1,
        most: part === 'from' ? other - 1 : 6000,
        ...stepsOf('chainage', parts.perUnit),
        write: { as: 'number', digits: digitsOf(parts.perUnit), ...parts },
      },
    ];
  });
}

function boundariesOf(
  job: Job,
  { plan: { work }, bays }: WorkTracks,
  ground: WorkGround,
  frame: Frame,
): readonly (Handle | Refusal)[] {
  if (bays.length < 2) return [];
  const given = work.bays;
  const backwards = bays[0]!.bay.s[0] > bays.at(-1)!.bay.s[0];
  const origin = backwards ? ground.extent.s[1] : ground.extent.s[0];
  const refused = given ? whyNot(job, given, work) : said('The number of bays is a default; write `bays:` to set it.');
  return bays.slice(0, -1).map(({ bay }, k): Handle | Refusal => {
    const s = backwards ? bay.s[0] : bay.s[1];
    const at = { axis: 'x', runway: frame.runway, x: frame.x(s), y: 0 } as const;
    const id = `${work.id}/bays/${k + 1}`;
    const name = said('{0}, boundary of bays {1} and {2}', work.name, bay.number, bay.number + 1);
    const moves = 'bay boundary';
    const place = given?.place;
    if (refused || given?.value.by !== 'length') {
      const count = given?.value.by === 'count' ? given.value.count : bays.length;
      const each = Math.round((Math.abs(ground.extent.s[1] - ground.extent.s[0]) / count) * 10) / 10;
      const why =
        refused ??
        said(
          '{0} is divided into {1} equal bays, so a boundary by itself has no number. Write `bays: {2} m` to set their length.',
          work.name,
          count,
          each,
        );
      return { id, name, at, moves, why, ...(place && { place }) };
    }
    const parts = numberOf(given);
    if (!parts)
      return {
        id,
        name,
        at,
        moves,
        why: said('The length of the bays is not written as a plain number.'),
        place: given.place,
      };
    const value = given.value.length;
    // The k-th boundary lies k lengths from where the work begins.
    const steps = Math.max(1, Math.round(Math.abs(s - origin) / value));
    return {
      id,
      name,
      moves,
      at,
      value,
      factor: ((backwards ? -1 : 1) * frame.dir) / steps,
      least: 20,
      most: Math.max(25, Math.ceil((ground.extent.s[1] - ground.extent.s[0]) / 5) * 5),
      ...stepsOf('chainage', parts.perUnit),
      place: given.place,
      write: { as: 'number', digits: digitsOf(parts.perUnit), ...parts },
    };
  });
}

// ── closures ─────────────────────────────────────────────────────────────────────────────────────────────────────

function ofClosure(job: Job, closure: Closure): readonly (Handle | Refusal)[] {
  const at = { axis: 'time', closure: closure.name } as const;
  const found: (Handle | Refusal)[] = [];
  const { hours, handBack } = closure;
  if (hours) {
    const refused = whyNot(job, hours, closure);
    const clocks = [...hours.text.matchAll(/\b\d{1,2}:\d{2}\b/g)];
    (['closure opens', 'closure ends'] as const).forEach((moves, i) => {
      const id = `${closure.id}/hours/${i}`;
      const name =
        i === 0 ? said('{0}, opening of the closure', closure.name) : said('{0}, end of the closure', closure.name);
      const clock = clocks[i];
      if (refused || !clock) {
        const why = refused ?? said('The hours are not written as two clock times.');
        found.push({ id, name, at, moves, why, place: hours.place });
        return;
      }
      const start = hours.place.start + clock.index;
      const value = 60 * (i === 0 ? hours.value.from : hours.value.to);
      found.push({
        id,
        name,
        moves,
        at,
        value,
        factor: 1,
        // Half a day either way: a clock time goes round.
        least: value - 6 * 3600,
        most: value + 6 * 3600,
        step: 300,
        fine: 60,
        place: { file: hours.place.file, start, end: start + clock[0].length },
        write: { as: 'clock', perUnit: 1, digits: 0, unit: '' },
      });
    });
  }
  if (handBack) {
    const id = `${closure.id}/hand-back`;
    const name = said('{0}, reserve before the end', closure.name);
    const refused = whyNot(job, handBack, closure);
    const parts = numberOf(handBack);
    if (refused || !parts) {
      const why = refused ?? said('The reserve is not written as a plain number.');
      found.push({ id, name, at, moves: 'hand-back', why, place: handBack.place });
    } else {
      found.push({
        id,
        name,
        moves: 'hand-back',
        at,
        value: handBack.value,
        factor: -1,
        least: 0,
        most: 6 * 3600,
        step: 300,
        fine: 60,
        place: handBack.place,
        write: { as: 'number', digits: parts.perUnit >= 3600 ? 2 : 0, ...parts },
      });
    }
  }
  return found;
}

// ── where values come from ───────────────────────────────────────────────────────────────────────────────────────

/** Why a value can't be dragged, in a sentence; undefined where it can. */
function whyNot(
  job: Job,
  { literal, origin, place }: Given<unknown>,
  block: { readonly name: string; readonly fromLibrary: boolean },
): Said | undefined {
  if (block.fromLibrary || place.file !== job.file) {
    return said('{0} stands in {1}, which other jobs share. Change it there.', block.name, fileName(place.file));
  }
  if (origin.by !== 'own line') return fromElsewhere(origin);
  return literal
    ? undefined
    : said('The value of {0} is computed on its line; only a plain number can be dragged.', block.name);
}

function fromElsewhere(origin: Exclude<Origin, { by: 'own line' }>): Said {
  switch (origin.by) {
    case 'default':
      return said('The value is a default; write it on a line of its own to drag it.');
    case 'inherited':
      return said('The value comes from {0}; change it there, or write it here.', origin.from);
    case 'library':
      return said('The value stands in {0}, which other jobs share. Change it there.', fileName(origin.file));
    case 'argument':
      return said('The value is the argument {0}; change it where the method is called.', origin.parameter);
    case 'parameter default':
      return said(
        'The value is the default of the parameter {0}; give it where the method is called.',
        origin.parameter,
      );
  }
}

function fileName(address: string): string {
  return decodeURIComponent(address.split('/').at(-1) ?? address);
}

const foot = 0.3048;

/** Steps that are round where the text counts: 5 m and 1 m along, 10 ft and 1 ft in a text that counts in feet. */
function stepsOf(along: 'chainage' | 'offset', perUnit: number): { readonly step: number; readonly fine: number } {
  const inFeet = Math.abs((perUnit / foot) % 1) < 1e-9;
  if (inFeet) return along === 'chainage' ? { step: 10 * foot, fine: foot } : { step: foot, fine: foot / 2 };
  return along === 'chainage' ? { step: 5, fine: 1 } : { step: 0.5, fine: 0.1 };
}

/** Digits after the point that a metre or a foot takes in a unit: one in metres, three in kilometres. */
function digitsOf(perUnit: number): number {
  return Math.max(1, Math.ceil(Math.log10(perUnit) - 1e-9));
}

/** Unit of a literal like `150 m`: SI value of one, and the text after the number. */
function numberOf({ text }: Given<unknown>): { perUnit: number; unit: string } | undefined {
  const [, space, word] = /^-?\d+(?:\.\d+)?(?:(\s*)(\S.*))?$/.exec(text.trim()) ?? [];
  const unit = word === undefined ? undefined : parseUnit(word);
  return unit && { perUnit: toSi('1', unit), unit: `${space}${word}` };
}
