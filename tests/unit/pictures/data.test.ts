/** The data of the pictures: the results of the stages in one frame, and numbers of the text that can be dragged. */
import { describe, expect, test } from 'vitest';
import { exposureResults } from '../../../language/exposure/contract.ts';
import { machineCodes, workCodes } from '../../../language/pictures/codes.ts';
import { type PictureData, pictureData } from '../../../language/pictures/data.ts';
import { designationLoops } from '../../../language/pictures/glyphs.ts';
import { type Handle, steppedValue, writtenValue } from '../../../language/pictures/handles.ts';
import { firstView, layoutOf, legibleAlong, spanOf } from '../../../language/pictures/layout.ts';
import { markingsOf, thresholdStripes } from '../../../language/pictures/markings.ts';
import { clockText, clockTicks, duration, minuteRange, minutes } from '../../../language/pictures/minutes.ts';
import { machinesAt, momentText, wetAt } from '../../../language/pictures/moment.ts';
import { clocksAt } from '../../../language/pictures/reading.ts';
import { classBounds, piecesOf } from '../../../language/pictures/soakMap.tsx';
import { tableKeys, tableOf, tableText } from '../../../language/pictures/tables.ts';
import { placeOfThing, thingsAt } from '../../../language/pictures/things.ts';
import { english, tell } from '../../../language/pictures/words.ts';
import { exampleTexts, pictured } from '../../support/pictures.ts';

const tender = await pictured('tern-sands/tender-2031.broom');
const data = pictureData(tender, { lineOf: () => 7 });
const texts = exampleTexts();
const file = Object.keys(texts).find(name => name.endsWith('tender-2031.broom'))!;

describe('one frame', () => {
  test('the numbers are those of the contract, places turned into the frame of the pavement', () => {
    const results = exposureResults(tender.exposures);
    expect(data.bays).toHaveLength(results.length);
    for (const [i, result] of results.entries()) {
      const bay = data.bays[i]!;
      const { rulers } = data.runways[0]!;
      const ruler = rulers[data.works[bay.work]!.ruler]!;
      expect(bay.soak!.least.seconds).toBeCloseTo(result.soak!.least.seconds, 5);
      expect(bay.residence!.greatest.seconds).toBeCloseTo(result.residence!.greatest.seconds, 5);
      expect(bay.contacts).toEqual([result.contacts.least.count, result.contacts.most.count]);
      expect(ruler.dir * (bay.soak!.least.x - ruler.zero)).toBeCloseTo(result.soak!.least.s, 5);
      expect(ruler.dir * bay.soak!.least.y).toBeCloseTo(result.soak!.least.t, 5);
      expect(bay.x[1] - bay.x[0]).toBeCloseTo(result.area.s[1] - result.area.s[0], 6);
    }
  });

  test('both ends lie on one pavement: 2450 m long, the first threshold 120 m inside', () => {
    const [runway] = data.runways;
    expect(runway).toMatchObject({ length: 2450, width: 45 });
    expect(runway!.rulers.map(({ end, zero, dir }) => ({ end, zero, dir }))).toEqual([
      { end: '04', zero: 120, dir: 1 },
      { end: '22', zero: 2450, dir: -1 },
    ]);
    // Touchdown22 begins 180 m from threshold 22, seen from the other end.
    const xs = data.deposits.find(each => each.name === 'Touchdown22')!.outline.map(([x]) => x);
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([2450 - 660, 2450 - 180]);
  });

  test('the strips of standing product agree with the exposure', () => {
    for (const bay of data.bays) {
      const soaks = bay.wet.flatMap(({ full, tool }) => (full && tool ? [tool[0] - full[0], tool[1] - full[1]] : []));
      expect(Math.min(...soaks)).toBeCloseTo(bay.soak!.least.seconds, 6);
      const stays = bay.wet.flatMap(({ first, rinsed }) =>
        rinsed ? [rinsed[0] - first[0], rinsed[1] - first[1]] : [],
      );
      expect(Math.max(...stays)).toBeCloseTo(bay.residence!.greatest.seconds, 6);
    }
  });

  test('rounding never brings a clock to the other side of its limit', async () => {
    const worst = data.bays.toSorted((a, b) => b.residence!.greatest.seconds - a.residence!.greatest.seconds)[0]!;
    const exact = worst.residence!.greatest.seconds;
    const rounded = Math.round(exact * 1000) / 1000;
    expect(rounded).not.toBe(exact);
    // A limit between the value and what it is rounded to.
    const limit = (exact + rounded) / 2;
    const library = Object.keys(texts).find(name => name.endsWith('broom-and-rinse.broom'))!;
    const limited = texts[library]!.replace(/at-most:(\s+)3\.5 h/, `at-most:$1${limit} s`);
    expect(limited).not.toBe(texts[library]);
    const held = pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [library]: limited }));
    const bay = held.bays.find(each => each.id === worst.id)!;
    expect(bay.residence!.greatest.seconds).toBe(exact);
    expect(bay.limits.residence).toBeCloseTo(limit, 9);
    expect(bay.state).toBe(exact > limit ? 'over' : 'kept');
    const fills = piecesOf(bay, 'residence', []).map(each => each.fill);
    expect(fills.includes('over')).toBe(exact > limit);
  });

  test('what is read under a point is what the cell there has', () => {
    const bay = data.bays.find(each => each.cells.length > 10)!;
    const cell = bay.cells[5]!;
    const said = clocksAt(data, firstView(data), (cell.x[0] + cell.x[1]) / 2, (cell.y[0] + cell.y[1]) / 2, english);
    expect(said.join(' ')).toContain(`soak ${minutes((cell.soak![0] + cell.soak![1]) / 2)} min`);
  });

  test('it travels as JSON and stays small enough for every keystroke', () => {
    const json = JSON.stringify(data);
    expect(JSON.parse(json)).toEqual(data);
    expect(json.length).toBeLessThan(500_000);
  });
});

