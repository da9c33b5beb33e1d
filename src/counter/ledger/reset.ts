import { DAY_US, HOUR_US } from '../../engine/time.js';
import { FloorLedger } from './floor.js';
import type { LedgerHouse } from './house-ledger.js';

/** Floor at zero that forgets everything once a day. At the start nothing is forgotten: those counts are known. */
export class ResetLedger extends FloorLedger {
  private readonly fresh: readonly number[];

  /** @param at_h clock time of the reset, hours since midnight @param to counts after it: nobody, or as at the start */
  constructor(house: LedgerHouse, at_h: number, to: 'zero' | 'start') {
    super(house);
    this.fresh = house.rooms.map(({ start }) => (to === 'zero' ? 0 : start));
    const ahead_us = (Math.round(at_h * HOUR_US) - Math.round(house.starts_at_h * HOUR_US)) % DAY_US;
    this.wake_us = ahead_us > 0 ? ahead_us : ahead_us + DAY_US;
  }

  override wake(): void {
    for (const [room, count] of this.fresh.entries()) this.counts[room] = count;
    this.wake_us += DAY_US;
  }
}
