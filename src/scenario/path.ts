/**
 * The one grammar for addressing what is inside a design or a metrics.json: `doors.front.beams.A.height_m`.
 *
 * Segments are parted by dots. A map's segment is a key. A list's segment is an item's name (metrics name theirs by
 * door, room or beam), or else a position from 1. `*` is every item or key. Where several items bear one name, as a
 * door's results under several logics do, the next segment may say which: `doors.front.four-level.wrong_per_100`.
 */
import type { KeyPath, SetProblem } from './issue.js';
import { IDENTITY_KEYS, child, identityOf, isPlainObject, showPath, valueAt } from './key-path.js';
import { nearest } from '../engine/nearest.js';

/** What tells items of one name apart. */
const SECOND_KEYS = ['logic', 'ledger'] as const;
const MAX_SEGMENTS = 20;

export interface PathMatch {
  /** Keys and positions from 0. */
  readonly path: KeyPath;
  readonly value: unknown;
}
export type UnknownPath = Extract<SetProblem, { code: 'unknown_path' }>;

/** Everything that `path` leads to, in order; `problem` says where it leads nowhere. Never throws. */
export function readPath(root: unknown, path: string): { matches: readonly PathMatch[]; problem: UnknownPath | null } {
  const { paths, problem } = follow(root, path.split('.'));
  return { matches: paths.map((p) => ({ path: p, value: valueAt(root, p) })), problem };
}

/**
 * A copy of `root` with `value` at every place `path` leads to. The last key need not be there yet: optional keys can
 * be set; whether they may be, the schema says. List items must exist.
 */
export function writePath<T>(
  root: T,
  path: string,
  value: unknown,
): { value: T; written: readonly KeyPath[]; problem: UnknownPath | null } {
  const segments = path.split('.');
  const last = segments.at(-1) ?? '';
  const parents = follow(root, segments.slice(0, -1));
  if (parents.problem) return { value: root, written: [], problem: parents.problem };
  const written = parents.paths.flatMap((parent): KeyPath[] => {
    const holder = valueAt(root, parent);
    const isNewKey = isPlainObject(holder) && last !== '' && last !== '*' && !Object.hasOwn(holder, last);
    return isNewKey ? [[...parent, last]] : step(holder, last).map((s) => [...parent, s]);
  });
  if (written.length === 0)
    return { value: root, written, problem: nowhere(root, parents.paths, segments.length - 1, segments) };
  return { value: written.reduce<unknown>((copy, p) => replaceAt(copy, p, value), root) as T, written, problem: null };
}

function follow(
  root: unknown,
  segments: readonly string[],
): { paths: readonly KeyPath[]; problem: UnknownPath | null } {
  let paths: readonly KeyPath[] = [[]];
  for (const [i, segment] of segments.entries()) {
    const next = paths.flatMap((path) => {
      const value = valueAt(root, path);
      if (isPlainObject(value) && !Object.hasOwn(value, segment) && SECOND_KEYS.some((k) => value[k] === segment))
        return [path];
      return step(value, segment).map((s) => [...path, s]);
    });
    if (next.length === 0 || i >= MAX_SEGMENTS) return { paths: [], problem: nowhere(root, paths, i, segments) };
    paths = next;
  }
  return { paths, problem: null };
}

/** Keys or positions that one segment leads to. */
function step(value: unknown, segment: string): (string | number)[] {
  if (Array.isArray(value)) {
    const all = value.map((_, i) => i);
    if (segment === '*') return all;
    const named = all.filter(
      (i) => isPlainObject(value[i]) && IDENTITY_KEYS.some((k) => child(value[i], k) === segment),
    );
    if (named.length > 0) return named;
    const position = /^[1-9]\d{0,5}$/.test(segment) ? Number(segment) - 1 : -1;
    return all.includes(position) ? [position] : [];
  }
  if (!isPlainObject(value)) return [];
  if (segment === '*') return Object.keys(value);
  return Object.hasOwn(value, segment) ? [segment] : [];
}

function nowhere(root: unknown, paths: readonly KeyPath[], i: number, segments: readonly string[]): UnknownPath {
  const segment = segments[i] ?? '';
  const known = [...new Set(paths.flatMap((path) => words(valueAt(root, path))))];
  const within = showPath(root, paths[0] ?? []);
  return { code: 'unknown_path', segment, within, known, nearest: nearest(segment, known) };
}

function words(value: unknown): string[] {
  if (Array.isArray(value)) return value.map((item, i) => identityOf(item) ?? String(i + 1));
  return isPlainObject(value) ? Object.keys(value) : [];
}

/** A copy of `root` with `value` at one place, whose holder must exist. */
export function replaceAt(root: unknown, path: KeyPath, value: unknown): unknown {
  const [segment, ...rest] = path;
  if (segment === undefined) return value;
  const inner = replaceAt(child(root, segment), rest, value);
  if (Array.isArray(root)) return root.map((item: unknown, i) => (i === segment ? inner : item));
  return { ...(root as object), [segment]: inner };
}
