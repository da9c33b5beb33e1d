/** True and counted persons of one room as steps for a picture, thinned to what a picture can show. */
import { HOUR_US } from '../engine/time.js';

/** Most steps a trace holds. */
export const MOST_STEPS = 2000;

export class RoomTraceRecorder {
  private readonly times: number[] = [];
  private readonly truths: number[] = [];
  private readonly counts: number[] = [];
  /** 0 while every step is kept; after that steps of one bin become one. */
  private bin_us = 0;

  /** @param span_us length of the clock, microseconds */
  constructor(private readonly span_us: number) {}

  /** In order of time; at one time the last one holds. */
  step(time_us: number, truth: number, counted: number): void {
    const last = this.times.length - 1;
    const same =
      last >= 0 &&
      (this.times[last] === time_us || (this.bin_us > 0 && this.binOf(this.times[last]!) === this.binOf(time_us)));
    const at = same ? last : last + 1;
    if (!same) this.times[at] = time_us;
    this.truths[at] = truth;
    this.counts[at] = counted;
    if (this.bin_us === 0 && this.times.length > MOST_STEPS) this.thin();
  }

  /** Times in hours. */
  steps(): { time_h: number[]; truth: number[]; counted: number[] } {
    return {
      time_h: this.times.map((time_us) => time_us / HOUR_US),
      truth: [...this.truths],
      counted: [...this.counts],
    };
  }

  /** From now on the clock has half as many bins as the list has places; each keeps its first time and its last values. */
  private thin(): void {
    this.bin_us = this.span_us / (MOST_STEPS / 2);
    const { times, truths, counts } = this;
    let kept = 0;
    for (let i = 0; i < times.length; i++) {
      const begins = kept === 0 || this.binOf(times[kept - 1]!) !== this.binOf(times[i]!);
      if (begins) times[kept++] = times[i]!;
      truths[kept - 1] = truths[i]!;
      counts[kept - 1] = counts[i]!;
    }
    times.length = truths.length = counts.length = kept;
  }

  private binOf(time_us: number): number {
    return Math.floor(time_us / this.bin_us);
  }
}
