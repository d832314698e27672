/** What follows from a picture alone is worked out once: its parts stay as they are, and figures are drawn anew far more often than they change. */

/**
 * A function that remembers what it gave for an object, as long as that object is there.
 * @param make depends on nothing but its arguments; those after the first have to be values that JSON can hold
 */
export function once<K extends object, A extends readonly unknown[], V>(
  make: (of: K, ...rest: A) => V,
): (of: K, ...rest: A) => V {
  const known = new WeakMap<K, Map<string, V>>();
  return (of, ...rest) => {
    let values = known.get(of);
    if (!values) {
      values = new Map();
      known.set(of, values);
    }
    const key = JSON.stringify(rest);
    if (!values.has(key)) values.set(key, make(of, ...rest));
    return values.get(key) as V;
  };
}
