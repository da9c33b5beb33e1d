/**
 * Where designs differ: keys as `--set` names them, with what each design has there. Keys that differ alike in several
 * places, as the heights of a pair's two beams do, stand together.
 */
import { identityOf, isPlainObject } from './key-path.js';
import type { Design } from './schema.js';

export interface DifferingKey {
  /** `doors.*.beams.*.height_m`; `*` stands for the names of all places together. */
  readonly key: string;
  /** The places, each as `--set` names it: `doors.front.beams.A.height_m`. */
  readonly places: readonly string[];
  /** What each design has there; undefined where it has nothing. */
  readonly values: readonly unknown[];
}

/** Learnt from the other keys, not written by anybody. */
const LEARNT = ['calibration', 'learnt'];
const NOTHING = Symbol('nothing');

interface Place {
  readonly path: readonly string[];
  readonly skeleton: readonly string[];
  readonly values: readonly unknown[];
}

/** @returns in the order of the schema; empty where the designs are the same */
export function differingKeys(designs: readonly Design[]): DifferingKey[] {
  const roots = designs.map((design) =>
    Object.fromEntries(Object.entries(design).filter(([key]) => !LEARNT.includes(key))),
  );
  const places = withoutTakenAlong(compare({ path: [], skeleton: [], values: roots }));
  const together = new Map<string, Place[]>();
  for (const place of places) {
    const key = JSON.stringify([place.skeleton, ...place.values.map((value) => (value === NOTHING ? [] : [value]))]);
    together.set(key, [...(together.get(key) ?? []), place]);
  }
  return [...together.values()].map((all) => ({
    key: starred(all.map(({ path }) => path)).join('.'),
    places: all.map(({ path }) => path.join('.')),
    values: all[0]!.values.map((value) => (value === NOTHING ? undefined : value)),
  }));
}

/** One path for several of one length: `*` where they are not the same. */
function starred(paths: readonly (readonly string[])[]): string[] {
  return paths[0]!.map((segment, i) => (paths.every((path) => path[i] === segment) ? segment : '*'));
}

/** Places below this one at which the values are not all the same. */
function compare(place: Place): Place[] {
  const { path, values } = place;
  const texts = values.map((value) => (value === NOTHING ? '' : JSON.stringify(value)));
  if (new Set(texts).size <= 1) return [];
  // Texts of tables are files, not trees: they are whole or other.
  if (path[0] === 'tables' && path.length === 2) return [place];
  if (values.every(isPlainObject)) return children(place, values, (key) => key);
  if (values.every((value): value is unknown[] => Array.isArray(value))) return ofLists(place, values);
  return [place];
}

/** @param segment how the skeleton calls a key */
function children(
  { path, skeleton }: Place,
  values: readonly Readonly<Record<string, unknown>>[],
  segment: (key: string) => string,
): Place[] {
  const keys = [...new Set(values.flatMap((value) => Object.keys(value)))];
  return keys.flatMap((key) =>
    compare({
      path: [...path, key],
      skeleton: [...skeleton, segment(key)],
      values: values.map((value) => (Object.hasOwn(value, key) && value[key] !== undefined ? value[key] : NOTHING)),
    }),
  );
}

/** Items with names by their names, and their order; others by position where lists are of one length. */
function ofLists(place: Place, lists: readonly (readonly unknown[])[]): Place[] {
  const named = lists.every((list) => list.every((item) => identityOf(item) !== undefined) && isUnique(list));
  if (named) {
    const byName = lists.map((list) => Object.fromEntries(list.map((item) => [identityOf(item), item])));
    const order = lists.map((list) => list.map((item) => identityOf(item)));
    const inner = children(place, byName, () => '*');
    // The first logic and the first ledger are the headline's.
    const first = {
      ...place,
      path: [...place.path, '(order)'],
      skeleton: [...place.skeleton, '(order)'],
      values: order,
    };
    const common = order[0]!.filter((name) => order.every((names) => names.includes(name)));
    const reordered = order.some(
      (names) => names.filter((name) => common.includes(name)).join('\0') !== common.join('\0'),
    );
    return reordered ? [first, ...inner] : inner;
  }
  const trees = lists.every((list) => list.length === lists[0]!.length && list.every(isPlainObject));
  if (!trees) return [place];
  return children(
    place,
    lists.map((list) => Object.fromEntries(list.map((item, i) => [String(i + 1), item]))),
    () => '*',
  );
}

const isUnique = (list: readonly unknown[]): boolean => new Set(list.map(identityOf)).size === list.length;

/** Far ends that go along with their near ends, as `--set` takes them along, say nothing new. */
function withoutTakenAlong(places: readonly Place[]): Place[] {
  const known = new Map(places.map(({ path, values }) => [path.join('\0'), JSON.stringify(values)]));
  return places.filter(({ path, values }) => {
    const last = path.at(-1) ?? '';
    const near = [...path.slice(0, -1), last.replace(/^far_/, '')].join('\0');
    return !last.startsWith('far_') || known.get(near) !== JSON.stringify(values);
  });
}
