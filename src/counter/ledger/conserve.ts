/**
 * Persons don't come from nowhere: a tally out of a room that counts nobody says that somebody came in unseen.
 *
 * Places are the rooms and the outside, which holds what is left of the household, or any number where that isn't known.
 * A tally moves one person from the place it leaves to the place it enters. If the place it leaves holds nobody, the
 * person is fetched along the shortest chain of doors from a place that holds somebody:
 *
 * 1. the fewest doors, for each door of the chain must have missed a passage;
 * 2. among equally far places, rooms before the outside;
 * 3. then the room with the most persons, whom one fewer changes least;
 * 4. then the first in the house's order. Between two rooms with several doors the first door stands for all.
 *
 * Every door of the chain is charged one repair. If the person is fetched from the place the tally enters, nothing changes
 * but the charge: in and out again, or never. If no place holds anybody, the tally itself is void and its door charged.
 * So no room is ever below nobody, and the household as a whole never changes.
 */
import type { Direction } from '../logic.js';
import type { HouseLedger, LedgerHouse } from './house-ledger.js';

/** A way from a place: the door, and the place behind it. */
interface Way {
  readonly door: number;
  readonly place: number;
}

export class ConserveLedger implements HouseLedger {
  readonly counts: number[];
  readonly repairs: number[];
  readonly wake_us = Infinity;
  private readonly doors: LedgerHouse['doors'];
  private readonly outside: number;
  private readonly ways: readonly (readonly Way[])[];
  /** Persons who are out; Infinity where the household isn't known. */
  private out: number;
  /** Of one search: the door each place was reached by, −1 for none yet, and the place it was reached from. */
  private readonly reachedBy: number[];
  private readonly reachedFrom: number[];

  /** @param household persons of the house, those who are out included, at least those at the start; null: not known */
  constructor(house: LedgerHouse, household: number | null) {
    this.doors = house.doors;
    this.counts = house.rooms.map(({ start }) => start);
    this.repairs = house.doors.map(() => 0);
    this.outside = house.rooms.length;
    const inside = this.counts.reduce((sum, count) => sum + count, 0);
    this.out = household === null ? Infinity : Math.max(0, household - inside);
    const places = Array.from({ length: this.outside + 1 }, (_, place) => place);
    this.ways = places.map((place) =>
      house.doors.flatMap(({ from, to }, door) => {
        const [a, b] = [this.placeOf(from), this.placeOf(to)];
        if (a === b) return [];
        return place === a ? [{ door, place: b }] : place === b ? [{ door, place: a }] : [];
      }),
    );
    this.reachedBy = places.map(() => -1);
    this.reachedFrom = places.map(() => -1);
  }

  tally(_time_us: number, door: number, direction: Direction): void {
    const { from, to } = this.doors[door]!;
    const left = this.placeOf(direction === 'forward' ? from : to);
    const entered = this.placeOf(direction === 'forward' ? to : from);
    let source = left;
    if (this.held(left) <= 0) {
      source = this.nearest(left);
      if (source < 0) {
        this.repairs[door]!++;
        return;
      }
      for (let place = source; place !== left; place = this.reachedFrom[place]!)
        this.repairs[this.reachedBy[place]!]!++;
    }
    this.add(source, -1);
    this.add(entered, 1);
  }

  presence(_time_us: number, _room: number, _occupied: boolean): void {}
  wake(): void {}

  private placeOf(room: number): number {
    return room < 0 ? this.outside : room;
  }

  private held(place: number): number {
    return place === this.outside ? this.out : this.counts[place]!;
  }

  private add(place: number, by: number): void {
    if (place === this.outside) this.out += by;
    else this.counts[place]! += by;
  }

  /** The place to fetch from by the rules above, with the chain back in `reachedFrom` and `reachedBy`; −1 if nobody is anywhere. */
  private nearest(start: number): number {
    const { reachedBy, reachedFrom } = this;
    reachedBy.fill(-1);
    let ring = [start];
    while (ring.length > 0) {
      const next: number[] = [];
      for (const place of ring) {
        for (const way of this.ways[place]!) {
          if (way.place === start || reachedBy[way.place] !== -1) continue;
          reachedBy[way.place] = way.door;
          reachedFrom[way.place] = place;
          next.push(way.place);
        }
      }
      let best = -1;
      for (const place of next) if (this.held(place) > 0 && (best < 0 || this.goesBefore(place, best))) best = place;
      if (best >= 0) return best;
      ring = next;
    }
    return -1;
  }

  private goesBefore(place: number, best: number): boolean {
    if (best === this.outside || place === this.outside) return best === this.outside;
    const more = this.counts[place]! - this.counts[best]!;
    return more > 0 || (more === 0 && place < best);
  }
}