describe('places', () => {
  test('the cursor in a block finds what is drawn of it, and what is drawn leads back', () => {
    const at = texts[file]!.indexOf('deposit Runout04') + 30;
    const things = thingsAt(data, data.file, at);
    expect(things).toEqual([`deposit/${data.deposits.findIndex(each => each.name === 'Runout04')}`]);
    const place = placeOfThing(data, things[0]!)!;
    expect(texts[file]!.slice(place.start, place.start + 16)).toBe('deposit Runout04');
  });

  test('everything drawn has its place in the text', () => {
    const all = [
      ...data.deposits.map((_, i) => `deposit/${i}`),
      ...data.bays.map((_, i) => `bay/${i}`),
      ...data.machines.map((_, i) => `machine/${i}`),
      ...data.activities.map((_, i) => `activity/${i}`),
      ...data.nights.map((_, i) => `night/${i}`),
      ...data.findings.map((_, i) => `finding/${i}`),
    ];
    expect(all.length).toBeGreaterThan(80);
    expect(all.filter(thing => placeOfThing(data, thing) === undefined)).toEqual([]);
  });
});

describe('handles', () => {
  const handle = (name: RegExp): Handle => data.handles.find(each => name.test(tell(english, each.name)))!;
  const changed = async (one: Handle, value: number) => {
    const { start, end } = one.place;
    const text = texts[file]!;
    return pictureData(
      await pictured('tern-sands/tender-2031.broom', {
        ...texts,
        [file]: text.slice(0, start) + writtenValue(one, value) + text.slice(end),
      }),
    );
  };

  test('each stands on the very number in the text', () => {
    expect(data.handles.length).toBeGreaterThan(20);
    for (const one of data.handles) {
      expect(texts[file]!.slice(one.place.start, one.place.end)).toBe(writtenValue(one, one.value));
    }
  });

  test.each([
    [/^Touchdown04, start/, 120],
    [/^Touchdown22, start/, 200],
    [/^Touchdown04, left edge at 300/, 12],
    [/boundary of bays 1 and 2/, 130],
    [/opening of the closure/, 22.5 * 3600],
    [/end of the closure/, 5.5 * 3600],
    [/reserve before the end/, 1800],
  ])('what %s writes is what the job then has', async (name, value) => {
    const one = handle(name);
    const after = (await changed(one, value)).handles.find(each => each.id === one.id)!;
    expect(after.value).toBeCloseTo(value, 6);
  });

  test('it moves as far as its value says: a boundary after k bays by k lengths', async () => {
    const one = handle(/South, boundary of bays 3 and 4/);
    const after = (await changed(one, one.value + 10)).handles.find(each => each.id === one.id)!;
    if (one.at.axis === 'time' || after.at.axis === 'time') throw new Error('not a place');
    expect(after.at.x - one.at.x).toBeCloseTo(10 / one.factor, 6);
    expect(one.factor).toBeCloseTo(1 / 3, 9);
  });

  test('steps of 5 m, of 1 m with Alt, within its limits', () => {
    const one = handle(/^Touchdown04, start/);
    expect(steppedValue(one, 163.2)).toBe(165);
    expect(steppedValue(one, 163.2, true)).toBe(163);
    // It can't pass the next station, at 300 m.
    expect(steppedValue(one, 420)).toBe(299);
  });

  test('where it does not go it says why', () => {
    expect(data.refusals.map(each => tell(english, each.why))).toEqual(
      Array(2).fill(expect.stringMatching(/3 equal bays.*bays: 160 m/)),
    );
  });

  describe('where a work begins and ends', () => {
    const source = texts[file]!;
    const withEnds = (lines: string): string =>
      source.replace(/( +)bays: +150 m\n/, (whole, space: string) => `${whole}${lines.replaceAll(/^/gm, space)}\n`);
    const drawn = async (text: string): Promise<PictureData> =>
      pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [file]: text }));
    const named = (all: PictureData['handles'] | PictureData['refusals'], name: RegExp) =>
      all.find(each => name.test(tell(english, each.name)));
    const spec = withEnds('from: 200 m\nto:   0.6 km');

    test('has no handle where the text does not say it', () => {
      expect(named([...data.handles], /where the work/)).toBeUndefined();
      expect(named([...data.refusals], /where the work/)).toBeUndefined();
    });

    test.each([
      [/South, where the work begins/, '200 m', 250, '250 m'],
      [/South, where the work ends/, '0.6 km', 550, '0.6 km'],
    ])('%s stands on its number, and what it writes is what the job then has', async (name, text, value) => {
      const one = named((await drawn(spec)).handles, name) as Handle;
      expect(spec.slice(one.place.start, one.place.end)).toBe(text);
      expect(writtenValue(one, one.value)).toBe(text);
      const next = spec.slice(0, one.place.start) + writtenValue(one, value) + spec.slice(one.place.end);
      const after = await drawn(next);
      expect((named(after.handles, name) as Handle).value).toBeCloseTo(value, 6);
      // The ground ends where the handle stands.
      const { zero, dir } = after.runways[0]!.rulers[0]!;
      const ends = after.bays
        .filter(bay => after.works[bay.work]!.name === 'South')
        .flatMap(bay => bay.x.map(x => dir * (x - zero)));
      expect(/begins/.test(name.source) ? Math.min(...ends) : Math.max(...ends)).toBeCloseTo(value, 6);
    });

    test('in feet the steps are round feet', async () => {
      const one = named((await drawn(withEnds('from: 650 ft'))).handles, /begins/) as Handle;
      expect(writtenValue(one, steppedValue(one, one.value + 4))).toBe('660 ft');
      expect(writtenValue(one, steppedValue(one, one.value + 0.4, true))).toBe('651 ft');
    });

    test('neither passes the other; without the other, neither passes the ground', async () => {
      const both = await drawn(spec);
      const [from, to] = [/begins/, /ends/].map(name =>
        named(both.handles, new RegExp(`where the work ${name.source}`)),
      );
      expect(steppedValue(from as Handle, 900)).toBe(599);
      expect(steppedValue(to as Handle, 100)).toBe(201);
      const only = named((await drawn(withEnds('to: 600 m'))).handles, /where the work ends/) as Handle;
      expect(steppedValue(only, 0)).toBe(151);
    });

    test('a computed one is refused, and so is one that comes from another work', async () => {
      const computed = await drawn(withEnds('from: 150 m + 50 m'));
      expect(named(computed.handles, /where the work/)).toBeUndefined();
      expect(tell(english, (named(computed.refusals, /begins/) as PictureData['refusals'][number]).why)).toMatch(
        /computed/,
      );
      const like = spec.replace(/\nwork South \{([\s\S]*?)\n\}/, '\nwork Base {$1\n}\n\nwork South like Base {}');
      expect(like).not.toBe(spec);
      const inherited = await drawn(like);
      const refusal = named(inherited.refusals, /South, where the work begins/) as PictureData['refusals'][number];
      expect(tell(english, refusal.why)).toMatch(/comes from Base/);
    });
  });

  test('a value from a library or a computed one is refused', async () => {
    const text = texts[file]!.replace(/^(\s+)150(\s+8\s+8)$/m, '$1(150 m)$2');
    expect(text).not.toBe(texts[file]);
    const computed = pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [file]: text }));
    expect(computed.handles.find(each => /^Touchdown04, start/.test(tell(english, each.name)))).toBeUndefined();
    const shared = pictureData(await pictured('tern-sands/airport.broom'));
    expect(shared.handles).toEqual([]);
    const first = pictureData(await pictured('first-job.broom'));
    expect(first.refusals.some(each => /default|shared|share|computed|equal bays/.test(tell(english, each.why)))).toBe(
      true,
    );
  });
});

