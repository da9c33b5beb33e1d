/**
 * What reaches the counting logic. Light barriers: interrupts give every edge at its own instant; polling reads all
 * inputs together at fixed instants and sees only the levels there, so a break between two reads is lost and two edges
 * may come as one. Rangers: their edges are the controller's own, known at the instant of the reading.
 */
import { forkOf } from '../engine/fork.js';
import type { Stream } from '../engine/stream.js';
import type { Controller } from './controllers/schema.js';
import type { Edge } from './edge.js';

/**
 * Receives the levels of all of a door's beams, as bits, whenever one has changed. Beam 0 is bit 0. Where readings are given
 * in, it is called at each of them too, with the last of every beam: whole micrometres, null without any or without echo.
 */
export type LevelSink = (
  time_us: number,
  mask: number,
  before: number,
  readings: readonly (number | null)[] | undefined,
) => void;

/** A door has no more beams. */
const MOST_BEAMS = 8;
/** From here on a change is a reading: its beam, and its micrometres above that. */
const READING = 2 * MOST_BEAMS;

export class Inputs {
  private period_us: number;
  private readonly phase_us: number;
  private reported = 0;
  private readings: (number | null)[] = [];
  /**
   * Changes not given on yet, in order of the instant they are known: instants, and beam · 2 + level; of a reading
   * READING + beam + MOST_BEAMS · (micrometres + 1).
   */
  private readonly instants: number[] = [];
  private readonly changes: number[] = [];

  /** @param stream the controller's stream of this replicate: its phase of polling is chance */
  constructor(
    controller: Pick<Controller, 'poll_ms'>,
    stream: Stream,
    public sink: LevelSink,
  ) {
    this.period_us = controller.poll_ms === undefined ? 0 : Math.max(1, Math.round(controller.poll_ms * 1000));
    this.phase_us = Math.floor(stream.at(0) * this.period_us);
  }

  /** The same inputs at this moment, to go on another way. @param polled false: from now on every edge comes at its own instant */
  fork(sink: LevelSink, polled: boolean): Inputs {
    const copy = forkOf(this, [Inputs]) as Inputs;
    copy.sink = sink;
    if (!polled) copy.period_us = 0;
    return copy;
  }

  /** The next edge of a light barrier. */
  edge(edge: Edge): void {
    this.keep(this.readingOf(edge.time_us), edge.beam * 2 + edge.level);
  }

  /** The next edge of a ranger: it is known when it happens. */
  known(edge: Edge): void {
    this.keep(edge.time_us, edge.beam * 2 + edge.level);
  }

  /** The next reading of a ranger, told before the edge it makes. @param distance_um whole micrometres, −1 without echo */
  reading(beam: number, time_us: number, distance_um: number): void {
    this.keep(time_us, READING + beam + MOST_BEAMS * (distance_um + 1));
  }

  /** No edge before `until_us` is still to come: what is known by then is given on. */
  settle(until_us: number): void {
    const { instants, changes } = this;
    let n = 0;
    while (n < instants.length && (instants[n] as number) < until_us) {
      const instant = instants[n] as number;
      const before = this.reported;
      let mask = before;
      let read = false;
      // Everything of one instant is one input; of two changes of one beam the later holds.
      for (; n < instants.length && instants[n] === instant; n++) {
        const change = changes[n] as number;
        if (change >= READING) {
          if (!read) this.readings = [...this.readings];
          read = true;
          const beam = (change - READING) % MOST_BEAMS;
          const above = (change - READING - beam) / MOST_BEAMS;
          while (this.readings.length <= beam) this.readings.push(null);
          this.readings[beam] = above === 0 ? null : above - 1;
          continue;
        }
        const bit = 1 << (change >> 1);
        mask = (change & 1) === 1 ? mask | bit : mask & ~bit;
      }
      if (mask === before && !read) continue;
      this.reported = mask;
      this.sink(instant, mask, before, read ? this.readings : undefined);
    }
    if (n === 0) return;
    for (let i = n; i < instants.length; i++) {
      instants[i - n] = instants[i] as number;
      changes[i - n] = changes[i] as number;
    }
    for (let i = 0; i < n; i++) {
      instants.pop();
      changes.pop();
    }
  }

  /** Edges come nearly in order: the place is found from the end. */
  private keep(instant: number, change: number): void {
    const { instants, changes } = this;
    let i = instants.length;
    for (; i > 0 && (instants[i - 1] as number) > instant; i--) {
      instants[i] = instants[i - 1] as number;
      changes[i] = changes[i - 1] as number;
    }
    instants[i] = instant;
    changes[i] = change;
  }

  /** The first instant at or after a time at which inputs are read. */
  private readingOf(time_us: number): number {
    if (this.period_us === 0) return time_us;
    return Math.ceil((time_us - this.phase_us) / this.period_us) * this.period_us + this.phase_us;
  }
}
