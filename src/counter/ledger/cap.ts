import type { LedgerHouse } from './house-ledger.js';
import { RoomByRoom } from './room-by-room.js';

/** Sum kept between nobody and the most persons there can be: errors are forgotten at both ends. */
export class CapLedger extends RoomByRoom {
  constructor(
    house: LedgerHouse,
    private readonly at_most: number,
  ) {
    super(house);
    for (const [room, count] of this.counts.entries()) this.counts[room] = Math.min(count, at_most);
  }

  protected kept(sum: number): number {
    return Math.min(this.at_most, Math.max(0, sum));
  }
}