describe('moments', () => {
  test('machines are where their passes are', () => {
    const activity = data.activities.find(each => each.does === 'agitate')!;
    const run = activity.runs[0]!;
    const [x0, x1, y, , , start, end] = run.passes[3]!;
    const at = machinesAt(data, activity.night, (start + end) / 2).find(each => each.machine === run.machine)!;
    expect(at).toMatchObject({ state: 'working', does: 'contact', y });
    expect(at.x).toBeCloseTo((x0 + x1) / 2, 2);
  });

  test('no machine is in two places', () => {
    for (const night of data.nights.keys()) {
      const { start, end } = data.nights[night]!;
      for (let time = start; time < end; time += 420) {
        const machines = machinesAt(data, night, time).map(each => each.machine);
        expect(new Set(machines).size).toBe(machines.length);
      }
    }
  });

  test('nothing is wet before spraying nor after the last rinse; what is wet then is named', () => {
    const night = 0;
    const bay = data.bays.find(each => each.night === night)!;
    const first = Math.min(...bay.wet.flatMap(each => each.first));
    const { clear } = data.nights[night]!;
    expect(wetAt(data, night, first - 1).length).toBe(0);
    expect(wetAt(data, night, clear).length).toBe(0);
    expect(wetAt(data, night, first + 600).length).toBeGreaterThan(0);
    expect(momentText(data, night, first + 600, english)).toMatch(/wet for 10 min/);
  });
});

