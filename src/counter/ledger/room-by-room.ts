/** Ledgers that keep each room by itself: a tally takes one from the room it leaves and gives one to the room it enters. */
import type { Direction } from '../logic.js';
import type { HouseLedger, LedgerHouse } from './house-ledger.js';

export abstract class RoomByRoom implements HouseLedger {
  readonly counts: number[];
  wake_us = Infinity;
  private readonly doors: LedgerHouse['doors'];

  constructor(house: LedgerHouse) {
    this.doors = house.doors;
    this.counts = house.rooms.map(({ start }) => start);
  }

  tally(_time_us: number, door: number, direction: Direction): void {
    const { from, to } = this.doors[door]!;
    const by = direction === 'forward' ? 1 : -1;
    if (from >= 0) this.counts[from] = this.kept(this.counts[from]! - by, from);
    if (to >= 0) this.counts[to] = this.kept(this.counts[to]! + by, to);
  }

  presence(_time_us: number, _room: number, _occupied: boolean): void {}
  wake(): void {}

  /** What is kept of a sum. */
  protected abstract kept(sum: number, room: number): number;
}
