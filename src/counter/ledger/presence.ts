import type { LedgerHouse } from './house-ledger.js';
import { RoomByRoom } from './room-by-room.js';

/**
 * Floor at zero, corrected where a presence sensor watches: while it says occupied at least one is there, when it falls
 * to empty nobody is. Between two changes to empty tallies are believed, for the sensor may miss who sits still.
 */
export class PresenceLedger extends RoomByRoom {
  private readonly occupied: boolean[];

  constructor(house: LedgerHouse) {
    super(house);
    this.occupied = house.rooms.map(() => false);
  }

  override presence(_time_us: number, room: number, occupied: boolean): void {
    this.occupied[room] = occupied;
    this.counts[room] = occupied ? Math.max(1, this.counts[room]!) : 0;
  }

  protected kept(sum: number, room: number): number {
    return Math.max(this.occupied[room] === true ? 1 : 0, sum);
  }
}
