import { RoomByRoom } from './room-by-room.js';

/** Sum that never goes below zero: a person too few is forgotten when the room is empty, a person too many never. */
export class FloorLedger extends RoomByRoom {
  protected kept(sum: number): number {
    return Math.max(0, sum);
  }
}
