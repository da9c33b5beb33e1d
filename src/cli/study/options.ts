/** Options of studies, read and checked. */
import { availableParallelism } from 'node:os';
import { quote } from '../../engine/printable.js';
import { UserProblem } from '../problem.js';
import { typedNumber } from '../typed-number.js';
import type { Slice } from './study-folder.js';

export function sliceOf(text: string | undefined): Slice | null {
  if (text === undefined) return null;
  const [, number, of] = /^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? [];
  const slice = { number: Number(number), of: Number(of) };
  if (slice.number >= 1 && slice.number <= slice.of) return slice;
  throw new UserProblem(`--slice: expected NUMBER/OF, such as 3/16, found ${quote(text)}`);
}

export function workersOf(text: string | undefined): number {
  if (text === undefined) return availableParallelism();
  const workers = typedNumber(text);
  if (Number.isInteger(workers) && workers >= 1 && workers <= 1024) return workers;
  throw new UserProblem(`--workers: expected a whole number from 1 to 1024, found ${quote(text)}`);
}

/** Milliseconds; null: none. */
export function limitOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const [, number, unit] = /^(\d+(?:\.\d+)?) ?(s|min|m|h|d)$/.exec(text) ?? [];
  const ms = { s: 1000, min: 60_000, m: 60_000, h: 3_600_000, d: 86_400_000 }[unit ?? ''];
  const limit = ms === undefined ? Number.NaN : Number(number) * ms;
  // A timer holds no more than 2³¹ milliseconds.
  if (limit > 0 && limit < 2 ** 31) return limit;
  throw new UserProblem(
    `--time-limit: expected a time such as 8h, 90min or 30s, at most 24 days, found ${quote(text)}`,
  );
}
