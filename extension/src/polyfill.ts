/**
 * What the parser library needs and editors on Node 20 do not have yet: `Object.groupBy` and `Map.groupBy` (ECMAScript
 * 2024). Put in front of the bundles by the build; where the platform has them, nothing changes.
 */
type Group = (items: Iterable<unknown>, keyOf: (item: unknown, index: number) => unknown) => unknown;

const fill = (on: object, make: Group): void => {
  if (!('groupBy' in on)) Object.defineProperty(on, 'groupBy', { value: make, writable: true, configurable: true });
};

fill(Map, (items, keyOf) => grouped(items, keyOf));
fill(Object, (items, keyOf) => {
  const groups = Object.create(null) as Record<string, unknown>;
  for (const [key, group] of grouped(items, (item, i) => propertyKey(keyOf(item, i)))) groups[key as string] = group;
  return groups;
});

function grouped(items: Iterable<unknown>, keyOf: (item: unknown, index: number) => unknown): Map<unknown, unknown[]> {
  const groups = new Map<unknown, unknown[]>();
  let index = 0;
  for (const item of items) {
    const key = keyOf(item, index++);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}

function propertyKey(key: unknown): string | symbol {
  return typeof key === 'symbol' ? key : String(key);
}
