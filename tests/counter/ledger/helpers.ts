/** Small houses to tell stories of tallies in. */
import type { DoorRates, HouseLedger, LedgerHouse } from '../../../src/counter/ledger/house-ledger.js';

export const OUT = -1;

/** @param starts persons at the start @param doors pairs of rooms, −1 the outside */
export function houseOf(
  starts: readonly number[],
  doors: readonly (readonly [number, number])[],
  rates: readonly (DoorRates | null)[] = [],
  starts_at_h = 8,
): LedgerHouse {
  return {
    rooms: starts.map((start, i) => ({ name: `room ${i}`, start, presence: false })),
    doors: doors.map(([from, to], d) => ({ from, to, rates: rates[d] ?? null })),
    starts_at_h,
  };
}

/** `+0 -2`: forward through door 0, backward through door 2. Gives the counts after each. */
export function play(ledger: HouseLedger, story: string): number[][] {
  return story.split(' ').map((word, i) => {
    ledger.tally(i, Number(word.slice(1)), word.startsWith('+') ? 'forward' : 'backward');
    return [...ledger.counts];
  });
}
