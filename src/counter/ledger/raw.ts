import { RoomByRoom } from './room-by-room.js';

/** Plain sum of all tallies: shows every error for good, below zero too. */
export class RawLedger extends RoomByRoom {
  protected kept(sum: number): number {
    return sum;
  }
}
