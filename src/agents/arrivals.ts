/** When parties set out: a Poisson process whose rate follows the clock, by thinning. */
import { poissonGap } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import { HOUR_US, clockHours } from '../engine/time.js';
import type { Traffic } from './schema.js';

/** Rates by clock time, in order of the day. */
type Rates = readonly { readonly h: number; readonly per_hour: number }[];

function ratesOf({ arrivals_per_hour }: Traffic): Rates {
  if (typeof arrivals_per_hour === 'number') return [{ h: 0, per_hour: arrivals_per_hour }];
  return arrivals_per_hour.map(({ from, per_hour }) => ({ h: clockHours(from), per_hour })).sort((a, b) => a.h - b.h);
}

/** Rate at a clock time in hours since midnight, which may exceed 24. Before the day's first row the last one still holds. */
function rateAt(rates: Rates, clock_h: number): number {
  let rate = (rates[rates.length - 1] as { per_hour: number }).per_hour;
  for (const { h, per_hour } of rates) if (h <= clock_h % 24) rate = per_hour;
  return rate;
}

/** The arrival times of one door, one after the other. */
export class Arrivals {
  private tried = 0;
  private time_us = 0;
  private readonly rates: Rates;
  private readonly fastest: number;

  constructor(
    traffic: Traffic,
    private readonly starts_at_h: number,
    private readonly chance: Stream,
  ) {
    this.rates = ratesOf(traffic);
    this.fastest = Math.max(...this.rates.map(({ per_hour }) => per_hour));
  }

  /** Time of the next arrival, integer microseconds since the start; Infinity when none will come before `until_us`. */
  next(until_us: number): number {
    const constant = this.rates.length === 1;
    while (this.fastest > 0) {
      const n = this.tried++;
      this.time_us += poissonGap(this.chance.at(2 * n), this.fastest / HOUR_US);
      if (this.time_us >= until_us) break;
      if (constant) return Math.round(this.time_us);
      const rate = rateAt(this.rates, this.starts_at_h + this.time_us / HOUR_US);
      if (this.chance.at(2 * n + 1) * this.fastest < rate) return Math.round(this.time_us);
    }
    return Infinity;
  }
}
