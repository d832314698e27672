/** The stand-ins for what Node 20 lacks agree with those of the platform that runs the tests. */
import { readFileSync } from 'node:fs';
import vm from 'node:vm';
import { transformSync } from 'esbuild';
import fc from 'fast-check';
import { expect, test } from 'vitest';

type GroupBy<R> = (items: Iterable<unknown>, keyOf: (item: unknown, index: number) => unknown) => R;

/** The file, run in a world whose Object and Map have no groupBy. */
function filled(): {
  Object: { groupBy: GroupBy<Record<string, unknown[]>> };
  Map: { groupBy: GroupBy<Map<unknown, unknown[]>> };
} {
  const source = readFileSync(new URL('../../extension/src/polyfill.ts', import.meta.url), 'utf8');
  const { code } = transformSync(source, { loader: 'ts', format: 'iife' });
  return vm.runInNewContext(`delete Object.groupBy; delete Map.groupBy; ${code}; ({ Object, Map })`) as never;
}

test('they group as the platform does', () => {
  const ours = filled();
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -5, max: 5 })), fc.integer({ min: 1, max: 4 }), (items, modulus) => {
      const keyOf = (item: unknown, index: number) => ((item as number) + index) % modulus;
      const groups = ours.Object.groupBy(items, keyOf);
      expect(JSON.stringify(groups)).toBe(JSON.stringify(Object.groupBy(items, keyOf as never)));
      expect(JSON.stringify([...ours.Map.groupBy(items, keyOf)])).toBe(
        JSON.stringify([...Map.groupBy(items, keyOf as never)]),
      );
    }),
  );
  expect(Object.getPrototypeOf(ours.Object.groupBy([1], String as never))).toBeNull();
});

test('where the platform has them, they stay', () => {
  const before = Object.groupBy;
  const source = readFileSync(new URL('../../extension/src/polyfill.ts', import.meta.url), 'utf8');
  vm.runInThisContext(transformSync(source, { loader: 'ts', format: 'iife' }).code);
  expect(Object.groupBy).toBe(before);
});
