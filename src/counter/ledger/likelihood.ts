/**
 * A filter over all rooms together: the likeliest count vectors, each with its weight, by Bayes' rule.
 *
 * What is taken to happen between two tallies, and at one:
 *
 * 1. before the tally at most one crossing of the whole house was missed: at door e with chance missed × crossings per
 *    tally, either way round equally likely;
 * 2. the tally is true (1 − missed − reversed), reversed, or invented, in the ratio of its door's rates; an invented one
 *    moves nobody.
 *
 * Whatever takes somebody from an empty room, or from outside when the whole household is in, is impossible. The `keep`
 * likeliest vectors stay; as long as no more than half of that are possible, nothing is left out and the weights are exact.
 *
 * Each room shows the median of its own marginal distribution: no other number has a smaller expected distance from the
 * truth, which is what the mean error of a room scores. The best vector agrees with itself, but may stand for a tenth of
 * the weight.
 */
import type { Direction } from '../logic.js';
import { type DoorRates, type HouseLedger, type LedgerHouse, OUT } from './house-ledger.js';
import { VectorSet, kthLargest } from './vectors.js';

/** Once the set is half full, branches below this share of its least vector are not followed: they would hardly stay. */
const NEGLIGIBLE = 0.3;
/** Chance of a missed crossing before a tally, at most: a house that misses more than it tallies can't be followed. */
const MOST_MISSED = 0.5;
/** A tally keeps at least this chance of being true. */
const LEAST_TRUE = 0.01;

export class LikelihoodLedger implements HouseLedger {
  readonly counts: number[];
  readonly wake_us = Infinity;
  private readonly doors: LedgerHouse['doors'];
  private readonly rates: readonly DoorRates[];
  /** Chance of a missed crossing of each door, one way, before any tally. */
  private readonly missed: readonly number[];
  private readonly quiet: number;
  private readonly household: number;
  private now: VectorSet;
  private next: VectorSet;
  private readonly between: VectorSet;
  private order = new Float64Array(256);
  private byCount = new Float64Array(16);

  /**
   * @param household persons of the house, those who are out included, at least those at the start; null: not known
   * @param keep how many vectors
   * @throws {RangeError} when a door has no rates
   */
  constructor(
    house: LedgerHouse,
    household: number | null,
    private readonly keep: number,
  ) {
    this.doors = house.doors;
    this.rates = house.doors.map(({ rates }, door) => {
      if (rates === null) throw new RangeError(`LikelihoodLedger: door ${door} has no rates`);
      return rates;
    });
    const missed = this.rates.map((rates) => rates.missed * rates.crossings_per_tally);
    const all = missed.reduce((sum, one) => sum + one, 0);
    const scale = all > MOST_MISSED ? MOST_MISSED / all : 1;
    this.missed = missed.map((one) => (one * scale) / 2);
    this.quiet = 1 - all * scale;
    this.counts = house.rooms.map(({ start }) => start);
    const inside = this.counts.reduce((sum, count) => sum + count, 0);
    this.household = household === null ? Infinity : Math.max(household, inside);
    const rooms = house.rooms.length;
    this.now = new VectorSet(rooms);
    this.next = new VectorSet(rooms);
    this.between = new VectorSet(rooms);
    this.now.begin(this.counts);
  }

  tally(_time_us: number, door: number, direction: Direction): void {
    const { between, next } = this;
    const cut = this.cut();
    this.predict(cut);
    const { from, to } = this.doors[door]!;
    const [left, entered] = direction === 'forward' ? [from, to] : [to, from];
    const { missed, reversed, invented } = this.rates[door]!;
    const right = Math.max(LEAST_TRUE, 1 - missed - reversed);
    next.clear();
    for (let p = 0; p < between.size; p++) {
      const weight = between.weights[p]!;
      if (weight * right >= cut && this.possible(between, p, left)) next.add(between, p, left, entered, weight * right);
      if (reversed > 0 && weight * reversed >= cut && this.possible(between, p, entered))
        next.add(between, p, entered, left, weight * reversed);
      if (invented > 0 && weight * invented >= cut) next.add(between, p, OUT, OUT, weight * invented);
    }
    // Nothing that happened can be: the tally is void.
    if (next.size === 0) return;
    this.select();
    this.show();
  }

  presence(_time_us: number, _room: number, _occupied: boolean): void {}
  wake(): void {}

  /** Weight of a vector; 0 if it isn't kept. For tests and traces. */
  weightOf(counts: readonly number[]): number {
    for (let i = 0; i < this.now.size; i++)
      if (counts.every((count, room) => this.now.count(i, room) === count)) return this.now.weights[i]!;
    return 0;
  }

  /** Vectors as they may be after a crossing that nobody tallied. */
  private predict(cut: number): void {
    const { now, between, doors, missed } = this;
    between.clear();
    for (let p = 0; p < now.size; p++) {
      const weight = now.weights[p]!;
      between.add(now, p, OUT, OUT, weight * this.quiet);
      for (let door = 0; door < doors.length; door++) {
        const branch = weight * missed[door]!;
        if (branch <= 0 || branch < cut) continue;
        const { from, to } = doors[door]!;
        if (this.possible(now, p, from)) between.add(now, p, from, to, branch);
        if (this.possible(now, p, to)) between.add(now, p, to, from, branch);
      }
    }
  }

  private possible(vectors: VectorSet, i: number, left: number): boolean {
    return left < 0 ? vectors.sums[i]! < this.household : vectors.count(i, left) > 0;
  }

  private cut(): number {
    const { now } = this;
    if (2 * now.size < this.keep) return 0;
    let least = Infinity;
    for (let i = 0; i < now.size; i++) if (now.weights[i]! < least) least = now.weights[i]!;
    return least * NEGLIGIBLE;
  }

  /** The likeliest of `next` become what is kept, their weights summing to one; among equal ones the earlier. */
  private select(): void {
    const { next, keep } = this;
    const kept = this.now;
    if (next.size <= keep) {
      this.now = next;
      this.next = kept;
    } else {
      while (this.order.length < next.size) this.order = new Float64Array(2 * this.order.length);
      this.order.set(next.weights.subarray(0, next.size));
      const least = kthLargest(this.order, next.size, keep);
      let ties = keep;
      for (let i = 0; i < next.size; i++) if (next.weights[i]! > least) ties--;
      kept.clear();
      for (let i = 0; i < next.size; i++) {
        const weight = next.weights[i]!;
        if (weight > least || (weight === least && ties-- > 0)) kept.append(next, i, weight);
      }
    }
    let sum = 0;
    for (let i = 0; i < this.now.size; i++) sum += this.now.weights[i]!;
    for (let i = 0; i < this.now.size; i++) this.now.weights[i]! /= sum;
  }

  private show(): void {
    const { now, counts } = this;
    for (let room = 0; room < counts.length; room++) {
      let least = Infinity;
      let most = 0;
      for (let i = 0; i < now.size; i++) {
        const count = now.count(i, room);
        if (count < least) least = count;
        if (count > most) most = count;
      }
      const range = most - least + 1;
      if (range > this.byCount.length) this.byCount = new Float64Array(2 * range);
      const { byCount } = this;
      byCount.fill(0, 0, range);
      for (let i = 0; i < now.size; i++) byCount[now.count(i, room) - least]! += now.weights[i]!;
      let below = 0;
      let median = most;
      for (let c = 0; c < range; c++) {
        below += byCount[c]!;
        if (below >= 0.5) {
          median = least + c;
          break;
        }
      }
      counts[room] = median;
    }
  }
}
