/** When parties set out: a Poisson process whose rate follows the clock, by thinning. */
import { poissonGap } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import { HOUR_US } from '../engine/time.js';
import type { Traffic } from './schema.js';

/** Rate at a clock time, parties per hour. @param clock_h hours since midnight, may exceed 24 */
export function rateAt(traffic: Traffic, clock_h: number): number {
  const spans = traffic.arrivals_per_hour;
  if (typeof spans === 'number') return spans;
  const h = clock_h % 24;
  const rows = spans.map((span) => ({ h: hours(span.from), per_hour: span.per_hour })).sort((a, b) => a.h - b.h);
  // Before the day's first row the last one still holds.
  let rate = (rows[rows.length - 1] as { per_hour: number }).per_hour;
  for (const row of rows) if (row.h <= h) rate = row.per_hour;
  return rate;
}

/** `HH:MM` in hours. */
export function hours(clock: string): number {
  return Number(clock.slice(0, 2)) + Number(clock.slice(3, 5)) / 60;
}

/** The arrival times of one door, one after the other. */
export class Arrivals {
  private tried = 0;
  private time_us = 0;
  private readonly fastest: number;

  constructor(
    private readonly traffic: Traffic,
    private readonly starts_at_h: number,
    private readonly chance: Stream,
  ) {
    const spans = traffic.arrivals_per_hour;
    this.fastest = typeof spans === 'number' ? spans : Math.max(...spans.map((span) => span.per_hour));
  }

  /** Time of the next arrival, integer microseconds since the start; Infinity when none will come before `until_us`. */
  next(until_us: number): number {
    const constant = typeof this.traffic.arrivals_per_hour === 'number';
    while (this.fastest > 0) {
      const n = this.tried++;
      this.time_us += poissonGap(this.chance.at(2 * n), this.fastest / HOUR_US);
      if (this.time_us >= until_us) break;
      if (constant) return Math.round(this.time_us);
      const rate = rateAt(this.traffic, this.starts_at_h + this.time_us / HOUR_US);
      if (this.chance.at(2 * n + 1) * this.fastest < rate) return Math.round(this.time_us);
    }
    return Infinity;
  }
}
