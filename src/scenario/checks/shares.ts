/** Shares of a list, of a mix, of guests or of rooms: they add up to 1. */
import type { Finding, KeyPath } from '../issue.js';
import { finding } from './outline.js';

/** Shares are written with a few digits; thirds as 0.333333 are close enough. */
const SHARE_TOLERANCE = 1e-5;

/** A complaint that says what they add up to; none where a row can't be read, for that is complained of already. */
export function checkShares(
  rows: readonly ({ readonly share?: number | undefined } | undefined)[] | undefined,
  path: KeyPath,
): Finding[] {
  let sum = 0;
  for (const row of rows ?? [undefined]) {
    if (row?.share === undefined) return [];
    sum += row.share;
  }
  return Math.abs(sum - 1) <= SHARE_TOLERANCE ? [] : [finding(path, { code: 'shares_sum', sum }, 'key')];
}
