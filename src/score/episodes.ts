/** Stretches of the clock in which something holds: how many, and the longest. */
import { SECOND_US } from '../engine/time.js';

/**
 * A count is wrong for a moment at every passage: the tally comes before or after the trunk has crossed. Only what lasts
 * this long is an episode. A choice of ours: longer than people take through a doorway, shorter than anybody waits in
 * the dark.
 */
export const EPISODE_US = 10 * SECOND_US;

/** Told what holds from one moment to the next, without gaps and in order of time; nothing is kept but four numbers. */
export class Episodes {
  /** How many have lasted {@link EPISODE_US} or longer; each counts once it has. */
  count = 0;
  /** Of these, microseconds. */
  longest_us = 0;
  /** When the first of them began, microseconds; null while there was none. */
  first_us: number | null = null;
  private since_us = -1;

  span(holds: boolean, from_us: number, until_us: number): void {
    if (!holds) {
      this.since_us = -1;
      return;
    }
    if (this.since_us < 0) this.since_us = from_us;
    const lasted_us = until_us - this.since_us;
    if (lasted_us < EPISODE_US) return;
    if (from_us - this.since_us < EPISODE_US) this.count++;
    if (lasted_us > this.longest_us) this.longest_us = lasted_us;
    this.first_us ??= this.since_us;
  }
}
