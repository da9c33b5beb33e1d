/** Paths as people read them: `doors.front.beams.A.height_m`. */
import type { KeyPath } from './issue.js';

/** What items of lists are called by; metrics name theirs by `door`, `room` or `beam`. */
export const IDENTITY_KEYS = ['name', 'part', 'door', 'room', 'beam'] as const;

/** The text by which a list item is addressed, if it has one. */
export function identityOf(item: unknown): string | undefined {
  if (!isPlainObject(item)) return undefined;
  for (const key of IDENTITY_KEYS) {
    const value = item[key];
    if (typeof value === 'string' && value !== '') return value;
  }
  return undefined;
}

/** `path` into `root` in words: list items by their name where they have one, else by position from 1. */
export function showPath(root: unknown, path: KeyPath): string {
  const words: string[] = [];
  let value = root;
  for (const segment of path) {
    const next = child(value, segment);
    words.push(typeof segment === 'number' ? (identityOf(next) ?? String(segment + 1)) : segment);
    value = next;
  }
  return words.join('.');
}

/** The value at `path`, or undefined. Own properties only. */
export function valueAt(root: unknown, path: KeyPath): unknown {
  return path.reduce<unknown>(child, root);
}

export function child(value: unknown, segment: string | number): unknown {
  if (Array.isArray(value)) return typeof segment === 'number' ? (value[segment] as unknown) : undefined;
  return isPlainObject(value) && Object.hasOwn(value, segment) ? value[segment] : undefined;
}

export function isPlainObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
