/**
 * A barrier's output: it follows a change only once the change has lasted the response time, and that much later.
 * Breaks shorter than the response time go unseen; gaps shorter than it are bridged.
 */
import type { Edge } from '../edge.js';

export class Response {
  private broken = false;
  /** Start and end of the input break being held, microseconds; NaN when there is none. */
  private start = NaN;
  private end = NaN;

  /** @param response_us response time, microseconds, at least 0 @param emit receives edges in order of time */
  constructor(
    private readonly response_us: number,
    private readonly beam: number,
    public emit: (edge: Edge) => void,
  ) {}

  /** An input break; breaks come in order of start, and overlapping ones are joined. */
  push(start_us: number, end_us: number): void {
    if (this.start === this.start && start_us <= this.end) {
      if (end_us > this.end) this.end = end_us;
      return;
    }
    this.settle(start_us);
    if (this.broken) {
      // The gap was too short to be seen: the break goes on.
      this.end = end_us;
      return;
    }
    this.start = start_us;
    this.end = end_us;
  }

  /** Everything up to `until_us` is known: edges that no later break can change are given out. */
  settle(until_us: number): void {
    if (this.start !== this.start) return;
    if (!this.broken) {
      if (this.end === this.start || this.end - this.start < this.response_us) {
        // A break that begins at this very end would go on.
        if (until_us > this.end) this.start = NaN;
        return;
      }
      // Long enough, whatever comes next: a later break can only prolong it.
      if (until_us < this.start + this.response_us) return;
      this.broken = true;
      this.give(this.start + this.response_us, 1);
    }
    if (until_us >= this.end + this.response_us) {
      this.broken = false;
      this.give(this.end + this.response_us, 0);
      this.start = NaN;
    }
  }

  private give(time_us: number, level: 0 | 1): void {
    this.emit({ time_us: Math.round(time_us), beam: this.beam, level });
  }
}
