/**
 * What reaches the counting logic: interrupts give every edge at its own instant; polling reads all inputs together at
 * fixed instants and sees only the levels there, so a break between two reads is lost and two edges may come as one.
 */
import type { Stream } from '../engine/stream.js';
import type { Edge } from './edge.js';
import type { Controller } from './controllers/schema.js';

/** Receives the levels of all of a door's beams, as bits, whenever one has changed. Beam 0 is bit 0. */
export type LevelSink = (time_us: number, mask: number, before: number) => void;

export class Inputs {
  private readonly period_us: number;
  private readonly phase_us: number;
  private actual = 0;
  private reported = 0;
  private readAt = NaN;

  /** @param stream the controller's stream of this replicate: its phase of polling is chance */
  constructor(
    controller: Controller,
    stream: Stream,
    private readonly sink: LevelSink,
  ) {
    this.period_us = controller.poll_ms === undefined ? 0 : Math.max(1, Math.round(controller.poll_ms * 1000));
    this.phase_us = Math.floor(stream.at(0) * this.period_us);
  }

  /** The next edge; edges come in order of time. */
  edge(edge: Edge): void {
    const instant = this.readingOf(edge.time_us);
    if (instant !== this.readAt) this.flush();
    this.readAt = instant;
    const bit = 1 << edge.beam;
    this.actual = edge.level === 1 ? this.actual | bit : this.actual & ~bit;
  }

  /** No edge before `until_us` is still to come. */
  settle(until_us: number): void {
    if (this.readAt < this.readingOf(until_us)) this.flush();
  }

  private flush(): void {
    if (this.readAt !== this.readAt) return;
    const before = this.reported;
    if (this.actual !== before) {
      this.reported = this.actual;
      this.sink(this.readAt, this.actual, before);
    }
    this.readAt = NaN;
  }

  /** The first instant at or after a time at which inputs are read. */
  private readingOf(time_us: number): number {
    if (this.period_us === 0) return time_us;
    return Math.ceil((time_us - this.phase_us) / this.period_us) * this.period_us + this.phase_us;
  }
}
