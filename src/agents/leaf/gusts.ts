/** Times at which a draught or a gust comes: a Poisson process of a stream of its own. */
import { poissonGap } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { HOUR_US } from '../../engine/time.js';

export class Gusts {
  private made = 0;
  private time_us = 0;

  constructor(
    private readonly per_hour: number,
    private readonly chance: Stream,
  ) {}

  /** The next one, integer microseconds since the start; Infinity where there is none. */
  next(): number {
    this.time_us += poissonGap(this.chance.at(this.made++), this.per_hour / HOUR_US);
    return Math.round(this.time_us);
  }
}
