/** The parts of a sheet: what they hang on, so that a preview draws no more of them than it has to. */
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { beforeAll, describe, expect, test } from 'vitest';
import { type PictureData, pictureData } from '../../../language/pictures/data.ts';
import { firstView, layoutOf, type SheetView } from '../../../language/pictures/layout.ts';
import { once } from '../../../language/pictures/once.ts';
import { isIn, type Scene, type SheetPart, Still, sameFor, sheetParts } from '../../../language/pictures/sheet.tsx';
import { pictured } from '../../support/pictures.ts';

let data: PictureData;
let scenes: readonly Scene[];

beforeAll(async () => {
  data = pictureData(await pictured('tern-sands/tender-2031.broom'));
  const first = firstView(data);
  const [a, b] = data.runways[first.runway]!.stretches[0]!;
  const { start, end } = data.nights[first.night]!;
  // Each differs from the first in one thing that somebody looking at it can change.
  const views: readonly SheetView[] = [
    first,
    { ...first, time: first.time + 3600 },
    { ...first, night: (first.night + 1) % data.nights.length },
    { ...first, clock: 'residence' },
    { ...first, bay: data.bays.at(-1)!.id },
    { ...first, along: [[a + 20, b - 20]] },
    { ...first, span: [start, (start + end) / 2] },
    { ...first, across: 2 },
  ];
  scenes = [
    ...views.flatMap(view => [640, 1300].map(width => ({ data, view, layout: layoutOf(data, view, width, 780) }))),
    { data, view: first, layout: layoutOf(data, first, 640, 700) },
  ];
});

function drawn(part: SheetPart, { data: of, view, layout }: Scene): string {
  const layers = (['marks', 'words'] as const).filter(layer => isIn(part, layer));
  return layers
    .map(layer => renderToString(h(Still, { part, layer, data: of, view, layout, id: 'bl', live: true })))
    .join('');
}

describe('what a part hangs on', () => {
  test.each(sheetParts)('two scenes that are said to be the same for the %s are the same picture', part => {
    const pictures = scenes.map(scene => drawn(part, scene));
    let same = 0;
    for (const [i, a] of scenes.entries()) {
      for (const [k, b] of scenes.entries()) {
        if (i === k || !sameFor(part, a, b)) continue;
        same++;
        expect(pictures[k], JSON.stringify([a.view, b.view])).toBe(pictures[i]);
      }
    }
    // The time moves none of them, at either width.
    expect(same).toBeGreaterThanOrEqual(4);
  });

  test('moving along the runway draws nothing beside it again, and the map by another clock nothing but itself and its key', () => {
    const first = scenes[0]!;
    const again = (view: Partial<SheetView>): readonly SheetPart[] => {
      const next = { ...first.view, ...view };
      const scene = { data, view: next, layout: layoutOf(data, next, 640, 780) };
      return sheetParts.filter(part => !sameFor(part, first, scene));
    };
    const [a, b] = data.runways[first.view.runway]!.stretches[0]!;
    expect(again({ along: [[a + 20, b - 20]] })).toEqual(['plan', 'map', 'chart', 'strips']);
    expect(again({ clock: 'residence' })).toEqual(['signs', 'map']);
    expect(again({ bay: data.bays.at(-1)!.id })).toEqual(['profile']);
    expect(again({ time: first.view.time + 60 })).toEqual([]);
  });

  test('another picture is another scene for all of them', () => {
    const other = { ...scenes[0]!, data: { ...data } };
    expect(sheetParts.filter(part => sameFor(part, scenes[0]!, other))).toEqual([]);
  });
});

test('what follows from an object alone is worked out once for it and the rest of what was given', () => {
  const calls: unknown[] = [];
  const twice = once((of: { readonly n: number }, by: readonly number[], name: string): string | undefined => {
    calls.push([of.n, by, name]);
    return of.n === 0 ? undefined : `${name} ${of.n * by[0]!}`;
  });
  const [one, two, zero] = [{ n: 1 }, { n: 2 }, { n: 0 }];
  expect([twice(one, [3], 'a'), twice(one, [3], 'a'), twice(one, [4], 'a'), twice(one, [3], 'b')]).toEqual([
    'a 3',
    'a 3',
    'a 4',
    'b 3',
  ]);
  expect([twice(two, [3], 'a'), twice(zero, [3], 'a'), twice(zero, [3], 'a')]).toEqual(['a 6', undefined, undefined]);
  // Another object that says the same is another one.
  expect(twice({ n: 1 }, [3], 'a')).toBe('a 3');
  expect(calls).toHaveLength(6);
});
