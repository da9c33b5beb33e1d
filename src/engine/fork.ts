/** Copies of running things, to go on from the same moment in more than one way. */

/**
 * A copy of an object graph: instances of the given classes are new, and so are the lists, maps, sets and typed arrays
 * that hold their state; everything else, functions included, is shared with the original. A thing met twice is copied once.
 *
 * @param classes of everything that changes as it runs
 */
export function forkOf<T>(root: T, classes: readonly (abstract new (...args: never[]) => unknown)[]): T {
  const made = new Map<object, unknown>();
  const fork = (one: unknown): unknown => {
    if (typeof one !== 'object' || one === null) return one;
    const known = made.get(one);
    if (known !== undefined) return known;
    if (Array.isArray(one)) {
      const list: unknown[] = [];
      made.set(one, list);
      for (const item of one) list.push(fork(item));
      return list;
    }
    if (one instanceof Map) {
      const map = new Map<unknown, unknown>();
      made.set(one, map);
      for (const [key, value] of one) map.set(fork(key), fork(value));
      return map;
    }
    if (one instanceof Set) {
      const set = new Set<unknown>();
      made.set(one, set);
      for (const value of one) set.add(fork(value));
      return set;
    }
    if (one instanceof Int32Array) {
      const copy = Int32Array.from(one);
      made.set(one, copy);
      return copy;
    }
    if (!classes.some((known) => one instanceof known)) return one;
    const copy = Object.create(Object.getPrototypeOf(one)) as Record<string, unknown>;
    made.set(one, copy);
    for (const [key, value] of Object.entries(one)) copy[key] = fork(value);
    return copy;
  };
  return fork(root) as T;
}
