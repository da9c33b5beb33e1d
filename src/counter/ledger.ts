/** Ledgers: how tallies become a room's count. Several run side by side on the same tallies. */
import type { Direction } from './logic.js';
import type { LedgerName } from './schema.js';

export interface Ledger {
  readonly description: string;
  /** The count after `delta` more persons, negative for fewer; both whole numbers. */
  post(count: number, delta: number): number;
}

export const ledgers: Readonly<Record<LedgerName, Ledger>> = Object.freeze({
  raw: {
    description: 'Sum of all tallies; it can go below zero.',
    post: (count: number, delta: number) => count + delta,
  },
  floor: {
    description: 'Sum that never goes below zero; what is taken away from an empty room is forgotten.',
    post: (count: number, delta: number) => Math.max(0, count + delta),
  },
});

/** What one tally does to the room a door names as `from` or as `to`. */
export function tallyDelta(direction: Direction, side: 'from' | 'to'): 1 | -1 {
  return (direction === 'forward') === (side === 'to') ? 1 : -1;
}

/** The counts of one room after `delta`, one for each of `names`, in that order. */
export function postAll(names: readonly LedgerName[], counts: readonly number[], delta: number): number[] {
  return names.map((name, i) => ledgers[name].post(counts[i] ?? 0, delta));
}
