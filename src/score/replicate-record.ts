/** What one replicate found: what all numbers of a run are made of. */
import type { DoorCounts } from './door-counts.js';
import type { HouseTimes } from './house.js';
import type { RoomTimes } from './rooms.js';

/** What one replicate found at one door. */
export interface DoorRecord {
  /** One entry per logic, in the design's order. */
  readonly logics: readonly DoorCounts[];
  /** Breaks of each beam, in the door's order. */
  readonly breaks: readonly number[];
  /** Parties that set out from a room with too few people in it, and so did not. */
  readonly unmet_parties: number;
}

export interface ReplicateRecord {
  readonly doors: readonly DoorRecord[];
  /** `rooms[room][logic][ledger]`, in the design's order. */
  readonly rooms: readonly (readonly (readonly RoomTimes[])[])[];
  /** `houses[logic][ledger]`: all rooms at once. */
  readonly houses: readonly (readonly HouseTimes[])[];
}
