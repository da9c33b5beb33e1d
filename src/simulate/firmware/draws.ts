/** Draws of a stream, one after another. */
import type { Stream } from '../../engine/stream.js';

export class Draws {
  private drawn = 0;

  constructor(private readonly stream: Stream) {}

  /** From 0 to just below 1. */
  next(): number {
    return this.stream.at(this.drawn++);
  }

  /** A whole number from 0 to just below `n`. */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }
}
