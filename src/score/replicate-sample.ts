/**
 * What each replicate found, small enough to keep in figures.json: counts of each door and times of each room, under every
 * logic and ledger. Two runs that met the same crowds can be compared by it replicate by replicate.
 *
 * Lists of numbers, not objects: names would be most of the bytes.
 */
import { wrongOf } from './door-counts.js';
import type { ReplicateRecord } from './replicate-record.js';

/** Persons; `net_error` is persons counted minus persons truly gone through, forward as plus. */
export type DoorSample = readonly [
  crossings: number,
  missed: number,
  reversed: number,
  extra: number,
  invented: number,
  net_error: number,
];

/** Microseconds of the clock. */
export type RoomSample = readonly [exact_us: number, empty_while_occupied_us: number, occupied_while_empty_us: number];

/** One replicate; names are those of the design, in its order. */
export interface ReplicateSample {
  /** Length of its clock, microseconds. */
  readonly clock_us: number;
  /** `doors[door][logic]`. */
  readonly doors: readonly (readonly DoorSample[])[];
  /** `rooms[room][logic][ledger]`. */
  readonly rooms: readonly (readonly (readonly RoomSample[])[])[];
  /** `houses[logic][ledger]`: microseconds in which all rooms were right at once; empty without rooms. */
  readonly houses: readonly (readonly number[])[];
}

/** @param clock_us length of the replicate's clock */
export function replicateSample({ doors, rooms, houses }: ReplicateRecord, clock_us: number): ReplicateSample {
  return {
    clock_us,
    doors: doors.map(({ logics }) =>
      logics.map(({ total: { crossings, missed, reversed, extra, invented }, net_error }) => {
        return [crossings, missed, reversed, extra, invented, net_error] as const;
      }),
    ),
    rooms: rooms.map((logics) =>
      logics.map((ledgers) =>
        ledgers.map(({ exact_us, empty_while_occupied_us, occupied_while_empty_us }) => {
          return [exact_us, empty_while_occupied_us, occupied_while_empty_us] as const;
        }),
      ),
    ),
    houses: rooms.length === 0 ? [] : houses.map((ledgers) => ledgers.map(({ exact_us }) => exact_us)),
  };
}

/** A door's counts by name; `wrong` is errors of all kinds together. */
export interface DoorSampleCounts {
  readonly crossings: number;
  readonly wrong: number;
  readonly missed: number;
  readonly reversed: number;
  readonly extra: number;
  readonly invented: number;
  readonly net_error: number;
}

/** Several doors' counts, added up. */
export function doorSampleCounts(doors: readonly DoorSample[]): DoorSampleCounts {
  const at = (i: number): number => doors.reduce((total, door) => total + door[i]!, 0);
  const counts = { crossings: at(0), missed: at(1), reversed: at(2), extra: at(3), invented: at(4) };
  return { ...counts, wrong: wrongOf(counts), net_error: at(5) };
}

type Parts = Readonly<Record<'doors' | 'rooms' | 'logics' | 'ledgers', readonly unknown[]>>;

/** Whether samples have the shape of a design: a list a door, a room, a logic, a ledger, and a sample a replicate. */
export function samplesFit(
  samples: readonly ReplicateSample[],
  { doors, rooms, logics, ledgers }: Parts,
  replicates: number,
): boolean {
  const has = (list: readonly unknown[], length: number): boolean => list.length === length;
  return (
    has(samples, replicates) &&
    samples.every(
      (one) =>
        has(one.doors, doors.length) &&
        one.doors.every((door) => has(door, logics.length)) &&
        has(one.rooms, rooms.length) &&
        one.rooms.every((room) => has(room, logics.length) && room.every((ofLogic) => has(ofLogic, ledgers.length))) &&
        has(one.houses, rooms.length === 0 ? 0 : logics.length) &&
        one.houses.every((ofLogic) => has(ofLogic, ledgers.length)),
    )
  );
}
