/** All rooms of a house at once, under one logic and ledger: how long every count was right, and the house's total. */
import { Episodes } from './episodes.js';

/** Times of the whole house, microseconds of the clock. */
export interface HouseTimes {
  readonly span_us: number;
  /** Every room's count is the truth. */
  readonly exact_us: number;
  /** Integral of counted − true persons in all rooms together, person-microseconds. */
  readonly error_us: number;
  /** Integral of its distance from 0. */
  readonly absolute_error_us: number;
  /** Start of the first stretch in which some room was wrong for as long as an episode; null: never. */
  readonly first_wrong_us: number | null;
}

export class HouseScorer {
  private readonly truths: number[];
  private readonly counts: number[];
  /** Rooms whose count is not the truth. */
  private wrongRooms = 0;
  private error = 0;
  private at_us = 0;
  private exact_us = 0;
  private error_us = 0;
  private absolute_error_us = 0;
  private readonly wrong = new Episodes();

  /**
   * @param span_us length of the clock, microseconds; steps after it count for nothing
   * @param truths persons in each room at the start; `counts`, what the ledger starts from
   */
  constructor(
    private readonly span_us: number,
    truths: readonly number[],
    counts: readonly number[],
  ) {
    this.truths = [...truths];
    this.counts = [...counts];
    for (let room = 0; room < truths.length; room++) this.add(room, 1);
  }

  /**
   * From `time_us` on there are `persons` in the room. Steps of all rooms, true and counted, come in order of time.
   *
   * @throws {RangeError} for a step that comes too late
   */
  truth(time_us: number, room: number, persons: number): void {
    this.integrate(time_us);
    this.add(room, -1);
    this.truths[room] = persons;
    this.add(room, 1);
  }

  /** From `time_us` on the ledger says `persons`. */
  counted(time_us: number, room: number, persons: number): void {
    this.integrate(time_us);
    this.add(room, -1);
    this.counts[room] = persons;
    this.add(room, 1);
  }

  /** Ends the clock. */
  close(): HouseTimes {
    this.integrate(Infinity);
    return {
      span_us: this.span_us,
      exact_us: this.exact_us,
      error_us: this.error_us,
      absolute_error_us: this.absolute_error_us,
      first_wrong_us: this.wrong.first_us,
    };
  }

  /** Puts a room's part into the sums, or takes it out. */
  private add(room: number, sign: 1 | -1): void {
    const error = this.counts[room]! - this.truths[room]!;
    if (error === 0) return;
    this.error += sign * error;
    this.wrongRooms += sign;
  }

  private integrate(time_us: number): void {
    const until_us = Math.min(time_us, this.span_us);
    const lasted_us = until_us - this.at_us;
    if (lasted_us < 0) throw new RangeError('HouseScorer: a step comes out of order');
    if (lasted_us === 0) return;
    if (this.wrongRooms === 0) this.exact_us += lasted_us;
    this.error_us += lasted_us * this.error;
    this.absolute_error_us += lasted_us * Math.abs(this.error);
    this.wrong.span(this.wrongRooms > 0, this.at_us, until_us);
    this.at_us = until_us;
  }
}
