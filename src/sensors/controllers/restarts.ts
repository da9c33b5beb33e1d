/** When a controller is down: restarts at chance, each for the same time. */
import { poissonGap } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { HOUR_US, SECOND_US, WEEK_H } from '../../engine/time.js';
import type { Controller } from './schema.js';

const WEEK_US = WEEK_H * HOUR_US;

export class Restarts {
  /** The restart at hand: down from `start_us`, up again at `end_us`; Infinity when there is none before the clock's end. */
  start_us = 0;
  end_us = 0;
  private count = 0;
  private readonly rate: number;
  private readonly down_us: number;

  /**
   * @param stream the controller's own for restarts: draw n is the n-th gap, from one end to the next start. Every door of
   * the controller makes the same restarts from it.
   */
  constructor(
    { restarts_per_week, restart_s }: Pick<Controller, 'restarts_per_week' | 'restart_s'>,
    private readonly stream: Stream,
    private readonly clock_us: number,
  ) {
    this.rate = restarts_per_week / WEEK_US;
    this.down_us = Math.max(1, Math.round(restart_s * SECOND_US));
    this.next();
  }

  /** Goes on to the next restart. */
  next(): void {
    const start_us =
      this.rate > 0 ? this.end_us + Math.round(poissonGap(this.stream.at(this.count++), this.rate)) : Infinity;
    this.start_us = start_us < this.clock_us ? start_us : Infinity;
    this.end_us = this.start_us + this.down_us;
  }
}