describe('the map', () => {
  test('pieces of all classes together are the cells', () => {
    const bounds = classBounds(data, 'soak');
    for (const bay of data.bays) {
      const area = (x: readonly [number, number], y: readonly [number, number]) => (x[1] - x[0]) * (y[1] - y[0]);
      const cells = bay.cells.reduce((sum, cell) => sum + (cell.soak ? area(cell.x, cell.y) : 0), 0);
      const pieces = piecesOf(bay, 'soak', bounds)
        .flatMap(each => each.rects)
        .reduce((sum, { x, y }) => sum + area(x, y), 0);
      expect(pieces).toBeCloseTo(cells, 4);
    }
  });

  test('a clock beyond its limit is never a tint', () => {
    const bay = data.bays[3]!;
    const tight = { ...bay, limits: { soak: bay.soak!.greatest.seconds + 1 } };
    expect(piecesOf(tight, 'soak', []).map(each => each.fill)).toEqual(['under']);
    const half = (bay.soak!.least.seconds + bay.soak!.greatest.seconds) / 2;
    expect(
      piecesOf({ ...bay, limits: { soak: half } }, 'soak', [])
        .map(each => each.fill)
        .sort(),
    ).toEqual([0, 'under']);
  });
});

describe('numbers', () => {
  test('rounding never contradicts a sign', () => {
    expect(minutes(2400.7, { least: 2400 })).toBe('40');
    expect(minutes(2399.7, { least: 2400 })).toBe('39.99');
    expect(minutes(5424, { most: 5400 })).toBe('90.4');
    expect(minutes(5400, { most: 5400 })).toBe('90');
    expect(minuteRange(2400, 2405)).toBe('40');
    expect(duration(25)).toBe('25 s');
    expect(duration(0)).toBe('0 s');
    expect(duration(6180)).toBe('1 h 43 min');
  });

  test('the clock goes through midnight, and through a change of the clocks', () => {
    const night = { start: 0, end: 21_600, clock: 23 * 3600 };
    expect(clockText(night, 5040)).toBe('00:24');
    const spring = { start: 0, end: 18_000, clock: 23 * 3600, change: { at: 7200, by: 3600 } };
    expect(clockText(spring, 7199)).toBe('00:59');
    expect(clockText(spring, 7200)).toBe('02:00');
    expect(clockTicks(spring, 3600).map(at => clockText(spring, at))).toEqual([
      '23:00',
      '00:00',
      '02:00',
      '03:00',
      '04:00',
      '05:00',
    ]);
    const autumn = { start: 0, end: 25_200, clock: 23 * 3600, change: { at: 10_800, by: -3600 } };
    expect(clockTicks(autumn, 3600).map(at => clockText(autumn, at))).toEqual([
      '23:00',
      '00:00',
      '01:00',
      '01:00',
      '02:00',
      '03:00',
      '04:00',
      '05:00',
    ]);
  });

  test('codes stand for one machine each', () => {
    expect(machineCodes(['Sprayer1', 'Broom1', 'Broom2', 'RinseBroom', 'Sweeper1'])).toEqual([
      'Sp1',
      'B1',
      'B2',
      'RB',
      'Sw1',
    ]);
    expect(workCodes(['North', 'South', 'Spur'])).toEqual(['N', 'So', 'Sp']);
    expect(workCodes(['Zone'])).toEqual(['']);
  });
});

