/** Which logic is least wrong, said only as surely as paired differences allow. */
import type { RankedLogic } from '../score/metrics-schema.js';
import { isBehind } from '../score/ranking.js';
import { joined, named } from './words.js';

/** @param rows one place's logics, least often wrong first */
export function bestWords(rows: readonly RankedLogic[]): string {
  const [first, ...others] = rows;
  if (first === undefined || first.wrong_per_100.value === null) return 'no number to compare';
  if (others.length === 0) return `${named(first.logic)} alone`;
  const rivals = others.filter((row) => !isBehind(row));
  if (rivals.length === 0) return `${named(first.logic)} is wrong least often`;
  const level = [first, ...rivals];
  return level.every(({ more_than_best_per_100: more }) => more === null || isAlike(more))
    ? `${joined(level.map((row) => named(row.logic)))} are wrong equally often`
    : `${joined(level.map((row) => named(row.logic)))} can't be told apart`;
}

/** Every replicate gave the very same number. */
function isAlike({ value, low, high }: NonNullable<RankedLogic['more_than_best_per_100']>): boolean {
  return value === 0 && low === 0 && high === 0;
}
