/** Simulated time: an agenda and the moment that has been reached. Knows nothing of the wall clock. */
import { Agenda } from './agenda.js';

export class Clock<T> {
  private readonly agenda = new Agenda<T>();
  private reached: number;

  constructor(start = 0) {
    this.reached = start;
  }

  /** The present: time of the event being handled, or the end of the last {@link run}. */
  get now(): number {
    return this.reached;
  }

  /**
   * Puts an event at `time`, the present or later.
   *
   * @throws {RangeError} when `time` is past or not a number
   */
  at(time: number, item: T): void {
    if (!(time >= this.reached)) throw new RangeError(`Clock.at: ${time} is before ${this.reached}`);
    this.agenda.put(time, item);
  }

  /** Handles events in order up to `end`, included; those that handling puts before `end` too. Then it is `end`. */
  run(end: number, handle: (item: T, time: number) => void): void {
    while (this.agenda.size > 0 && this.agenda.peekTime() <= end) {
      this.reached = this.agenda.peekTime();
      handle(this.agenda.take() as T, this.reached);
    }
    if (end > this.reached) this.reached = end;
  }
}
