/** Pictures handed over in parts: whatever comes in whatever order, the preview ends with what the whole would give. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Delivery, Receiver, Sender } from '../../extension/preview/delivery.ts';
import { turned, type Unit, units } from '../../extension/preview/turns.ts';
import { type PictureData, pictureData } from '../../language/pictures/data.ts';
import { pictured } from '../support/pictures.ts';

let first: PictureData;
let other: PictureData;

beforeAll(async () => {
  first = pictureData(await pictured('first-job.broom'));
  other = pictureData(await pictured('curlew-bar/chemical-then-water.broom'));
});

/** What travels: JSON has no undefined. */
const whole = (data: PictureData): unknown => JSON.parse(JSON.stringify(data));
/** As it comes over: no object of one side is one of the other. */
const sent = (delivery: Delivery): Delivery => structuredClone(delivery);
const all = (): boolean => false;

/** A change of a picture: elements of a list moved, dropped, taken twice, changed; a property changed, taken away, or all else. */
type Change = (data: PictureData) => PictureData;
const list = fc.constantFrom('bays' as const, 'activities' as const, 'handles' as const, 'quantities' as const);
const shuffled = fc.tuple(list, fc.array(fc.nat(200), { maxLength: 12 })).map(
  ([name, picks]): Change =>
    data => ({ ...data, [name]: picks.flatMap(i => data[name][i % 20] ?? []) }),
);
const altered = fc.tuple(list, fc.nat(20), fc.string({ maxLength: 4 })).map(
  ([name, at, text]): Change =>
    data => ({
      ...data,
      [name]: (data[name] as readonly object[]).map((each, i) => (i === at ? { ...each, id: text } : each)),
    }),
);
const renamed = fc.string({ unit: 'binary', maxLength: 6 }).map(
  (title): Change =>
    data => ({ ...data, title }),
);
const without = fc.constantFrom('refusals' as const, 'machines' as const, 'nights' as const).map(
  (name): Change =>
    data => ({ ...data, [name]: undefined as unknown as [] }),
);
const replaced = fc.boolean().map(
  (back): Change =>
    () =>
      back ? first : other,
);
const same: fc.Arbitrary<Change> = fc.constant(data => data);
const change = fc.oneof(shuffled, altered, renamed, without, replaced, same);

describe('in parts', () => {
  test('a sequence of changes gives the same picture as the last one whole, however much of each was read on the way', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(change, fc.nat(12), fc.nat(9)), { minLength: 1, maxLength: 12 }), steps => {
        const sender = new Sender();
        const receiver = new Receiver();
        let data = first;
        for (const [act, parts, luck] of steps) {
          data = act(data);
          const delivery = sent(sender.deliver(data));
          // Now and then one is lost, or the preview begins anew: then it wants the whole.
          if (luck === 0) continue;
          if (!receiver.take(delivery)) {
            sender.forget();
            expect(receiver.take(sent(sender.deliver(data)))).toBe(true);
          }
          let left = parts;
          receiver.read(() => --left <= 0);
        }
        const last = sent(sender.deliver(data));
        if (!receiver.take(last)) {
          sender.forget();
          receiver.take(sent(sender.deliver(data)));
        }
        while (!receiver.read(() => true));
        expect(receiver.picture().data).toEqual(whole(data));
      }),
      { numRuns: 300 },
    );
  });

  test('what did not change is not sent again, and is the same object', () => {
    const sender = new Sender();
    const receiver = new Receiver();
    receiver.take(sent(sender.deliver(other)));
    const before = receiver.picture().data;
    const bays = [...other.bays].reverse();
    const delivery = sender.deliver({ ...other, bays, title: 'another' });
    expect(Object.keys(delivery.properties)).toEqual(['title']);
    expect(delivery.lists.bays).toEqual(bays.map((_, i) => bays.length - 1 - i));
    receiver.take(sent(delivery));
    const after = receiver.picture().data;
    expect(bays.length).toBeGreaterThan(1);
    for (const [i, bay] of after.bays.entries()) expect(bay).toBe(before.bays[bays.length - 1 - i]);
    expect(after.handles).toBe(before.handles);
    expect(after.title).toBe('another');
  });

  test('a delivery on one that is not here changes nothing', () => {
    const sender = new Sender();
    const receiver = new Receiver();
    expect(receiver.take({ ...sent(sender.deliver(first)), since: 4 })).toBe(false);
    receiver.take(sent(sender.deliver(first)));
    expect(receiver.take(sent(sender.deliver(other)))).toBe(false);
    sender.forget();
    expect(receiver.take(sent(sender.deliver(first)))).toBe(true);
    const { number } = receiver.picture();
    sender.deliver(other);
    expect(receiver.take(sent(sender.deliver(first)))).toBe(false);
    expect(receiver.picture()).toEqual({ number, data: whole(first) });
  });

  test('it is read in turns of at least one part', () => {
    const receiver = new Receiver();
    receiver.take(sent(new Sender().deliver(other)));
    let turns = 1;
    while (!receiver.read(() => true)) turns++;
    expect(turns).toBe(Object.keys(other).length - 2 + other.bays.length + other.activities.length);
    expect(receiver.read(all)).toBe(true);
  });
});

describe('in turns', () => {
  test('all units come to what is wanted, one in a turn, and none waits for longer than all others take', () => {
    const wishes = fc.array(fc.tuple(fc.nat(3), fc.shuffledSubarray([...units], { minLength: units.length })), {
      maxLength: 60,
    });
    fc.assert(
      fc.property(wishes, steps => {
        const start = Object.fromEntries(units.map(each => [each, 0])) as Record<Unit, number>;
        let state: Parameters<typeof turned<number>>[0] = { drawn: start, line: [] };
        const waits = new Map<Unit, number>(units.map(each => [each, 0]));
        const go = (wanted: number, order: readonly Unit[]): void => {
          const before = state.drawn;
          state = turned(state, wanted, () => order);
          const changed = units.filter(each => state.drawn[each] !== before[each]);
          expect(changed.length).toBe(units.some(each => before[each] !== wanted) ? 1 : 0);
          for (const each of units) {
            waits.set(each, state.drawn[each] === wanted ? 0 : waits.get(each)! + 1);
            expect(waits.get(each)).toBeLessThan(2 * units.length);
          }
        };
        let wanted = 0;
        for (const [more, order] of steps) {
          if (more === 0) wanted++;
          go(wanted, order);
        }
        for (let i = 0; i < units.length; i++) go(wanted, units);
        expect(Object.values(state.drawn)).toEqual(units.map(() => wanted));
      }),
    );
  });
});
