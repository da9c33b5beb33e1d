/** How long a room's count was right, how long and how often wrong in which way, and since when, over the clock. */
import { STRETCHES } from './drift-bands.js';
import { Episodes } from './episodes.js';
import type { RoomTraceRecorder } from './room-trace.js';

/** Times of one room under one logic and ledger, microseconds of the clock. */
export interface RoomTimes {
  readonly span_us: number;
  /** Counted persons equal true persons. */
  readonly exact_us: number;
  /** Counted none (a raw sum may be below), someone is there. */
  readonly empty_while_occupied_us: number;
  /** Counted someone, nobody is there. */
  readonly occupied_while_empty_us: number;
  /** Integral of |counted − true|, person-microseconds. */
  readonly absolute_error_us: number;
  /** Stretches that lasted as long as an episode does, and the longest of them. */
  readonly empty_while_occupied_episodes: number;
  readonly longest_empty_while_occupied_us: number;
  readonly occupied_while_empty_episodes: number;
  readonly longest_occupied_while_empty_us: number;
  /** Start of the first stretch in which the count was not the truth for as long as an episode; null: never. */
  readonly first_wrong_us: number | null;
}

/** A step function that comes in order of time and is read up to a moment. */
class Steps {
  readonly times: number[] = [];
  readonly values: number[] = [];
  first = 0;
  size = 0;

  constructor(
    private readonly what: string,
    public value: number,
  ) {}

  put(time_us: number, value: number): void {
    if (this.size > this.first && time_us < this.times[this.size - 1]!) {
      throw new RangeError(`RoomScorer: ${this.what} comes out of order`);
    }
    this.times[this.size] = time_us;
    this.values[this.size++] = value;
  }

  /** Time of the next step, or Infinity. */
  next(): number {
    return this.first < this.size ? this.times[this.first]! : Infinity;
  }

  take(): void {
    this.value = this.values[this.first++]!;
    if (this.first === this.size) {
      this.first = this.size = 0;
    } else if (this.first > 1024 && 2 * this.first > this.size) {
      this.times.copyWithin(0, this.first, this.size);
      this.values.copyWithin(0, this.first, this.size);
      this.size -= this.first;
      this.first = 0;
    }
  }
}

/**
 * Integrates over the clock [0, span]. True and counted steps may be fed in any interleaving, each in its own order of
 * time: they wait until {@link advance} says that both are known that far. Steps after the span are ignored.
 */
export class RoomScorer {
  private readonly truthSteps: Steps;
  private readonly countSteps: Steps;
  private at_us = 0;
  private exact_us = 0;
  private empty_us = 0;
  private occupied_us = 0;
  private error_us = 0;
  private readonly wrong = new Episodes();
  private readonly empty = new Episodes();
  private readonly occupied = new Episodes();
  /** Counted minus true persons at even points of the clock. */
  private readonly errorAt: number[] = [];

  /**
   * @param span_us length of the clock, microseconds
   * @param truth persons in the room at the start; `counted`, what the ledger starts from
   * @param trace records the steps too, for one replicate's picture
   */
  constructor(
    private readonly span_us: number,
    truth: number,
    counted: number,
    private readonly trace?: RoomTraceRecorder,
  ) {
    this.truthSteps = new Steps('truth', truth);
    this.countSteps = new Steps('count', counted);
    trace?.step(0, truth, counted);
  }

  /** From `time_us` on there are `persons` in the room. */
  truth(time_us: number, persons: number): void {
    this.truthSteps.put(time_us, persons);
  }

  /** From `time_us` on the ledger says `persons`. */
  counted(time_us: number, persons: number): void {
    this.countSteps.put(time_us, persons);
  }

  /** Says that no step earlier than `time_us` will come. */
  advance(time_us: number): void {
    const until_us = Math.min(time_us, this.span_us);
    const { truthSteps, countSteps, trace } = this;
    for (;;) {
      const next_us = Math.min(truthSteps.next(), countSteps.next());
      if (next_us >= until_us) break;
      this.integrate(next_us);
      while (truthSteps.next() === next_us) truthSteps.take();
      while (countSteps.next() === next_us) countSteps.take();
      trace?.step(next_us, truthSteps.value, countSteps.value);
    }
    this.integrate(until_us);
  }

  /** Ends the clock. */
  close(): RoomTimes {
    this.advance(Infinity);
    return {
      span_us: this.span_us,
      exact_us: this.exact_us,
      empty_while_occupied_us: this.empty_us,
      occupied_while_empty_us: this.occupied_us,
      absolute_error_us: this.error_us,
      empty_while_occupied_episodes: this.empty.count,
      longest_empty_while_occupied_us: this.empty.longest_us,
      occupied_while_empty_episodes: this.occupied.count,
      longest_occupied_while_empty_us: this.occupied.longest_us,
      first_wrong_us: this.wrong.first_us,
    };
  }

  /** Counted minus true persons at each of the even points of a clock that has ended; at the last, just before it. */
  errors(): number[] {
    const { errorAt } = this;
    return [...errorAt, this.countSteps.value - this.truthSteps.value];
  }

  private integrate(until_us: number): void {
    const lasted_us = until_us - this.at_us;
    if (lasted_us <= 0) return;
    const truth = this.truthSteps.value;
    const counted = this.countSteps.value;
    if (counted === truth) this.exact_us += lasted_us;
    else this.error_us += lasted_us * Math.abs(counted - truth);
    const empty = counted <= 0 && truth > 0;
    const occupied = counted > 0 && truth === 0;
    if (empty) this.empty_us += lasted_us;
    if (occupied) this.occupied_us += lasted_us;
    this.wrong.span(counted !== truth, this.at_us, until_us);
    this.empty.span(empty, this.at_us, until_us);
    this.occupied.span(occupied, this.at_us, until_us);
    while (this.errorAt.length < STRETCHES && this.errorAt.length * this.span_us < until_us * STRETCHES) {
      this.errorAt.push(counted - truth);
    }
    this.at_us = until_us;
  }
}
