/**
 * The one interface of ledgers: how tallies of all doors become the counts of all rooms of a house.
 *
 * A ledger knows tallies, presence sensors and the clock; never the truth. Several run side by side on the same tallies.
 * The host calls in order of time and reads `counts` after each call; all that is counted is whole persons.
 */
import type { Direction } from '../logic.js';

/** How often a logic goes wrong at a door: what the likelihood ledger weighs by. */
export interface DoorRates {
  /** Crossings without a tally, per crossing. */
  readonly missed: number;
  /** Crossings tallied the wrong way round, per crossing. */
  readonly reversed: number;
  /** Tallies that stand for nobody's crossing, per crossing. */
  readonly invented: number;
  /** Crossings of this door for each tally of the whole house: where an unseen crossing is likely to have been. */
  readonly crossings_per_tally: number;
}

/** A door between two rooms, by index; −1 is the outside. Forward goes from `from` to `to`. */
export interface LedgerDoor {
  readonly from: number;
  readonly to: number;
  /** Null where nobody has learnt them. */
  readonly rates: DoorRates | null;
}

/** What a ledger may know of a house before the first tally. */
export interface LedgerHouse {
  /** Name, persons at the start, and whether a presence sensor watches it. */
  readonly rooms: readonly { readonly name: string; readonly start: number; readonly presence: boolean }[];
  readonly doors: readonly LedgerDoor[];
  /** Clock time at the start, hours since midnight. */
  readonly starts_at_h: number;
}

export interface HouseLedger {
  /** Persons in each room, in the house's order; the same array at every call. */
  readonly counts: readonly number[];
  /** One tally of the door with this index, at integer microseconds since the start. */
  tally(time_us: number, door: number, direction: Direction): void;
  /** A room's presence sensor has changed what it says. */
  presence(time_us: number, room: number, occupied: boolean): void;
  /** When it wants to be woken next; Infinity for never. */
  readonly wake_us: number;
  /** The time it asked for has come. */
  wake(): void;
  /** Per door, how many of its passages had to be put right so that no room went below nobody; most ledgers don't say. */
  readonly repairs?: readonly number[];
}

/** Index of the outside among rooms. */
export const OUT = -1;