describe('tables', () => {
  test('behind every figure, with rows for all that is drawn', () => {
    const tables = tableKeys.flatMap(key => tableOf(key, data, firstView(data), english) ?? []);
    expect(tables.map(each => each.key)).toEqual(['plan', 'soak', 'profile', 'passes', 'nights', 'recall']);
    expect(tables.find(each => each.key === 'soak')!.rows).toHaveLength(data.bays.length);
    for (const table of tables) {
      for (const row of table.rows) expect(row.cells).toHaveLength(table.columns.length);
    }
    const text = tableText(tables[1]!);
    expect(text.split('\n')).toHaveLength(data.bays.length + 1);
    expect(new Set(text.split('\n').map(line => line.split('\t').length)).size).toBe(1);
  });
});

describe('markings', () => {
  // [V1] AIM 2-3-3 table 2-3-2, [V2] CS-ADR-DSN L.535: stripes by width.
  test.each([
    [18, 4],
    [23, 6],
    [30, 8],
    [45, 12],
    [60, 16],
  ])('a runway of %i m has %i threshold stripes', (width, stripes) => {
    expect(thresholdStripes(width)).toBe(stripes);
    const marks = markingsOf({
      length: 3000,
      width,
      rulers: [
        { end: '04', zero: 0, dir: 1, displaced: 0 },
        { end: '22', zero: 3000, dir: -1, displaced: 0 },
      ],
    });
    const threshold = marks.filter(each => each.kind === 'threshold');
    expect(threshold).toHaveLength(2);
    expect(threshold[0]!.loops).toHaveLength(stripes);
    // They lie on the pavement, 30 m long from 6 m past the threshold [V2].
    const points = threshold[0]!.loops.flat();
    expect(Math.max(...points.map(([, y]) => Math.abs(y)))).toBeLessThanOrEqual(width / 2);
    expect([Math.min(...points.map(([x]) => x)), Math.max(...points.map(([x]) => x))]).toEqual([6, 36]);
  });

  // [V2] MOS 8.22(3), 8.24(3); EASA table L-1; handbook 7.7: LDA 3,000 m.
  test('a runway of 3,000 m has its aiming point at 400 m and pairs at 150, 300, 600, 750, 900 and 1050 m', () => {
    const marks = markingsOf({ length: 3000, width: 45, rulers: [{ end: '04', zero: 0, dir: 1, displaced: 0 }] });
    const start = (kind: string) =>
      marks.filter(each => each.kind === kind).map(each => Math.min(...each.loops.flat().map(([x]) => x)));
    expect(start('aiming point')).toEqual([400]);
    expect(start('touchdown zone')).toEqual([150, 300, 600, 750, 900, 1050]);
    const bars = marks.find(each => each.kind === 'aiming point')!.loops;
    expect(Math.min(...bars[1]!.map(([, y]) => y)) - Math.max(...bars[0]!.map(([, y]) => y))).toBe(18);
  });

  test('a pair beside the aiming point is left out, and none lies in the middle', () => {
    const marks = markingsOf({
      length: 2000,
      width: 45,
      rulers: [{ end: '09', zero: 0, dir: 1, displaced: 0, aimingPoint: 450 }],
    });
    const starts = marks.filter(each => each.kind === 'touchdown zone').map(each => each.loops[0]![0]![0]);
    expect(starts).toEqual([150, 600]);
  });

  test('figures are 9 m tall and differ from each other [V2]', () => {
    for (const figure of '0123456789LCR') {
      const { loops, height } = designationLoops(figure);
      expect(height).toBe(9);
      const up = loops.flat().map(([, v]) => v);
      expect([Math.min(...up), Math.max(...up)]).toEqual([0, 9]);
    }
    const shapes = [...'0123456789LCR'].map(figure => JSON.stringify(designationLoops(figure).loops));
    expect(new Set(shapes).size).toBe(13);
    expect(designationLoops('27L').height).toBe(24);
  });
});

