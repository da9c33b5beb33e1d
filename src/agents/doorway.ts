/**
 * Who may enter a doorway when: people don't walk through each other.
 *
 * Whoever comes later gives way to somebody coming against them, follows at a distance, and waits while somebody
 * stands in the opening. Two who fit side by side don't wait for each other. Waiting happens outside the zone, unseen by
 * any beam.
 */
import { uniform } from '../engine/distributions.js';
import { SECOND_US } from '../engine/time.js';
import type { Body } from './body.js';
import { CLOSE_BEHIND_LAG, GIVE_WAY } from './figures/manner.js';
import type { Opening } from './motion/passage.js';
import { fitsAbreast } from './walkers.js';

/** Whoever enters so soon after another goes with them. */
const COMPANY_US = 2 * CLOSE_BEHIND_LAG.value.high * SECOND_US;
/** No distance in time that is kept is longer. */
const LONGEST_KEPT_US = Math.max(2 * CLOSE_BEHIND_LAG.value.high, GIVE_WAY.value.high) * SECOND_US;

export interface Use {
  readonly body: Body;
  readonly forward: boolean;
  /** Stops in the opening. */
  readonly stops: boolean;
  readonly enter_us: number;
  readonly leave_us: number;
}

export class Doorway {
  private readonly uses: Use[] = [];

  constructor(private readonly opening: Opening) {}

  /**
   * The earliest moment a body may enter, not before `wanted_us`.
   *
   * @param duration_us how long its visit takes @param u a draw on (0, 1) for the distance it keeps
   */
  admit(body: Body, wanted_us: number, forward: boolean, duration_us: number, u: number): number {
    const headway = Math.round(uniform(u, CLOSE_BEHIND_LAG.value.low, CLOSE_BEHIND_LAG.value.high) * SECOND_US);
    const pause = Math.round(uniform(u, GIVE_WAY.value.low, GIVE_WAY.value.high) * SECOND_US);
    let enter = wanted_us;
    for (const use of this.uses) {
      if (fitsAbreast(use.body, body, this.opening)) continue;
      if (use.forward !== forward || use.stops) enter = Math.max(enter, use.leave_us + pause);
      // Nobody overtakes: a quicker follower enters so late that it leaves behind the one in front.
      else enter = Math.max(enter, use.enter_us + headway, use.leave_us + headway - duration_us);
    }
    return enter;
  }

  /**
   * Whom somebody who enters then meets: one who comes against them, one close before them, one beside them; null for
   * nobody.
   */
  company(body: Body, forward: boolean, enter_us: number): 'against' | 'close-behind' | 'abreast' | null {
    let met: 'against' | 'close-behind' | 'abreast' | null = null;
    for (const use of this.uses) {
      if (use.forward !== forward && enter_us - use.leave_us <= GIVE_WAY.value.high * SECOND_US) return 'against';
      if (use.forward !== forward || enter_us - use.enter_us > COMPANY_US) continue;
      met = fitsAbreast(use.body, body, this.opening) ? 'abreast' : 'close-behind';
    }
    return met;
  }

  /** Records a visit. */
  use(use: Use): void {
    this.uses.push(use);
  }

  /** Lets go of visits that bind nobody who sets out from `now_us` on: longer over than the longest distance kept. */
  forget(now_us: number): void {
    const horizon = now_us - LONGEST_KEPT_US;
    for (let i = this.uses.length - 1; i >= 0; i--)
      if ((this.uses[i] as Use).leave_us < horizon) this.uses.splice(i, 1);
  }
}