describe('the clock', () => {
  test('of a closure is shown whole', () => {
    for (const night of data.nights.keys()) {
      const { start, end } = data.nights[night]!;
      expect(spanOf(data, { night, time: start })).toEqual([start, end]);
    }
  });

  test('of a job without a schedule is shown in parts of whole bays that go with the time', async () => {
    const library = Object.keys(texts).find(name => name.endsWith('broom-and-rinse.broom'))!;
    const shorter = texts[library]!.replace(/at-most:(\s+)3\.5 h/, 'at-most:$12.2 h');
    const missed = pictureData(await pictured('tern-sands/tender-2031.broom', { ...texts, [library]: shorter }));
    const [night] = missed.nights;
    expect(missed.nights).toHaveLength(1);
    expect(night!.end - night!.start).toBeGreaterThan(24 * 3600);
    const timesOf = (bay: PictureData['bays'][number]) => {
      const own = missed.activities.filter(
        each => each.work === bay.work && each.bay === bay.number && each.does !== 'wash-down',
      );
      return [Math.min(...own.map(each => each.start)), Math.max(...own.map(each => each.end))] as const;
    };
    const spans = new Map<number, readonly [number, number]>();
    for (let time = night!.start; time <= night!.end; time += 120) {
      const span = spanOf(missed, { night: 0, time });
      expect(span[1] - span[0]).toBeLessThanOrEqual(8 * 3600);
      spans.set(span[0], span);
      const within = missed.bays.map(timesOf).filter(([a, b]) => time >= a && time <= b);
      // Whatever is done at the moment is in sight.
      if (within.length > 0) expect(time).toBeLessThanOrEqual(span[1]);
      expect(within.length === 0 || time >= span[0]).toBe(true);
    }
    expect(spans.size).toBeGreaterThan(2);
    for (const [a, b] of missed.bays.map(timesOf))
      expect([...spans.values()].some(span => span[0] <= a && span[1] >= b)).toBe(true);
    // What is shown first is the bay that the verdict speaks of.
    const view = firstView(missed);
    const [a, b] = timesOf(missed.bays.find(each => each.id === view.bay)!);
    const { span } = layoutOf(missed, view, 640, 600);
    expect(span[0] <= a && span[1] >= b).toBe(true);
  });
});

describe('the axis', () => {
  test('runs back and forth, cut where there is nothing to show', () => {
    const view = firstView(data);
    const layout = layoutOf(data, view, 1300, 700);
    expect(layout.along.segments).toHaveLength(2);
    for (const x of [300, 1000, 1800, 2400]) expect(layout.along.x(layout.along.px(x))).toBeCloseTo(x, 6);
    for (const t of [layout.span[0], layout.span[0] + 1000]) expect(layout.timeAt(layout.timeY(t))).toBeCloseTo(t, 6);
    // Nothing lies in the cut.
    expect(layout.along.part([1200, 1500])).toBeUndefined();
  });

  test('shows as much of the runway as can be read', () => {
    const view = firstView(data);
    expect(legibleAlong(data, view, 1300)).toHaveLength(2);
    expect(legibleAlong(data, view, 640)).toHaveLength(1);
  });
});
